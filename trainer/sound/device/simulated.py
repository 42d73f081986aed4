"""A sound library and a clock that only move when told to, for tests and benches."""

from collections.abc import Callable

from trainer.sound.clicks import Samples
from trainer.sound.device import DeviceError, Pull
from trainer.sound.device.stream import Stream
from trainer.timing import RATE

BLOCK = RATE // 10


class HandClock:
    """Monotonic seconds that stand still until set."""

    def __init__(self, now: float = 1000.0) -> None:
        self.now = now

    def __call__(self) -> float:
        """Return the time."""
        return self.now


class SimulatedStream:
    """An open stream of the simulated library; callback k comes k blocks of its quartz on, late by `jitter(k)`."""

    def __init__(self, pull: Pull, library: "Library") -> None:
        self.stream = Stream(pull, library.clock)
        self.played: list[Samples] = []
        self.dead = self.closed = False
        self._library = library
        self._opened = library.clock.now
        self._count = 0

    @property
    def due(self) -> float:
        """When its next callback comes."""
        library = self._library
        waited = library.late if self._count else 0.0
        return self._opened + waited + self._count * BLOCK / library.rate + library.jitter(self._count)

    def call(self) -> None:
        """Make one callback."""
        samples = self.stream.serve(BLOCK)
        if self._library.keep:
            self.played.append(samples)
        self._count += 1

    def close(self) -> None:
        """End it."""
        self.closed = True


class Library:
    """Opens streams while it is `there`; `run` moves the clock and makes the callbacks that fall due."""

    def __init__(
        self,
        clock: HandClock,
        *,
        ppm: float = 0.0,
        jitter: Callable[[int], float] = lambda count: 0.0,
        late: float = 0.0,
        keep: bool = True,
    ) -> None:
        self.clock = clock
        self.rate = RATE * (1 + ppm * 1e-6)
        """Frames a second of its quartz."""
        self.jitter = jitter
        self.late = late
        """Seconds between a stream's first callback and its regular ones."""
        self.keep = keep
        """Keep what was played."""
        self.there = True
        self.streams: list[SimulatedStream] = []

    def opener(self, pull: Pull) -> SimulatedStream:
        """Open a stream."""
        if not self.there:
            raise DeviceError("none was found")
        self.streams.append(SimulatedStream(pull, self))
        return self.streams[-1]

    def break_off(self) -> None:
        """Let every stream stop calling, and none be opened."""
        self.there = False
        for stream in self.streams:
            stream.dead = True

    def run(self, seconds: float, look: Callable[[], object] = lambda: None, every: float = 1 / 30) -> None:
        """Let time pass, and look as often as a screen would."""
        end = self.clock.now + seconds
        looked = self.clock.now
        while self.clock.now < end:
            alive = [one for one in self.streams if not (one.dead or one.closed)]
            upcoming = min((one.due for one in alive), default=end)
            self.clock.now = max(self.clock.now, min(upcoming, looked + every, end))
            for one in alive:
                if one.due <= self.clock.now:
                    one.call()
            if self.clock.now >= looked + every:
                looked = self.clock.now
                look()
