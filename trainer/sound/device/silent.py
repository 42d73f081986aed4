"""The same clock without sound."""

import math
import time

from trainer.sound.device import Clock, Pull
from trainer.timing import RATE


class Silent:
    """A device that takes nothing; its frames pass with the clock, exactly."""

    whole = 0

    def __init__(self, reason: str = "", *, clock: Clock = time.monotonic) -> None:
        self._reason = reason or "without sound, as chosen"
        self._clock = clock
        self._opened = clock()

    @property
    def name(self) -> str:
        """What it is called by."""
        return "silent"

    def replay(self, first: int, last: int | None) -> None:
        """Nothing is handed over whole."""

    def open(self, pull: Pull) -> None:
        """Let the frames begin now."""
        self._opened = self._clock()

    def close(self) -> None:
        """Nothing is held."""

    def free(self, at: float) -> int:
        """Return the first frame that has not passed at a time."""
        return math.floor(self.heard(at)) + 1

    def heard(self, at: float) -> float:
        """Return the frames that have passed by a time."""
        return (at - self._opened) * RATE

    def sound(self, at: float) -> str:
        """Return why there is no sound."""
        return self._reason
