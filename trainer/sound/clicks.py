"""The clicks: made here once, written to `sounds/`, read from there. `python -m trainer.sound.clicks OUT` writes them.

A click is a struck bar: two or three sine partials that die away, with an attack of half a millisecond. The first count
of a section is the highest and fullest, other beats lower, danced subdivisions short and light, the sub-beats of a slow
rolling count lighter still; the count-in is a hollow knock, so that nobody takes it for a count to dance. Samples are
stereo float32 at RATE; files are 16-bit PCM, so that a last digit of the mathematics library changes no byte.
"""

import math
import sys
import wave
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trainer.problems import TrainerError
from trainer.resources import folder
from trainer.timing import RATE

Kind = Literal["section", "beat", "step", "sub", "count-in"]
KINDS: tuple[Kind, ...] = ("section", "beat", "step", "sub", "count-in")

Samples = NDArray[np.float32]
"""Shape (frames, 2)."""

HEADROOM = 10 ** (-7.1 / 20)
"""The loudest sample of any click at full level: -7.1 dBFS, so that two at once stay below -1 dBFS."""

ATTACK = RATE // 2000
"""Frames from the first sample to full strength."""


@dataclass(frozen=True, slots=True)
class Voice:
    """How a click is made."""

    peak: float
    """The loudest sample, of HEADROOM."""
    seconds: float
    partials: tuple[tuple[float, float, float], ...]
    """Hz, strength, seconds in which the partial falls to 1/e."""


VOICES: dict[Kind, Voice] = {
    "section": Voice(1.0, 0.060, ((1568.0, 1.0, 0.013), (3136.0, 0.45, 0.008), (4704.0, 0.2, 0.004))),
    "beat": Voice(0.75, 0.050, ((1046.5, 1.0, 0.011), (2093.0, 0.35, 0.006))),
    "step": Voice(0.45, 0.030, ((2349.3, 1.0, 0.005), (4698.6, 0.2, 0.003))),
    "sub": Voice(0.28, 0.022, ((2793.8, 1.0, 0.004),)),
    "count-in": Voice(0.80, 0.060, ((523.3, 1.0, 0.014), (1308.1, 0.5, 0.007), (2790.0, 0.25, 0.003))),
}

LONGEST = max(round(voice.seconds * RATE) for voice in VOICES.values())
"""Frames of the longest click."""


def made(kind: Kind) -> list[int]:
    """Return a click as 16-bit samples of one channel; its first sample is never 0, so that it can be found."""
    voice = VOICES[kind]
    frames = round(voice.seconds * RATE)
    wanted = [_strength(voice, frame, frames) for frame in range(frames)]
    scale = voice.peak * HEADROOM * 32767 / max(abs(value) for value in wanted)
    return [round(value * scale) for value in wanted]


def _strength(voice: Voice, frame: int, frames: int) -> float:
    time = frame / RATE
    tone = sum(
        strength * math.exp(-time / fall) * math.cos(2 * math.pi * hertz * time)
        for hertz, strength, fall in voice.partials
    )
    rise = min(1.0, (frame + 1) / ATTACK)
    # The last tenth goes to nothing, so that a click does not end in a step.
    left = min(1.0, (frames - frame) / (frames / 10))
    return tone * math.sin(rise * math.pi / 2) ** 2 * left


def write(out: Path) -> list[Path]:
    """Write one WAV file for each kind into a folder, made if it is missing; the same bytes every time."""
    out.mkdir(parents=True, exist_ok=True)
    return [_write_one(out / f"{kind}.wav", made(kind)) for kind in KINDS]


def _write_one(path: Path, samples: list[int]) -> Path:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(2)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(np.repeat(np.array(samples, dtype="<i2"), 2).tobytes())
    return path


@cache
def kit() -> Mapping[Kind, Samples]:
    """Return the samples of every kind from `sounds/`; raises TrainerError where one is missing or unfit."""
    return {kind: _read(folder("sounds") / f"{kind}.wav") for kind in KINDS}


def _read(path: Path) -> Samples:
    try:
        with wave.open(str(path), "rb") as file:
            shape = file.getnchannels(), file.getsampwidth(), file.getframerate()
            data = file.readframes(file.getnframes())
    except (OSError, EOFError, wave.Error) as error:
        raise TrainerError("A sound is missing", f"{path}: {error}") from error
    if shape != (2, 2, RATE):
        raise TrainerError("A sound is not as expected", f"{path} should be stereo, 16 bits, {RATE} Hz")
    samples = np.frombuffer(data, dtype="<i2").reshape(-1, 2).astype(np.float32) / np.float32(32768)
    samples.flags.writeable = False
    return samples


def main(arguments: list[str]) -> int:
    """Write the sounds into the folder named on the command line."""
    if len(arguments) != 1:
        sys.stderr.write("usage: python -m trainer.sound.clicks OUT\n")
        return 2
    for path in write(Path(arguments[0])):
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
