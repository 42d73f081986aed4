"""A device that may be missing, break and come back: the frames go on all the same.

Frames here count on through every loss. While no stream is joined they pass with the clock, from where the last stream
was heard; a stream that returns is joined at the frame that has come by then, once it runs steadily. Streams are opened
and closed in a thread of their own, because a sound server that does not answer makes them wait.
"""

import math
import threading
import time
from collections.abc import Callable
from typing import NamedTuple, Protocol

import numpy as np

from trainer.sound.clicks import Samples
from trainer.sound.device import Clock, DeviceError, Pull
from trainer.sound.device.stream import LOST, Stream
from trainer.timing import RATE

RETRY = 2.0
"""Seconds between the first two tries to open a device again; each further wait is half as long again, up to RARELY."""

RARELY = 15.0


class Opened(Protocol):
    """A stream of a sound library, taking frames."""

    @property
    def stream(self) -> Stream:
        """What its callback calls."""

    def close(self) -> None:
        """End it; may wait."""


Opener = Callable[[Pull], Opened]
"""Opens a stream that takes frames from a puller, counted from its own opening; raises DeviceError."""

Spawn = Callable[[Callable[[], None], float], None]
"""Runs something in another thread and waits for it, but no longer than so many seconds."""

PARTING = 1.0
"""Seconds that an end waits for the library: its thread must not call Python code that has gone."""


class Joined(NamedTuple):
    """Which stream is heard, swapped as one value."""

    ticket: object
    shift: int
    """The frame of the device at the stream's frame 0."""


class Line(NamedTuple):
    """How frames pass while no stream is heard."""

    time: float
    frame: float


def _in_thread(work: Callable[[], None], wait: float) -> None:
    thread = threading.Thread(target=work, name="sound device", daemon=True)
    thread.start()
    if wait:
        thread.join(wait)


class Watched:
    """Opens a device, notices when it is lost, and opens it again."""

    whole = 0

    def __init__(self, name: str, opener: Opener, *, clock: Clock = time.monotonic, spawn: Spawn = _in_thread) -> None:
        self._name = name
        self._opener = opener
        self._clock = clock
        self._spawn = spawn
        self._pull: Pull | None = None
        self._stream: Opened | None = None
        self._ticket: object = None
        self._joined: Joined | None = None
        self._line: Line | None = None
        self._came: tuple[object, Opened] | DeviceError | None = None
        """What a try has come to; left by its thread, taken at the next look."""
        self._trying = self._closed = self._sounded = False
        self._cause = ""
        self._tried = self._looked = clock()
        self._wait = RETRY
        self._reached = 0

    @property
    def name(self) -> str:
        """What it is called by."""
        return self._name

    def replay(self, first: int, last: int | None) -> None:
        """Nothing is handed over whole."""

    def open(self, pull: Pull) -> None:
        """Begin to open a stream; what comes of it shows when asked."""
        self._pull = pull
        self._try(self._clock())

    def close(self) -> None:
        """End the stream; a server that does not answer is not waited for."""
        self._closed = True
        self._take_up(self._clock())
        self._drop(PARTING)

    def free(self, at: float) -> int:
        """Return the first frame that can still be changed at a time."""
        self._look(at)
        if self._joined is not None and self._stream is not None:
            return max(self._stream.stream.free(at) + self._joined.shift, self._reached)
        return max(math.floor(self._line_at(at)) + 1, self._reached)

    def heard(self, at: float) -> float | None:
        """Return the frames that have left by a time; None while that cannot be told."""
        self._look(self._clock())
        if self._joined is not None and self._stream is not None:
            own = self._stream.stream.heard(at)
            return None if own is None else own + self._joined.shift
        return None if self._line is None else self._line_at(at)

    def sound(self, at: float) -> str:
        """Return an empty text while it sounds, else why not."""
        self._look(at)
        if self._line is not None:
            return f"{'sound lost' if self._sounded else 'no sound device'}, going on in silence: {self._cause}"
        steady = self._stream is not None and self._stream.stream.steady
        return "" if steady else "waiting for the sound device"

    def _line_at(self, at: float) -> float:
        return 0.0 if self._line is None else self._line.frame + (at - self._line.time) * RATE

    def _look(self, at: float) -> None:
        """Notice what was opened, what is lost and what has settled since the last look."""
        slept, self._looked = at - self._looked > LOST, max(at, self._looked)
        self._take_up(at)
        if self._stream is not None:
            if slept:
                self._stream.stream.woke(at)
            self._check(self._stream, at)
        elif not self._trying and not self._closed and at - self._tried >= self._wait:
            self._try(at)

    def _take_up(self, at: float) -> None:
        came, self._came = self._came, None
        if isinstance(came, DeviceError):
            self._trying, self._cause = False, str(came)
            self._wait = min(self._wait * 1.5, RARELY)
            self._line = self._line or Line(at, float(self._reached))
        elif came is not None:
            self._trying = False
            self._ticket, self._stream = came
            if self._line is None:
                self._joined = Joined(self._ticket, self._reached)

    def _check(self, opened: Opened, at: float) -> None:
        stream = opened.stream
        if cause := stream.lost(at):
            self._cause = cause
            if self._joined is not None:
                self._sounded = self._sounded or stream.steady
                self._reached = max(self._reached, stream.last.pulled + self._joined.shift)
                own = stream.heard(at)
                self._line = Line(at, self._reached if own is None else own + self._joined.shift)
            self._drop()
        elif self._line is not None and (own := stream.heard(at)) is not None:
            self._joined = Joined(self._ticket, round(self._line_at(at) - own))
            self._line, self._wait = None, RETRY
        self._sounded = self._sounded or (self._joined is not None and stream.steady)

    def _drop(self, wait: float = 0.0) -> None:
        if self._stream is not None:
            self._spawn(self._stream.close, wait)
        self._stream = self._joined = None
        self._tried = self._looked

    def _try(self, at: float) -> None:
        self._trying, self._tried = True, at
        ticket = object()

        def opening() -> None:
            try:
                opened = self._opener(lambda first, frames: self._serve(ticket, first, frames))
            except DeviceError as error:
                self._came = error
                return
            self._came = ticket, opened
            if self._closed:
                opened.close()

        self._spawn(opening, 0.0)

    def _serve(self, ticket: object, first: int, frames: int) -> Samples:
        """Hand on the samples to the stream that is joined, silence to any other."""
        joined = self._joined
        if joined is None or joined.ticket is not ticket or self._pull is None:
            return np.zeros((frames, 2), dtype=np.float32)
        return self._pull(first + joined.shift, frames)
