"""A second device, thin: simpleaudio plays a buffer from its beginning to its end, and tells no time.

So a whole finite take is handed over at once, and the clock counts from the moment of the call. A tempo key begins
again at the present eight, a loop ends when LONGEST is full, a stop is not faded. It has no wheels from Python 3.11 on,
and crashes the interpreter from 3.12 on (issues 72 and 74 of its tracker), where it is not loaded.
"""

import math
import sys
import time
from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np

from trainer.sound.device import Clock, Pull
from trainer.timing import RATE

LONGEST = 300 * RATE
"""Frames that are handed over at most: 5 minutes, 58 MB."""

LEAD = RATE // 10
"""Frames from a key to where a change begins."""


CHUNK = 10 * RATE
"""Frames that are mixed at a time."""


class Library(NamedTuple):
    """What is used of the library."""

    play_buffer: Callable[[bytes, int, int, int], Any]
    error: type[Exception]


def _library() -> Library:
    """Load the library; raises ImportError where it is not there or must not be loaded."""
    if sys.version_info >= (3, 12):
        raise ImportError("it does not work with this Python")
    import simpleaudio

    return Library(simpleaudio.play_buffer, simpleaudio._simpleaudio.SimpleaudioError)


class SimpleaudioOutput:
    """Plays takes whole."""

    whole = LONGEST

    def __init__(self, clock: Clock = time.monotonic, load: Callable[[], Library] = _library) -> None:
        self._clock = clock
        self._load = load
        self._library: Library | None = None
        self._pull: Pull | None = None
        self._playing: Any = None
        self._cause = ""
        self._time, self._frame = clock(), 0

    @property
    def name(self) -> str:
        """What it is called by."""
        return "simpleaudio"

    def open(self, pull: Pull) -> None:
        """Load the library; what is missing shows when asked."""
        self._pull = pull
        try:
            self._library = self._load()
        except ImportError as error:
            self._cause = str(error)

    def close(self) -> None:
        """End what plays."""
        if self._playing is not None:
            self._playing.stop()
            self._playing = None

    def free(self, at: float) -> int:
        """Return the frame at which a change can begin."""
        return math.floor(self.heard(at)) + LEAD

    def heard(self, at: float) -> float:
        """Return the frames that have passed by a time."""
        return self._frame + (at - self._time) * RATE

    def sound(self, at: float) -> str:
        """Return an empty text while it could sound, else why not."""
        return f"no sound device, going on in silence: {self._cause}" if self._cause else ""

    def replay(self, first: int, last: int | None) -> None:
        """Play first <= frame < last from now on, or nothing."""
        self.close()
        if last is None or self._pull is None:
            return
        last = min(last, first + LONGEST)
        parts = (self._pull(start, min(CHUNK, last - start)) for start in range(first, last, CHUNK))
        data = b"".join((part * np.float32(32767)).round().astype("<i2").tobytes() for part in parts)
        if self._library is not None:
            try:
                self._playing, self._cause = self._library.play_buffer(data, 2, 2, RATE), ""
            except self._library.error as error:
                self._cause = str(error)
        self._time, self._frame = self._clock(), first
