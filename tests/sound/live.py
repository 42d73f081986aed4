"""A dance on the real device, into a sound server of the test's own, recorded and held against its score."""

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from tests.sound.pulse import Recorder, Server
from tests.sound.scenes import lantern
from tests.sound.test_score import onsets
from trainer.dance.unroll import unroll
from trainer.practice.take import Take
from trainer.sound.device import open_device
from trainer.sound.levels import Levels
from trainer.sound.score import Score
from trainer.sound.transport import Transport

LOOP = Take(unroll(lantern(), 2), Fraction(16), Fraction(24), None, seam=4)
TRIES = 3


@contextmanager
def server(folder: Path) -> Iterator[Server]:
    """Run a server that the sound library finds."""
    kept = dict(os.environ)
    with Server(folder) as running:
        os.environ.update(running.environment)
        try:
            yield running
        finally:
            for name in running.environment:
                os.environ.pop(name)
            os.environ.update(kept)


class Hall:
    """A transport on the real device, its recording, and what the screen saw."""

    def __init__(self, sound: Server, take: Take, tempo: Fraction) -> None:
        self.sound = sound
        self.recorder = Recorder(sound)
        self.transport = Transport(open_device(), levels=Levels(master=1.0))
        self.seen: list[tuple[float, Fraction]] = []
        self.keys: list[tuple[float, int]] = []
        self.voided = False
        """The server ran dry meanwhile, so that the try does not count."""
        self.stopped = 0
        """The frame from which a stop fades."""
        self._final: Score | None = None
        self.until(lambda: not self.transport.now().sound, 20)
        self.underruns = sound.underruns()
        self.transport.load(take, tempo)
        self.transport.start()

    def dance(self, seconds: float) -> None:
        """Look at the dance as a screen does."""
        end = time.monotonic() + seconds
        self.until(lambda: time.monotonic() >= end, seconds + 10)

    def until(self, done: Callable[[], bool], seconds: float) -> None:
        """Look on until something is so; raises TimeoutError."""
        end = time.monotonic() + seconds
        while not done():
            if time.monotonic() > end:
                raise TimeoutError(self.transport.now().sound or "it did not come to pass")
            at = time.monotonic()
            self.seen.append((at, self.transport.now(at).beat))
            time.sleep(1 / 30)

    def key(self, tempo: int) -> None:
        """Press a tempo key."""
        self.keys.append((time.monotonic(), 0))
        self.transport.set_tempo(Fraction(tempo))
        self.keys[-1] = self.keys[-1][0], self.score.tempo.segments[-1].frame

    @property
    def score(self) -> Score:
        """What is being played."""
        score = self._final or self.transport._program.score
        assert score is not None
        return score

    def close(self) -> tuple[NDArray[np.float32], int]:
        """Return what was heard and the frame of the device that it begins with."""
        self._final = self.score
        self.voided = self.sound.underruns() > self.underruns
        self.transport.stop()
        self.stopped = self.transport._program.since
        time.sleep(0.4)
        recorded = self.recorder.stop()
        self.transport.close()
        return recorded, self._final.first - onsets(recorded)[0]

    def screen_errors(self, recorded: NDArray[np.float32], begins: int) -> NDArray[np.float64]:
        """Return by how many seconds the screen was late against each click as heard; negative: early."""
        times = np.array([at for at, _ in self.seen])
        beats = np.array([float(beat) for _, beat in self.seen])
        running = beats > -LOOP.count_in + 1
        errors = []
        for frame in onsets(recorded)[2:]:
            beat = float(self.score.tempo.beat_at(frame + begins))
            if beats[running][0] < beat < beats[running][-1]:
                shown = np.interp(beat, beats[running], times[running])
                errors.append(shown - self.recorder.heard_at(frame))
        return np.array(errors)

    def key_delays(self, begins: int) -> list[float]:
        """Return the seconds from each tempo key to the first changed frame as heard."""
        return [self.recorder.heard_at(frame - begins) - pressed for pressed, frame in self.keys]


def compare(score: Score, recorded: NDArray[np.float32], begins: int, until: int) -> list[int]:
    """Return by how many samples each recorded click is off its frame, up to the frame at which the dance was stopped.

    What was recorded is also held against the score bit by bit.
    """
    ends = min(until, begins + len(recorded))
    due = [sound.frame for sound in score.sounds_between(begins, ends)]
    heard = [frame + begins for frame in onsets(recorded) if frame + begins < ends]
    if len(due) != len(heard):
        raise AssertionError(f"{len(due)} clicks are due, {len(heard)} were heard")
    assert np.array_equal(recorded[: ends - begins], score.render(begins, ends - begins))
    return [late - exact for late, exact in zip(heard, due, strict=True)]


def in_three_tries(attempt: Callable[[], bool]) -> None:
    """Try again, up to three times, what a reported underrun made void; every try is printed."""
    for number in range(1, TRIES + 1):
        counts = attempt()
        print(f"try {number}: {'counts' if counts else 'void, the server reported an underrun'}")  # noqa: T201
        if counts:
            return
    raise AssertionError(f"{TRIES} tries were made void by underruns")


def say(errors: list[int], screen: NDArray[np.float64], keys: list[float]) -> None:
    """Print the worst cases of a run."""
    worst, late = max(map(abs, errors)), screen * 1000
    print(f"{len(errors)} clicks, the worst {worst} samples off")  # noqa: T201
    print(f"screen against ear {late.min():+.1f} to {late.max():+.1f} ms, median {np.median(late):+.1f}")  # noqa: T201
    if keys:
        print(f"a tempo key was heard after {max(keys) * 1000:.0f} ms at most")  # noqa: T201
