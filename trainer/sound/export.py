"""A take as a sound file: the same samples as a device would get."""

import os
from pathlib import Path

import soundfile

from trainer.problems import TrainerError
from trainer.sound.score import Score
from trainer.timing import RATE

CHUNK = 10 * RATE
"""Frames rendered at a time."""


def write_wav(score: Score, path: Path, first: int = 0, last: int | None = None) -> int:
    """Write first <= frame < last of a score as 16-bit stereo WAV; return the frames written.

    Without `last` it goes to the take's end and one second more, for the last click; an endless take needs it. Raises
    TrainerError where the file cannot be written; what stood there before is then still there.
    """
    if last is None:
        if score.last is None:
            raise ValueError("an endless take needs a last frame")
        last = score.last + RATE
    part = path.with_name(path.name + ".part")
    try:
        with soundfile.SoundFile(part, "w", RATE, 2, "PCM_16", format="WAV") as file:
            for start in range(first, last, CHUNK):
                file.write(score.render(start, min(CHUNK, last - start)))
        os.replace(part, path)
    except (OSError, soundfile.SoundFileError) as error:
        part.unlink(missing_ok=True)
        raise TrainerError("The sound file cannot be written", f"{path}: {error}") from error
    return max(last - first, 0)
