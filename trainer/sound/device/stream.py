"""The edge between a sound library's thread and the program: one call a block, one tuple swapped.

Nothing here locks, reads a file, writes a log or makes a Fraction.
"""

import numpy as np

from trainer.sound.clicks import Samples
from trainer.sound.clock import Callback, Fit
from trainer.sound.device import Clock, Pull
from trainer.timing import RATE

LOST = 1.0
"""Seconds without a callback after which a device counts as lost; a call of it may be late, but not so late."""

OPENING = 5.0
"""The same while it opens: after the first block some take nothing for almost two seconds."""

EARLY = 0.9
"""The part of a block after which the next callback may come; some devices take three blocks in uneven steps."""

KEPT = 30
"""Callbacks that are kept for a screen that does not look for a while; with them the line is found again at once."""


class Stream:
    """What a library's callback calls, and what the clock is read from."""

    def __init__(self, pull: Pull, clock: Clock, first: int = 0) -> None:
        self._pull = pull
        self._clock = clock
        self._fit = Fit()
        self._fed = 0
        self._patient_from = clock()
        self._recent: tuple[Callback, ...] = (Callback(first, self._patient_from, 0),)
        self.error: Exception | None = None
        """What the puller raised; from then on the stream is silent and counts as lost."""

    def serve(self, frames: int) -> Samples:
        """Return the next block, stereo float32; called by the library's thread, never raises."""
        now, first = self._clock(), self.last.pulled
        samples = None
        if self.error is None:
            try:
                samples = self._pull(first, frames)
            except Exception as error:  # noqa: BLE001 -- the edge: an error must not reach the library's C code
                self.error = error
        self._recent = (*self._recent[-KEPT:], Callback(first, now, self.last.number + 1, frames))
        return np.zeros((frames, 2), dtype=np.float32) if samples is None else samples

    @property
    def last(self) -> Callback:
        """The last callback."""
        return self._recent[-1]

    @property
    def steady(self) -> bool:
        """Whether the time can be told by it."""
        return self._fit.steady

    def free(self, at: float) -> int:
        """Return the first frame that can still be changed at a time: that of the block after the one now due."""
        last = self.last
        due = at - last.time > EARLY * last.taken / RATE
        return last.pulled + (last.taken if due else 0)

    def heard(self, at: float) -> float | None:
        """Return the frames that have left by a time; None while it has not settled."""
        self._feed()
        return self._fit.frame_at(at)

    def lost(self, at: float) -> str:
        """Return why the stream is lost at a time, or an empty text."""
        self._feed()
        if self.error is not None:
            return f"{type(self.error).__name__}: {self.error}"
        patience = LOST if self.steady else OPENING
        silent = at - max(self.last.time, self._patient_from)
        return "the device takes no more sound" if silent > patience else ""

    def woke(self, at: float) -> None:
        """Take in that nobody looked for a while; where the device did not run on by its line, begin a new line.

        After a suspended machine time went by that did not sound. The frames say how much did.
        """
        self._feed()
        last = self.last
        if at - last.time > LOST or not self._fit.holds(last):
            self._fit = Fit()
            self._patient_from = at

    def _feed(self) -> None:
        """Give the line the callbacks since the last look."""
        for callback in self._recent:
            if callback.number > self._fed:
                self._fit.add(callback)
                self._fed = callback.number
