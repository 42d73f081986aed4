"""From the times of a device's callbacks to the frame that leaves it at any time.

A device takes frames in steps of a block and says no more; its callbacks come up to half a block early or late, and
its quartz is a little fast or slow. A straight line is laid through (monotonic seconds, frames pulled before), older
callbacks weighing less. The line holds what was pulled, not what was heard: the way from there to the ear is the delay
of an output, which is measured and set elsewhere.
"""

import math
from typing import NamedTuple

from trainer.timing import RATE


class Callback(NamedTuple):
    """The last callback of a device, swapped as one value."""

    frames: int
    """Frames pulled before it."""
    time: float
    """Monotonic seconds at which it came; before the first, when the device was opened."""
    number: int
    """Callbacks so far, this one included."""
    taken: int = 0
    """Frames that it took."""

    @property
    def pulled(self) -> int:
        """Frames pulled in all."""
        return self.frames + self.taken


MEMORY = 120.0
"""Seconds after which a callback weighs 1/e."""

STEADY = 3
"""Regular callbacks in a row from which on the time can be told; after opening a block is pulled, then long nothing."""

QUARTZ = 100e-6
"""How far a quartz is usually off; a device further off is believed once it has shown it for some time."""

JITTER = 0.008
"""Seconds by which callbacks usually scatter."""

WILD = 0.05
"""Seconds off the line that a single callback is believed at most."""

SHIFT = 0.025
"""Seconds off the line, on the mean of the last second or so, at which it no longer holds: frames were lost, or time
stood still."""

RECENT = 0.1
"""Weight of a callback in that mean."""


class Fit:
    """The line through the callbacks; fed by whoever looks at it, in one thread."""

    def __init__(self, rate: int = RATE) -> None:
        self._rate = rate
        self._last: Callback | None = None
        self._regular = 0
        self._settled = False
        self._forget()

    def _forget(self) -> None:
        # Sums over callbacks, x in seconds from the newest, y in frames off the nominal rate.
        self._weight = self._x = self._xx = self._y = self._xy = 0.0
        self._origin: Callback | None = None
        self._astray = 0.0

    def add(self, callback: Callback) -> None:
        """Take in a callback, if it is a new one."""
        last, self._last = self._last, callback
        if last is None or callback.number == last.number:
            self._last = last or callback
            return
        passed, taken = callback.time - last.time, (callback.frames - last.frames) / self._rate
        block = taken / (callback.number - last.number)
        self._regular = self._regular + 1 if abs(passed - taken) < block / 2 else 0
        off = self._off(callback) or 0.0
        believed = min(max(off, -WILD * self._rate), WILD * self._rate)
        self._astray += RECENT * (believed / self._rate - self._astray)
        wild = off - believed
        if abs(self._astray) > SHIFT:
            self._forget()
            wild = 0.0
        self._settled = self._settled or self._regular >= STEADY
        if self._origin is not None or self._regular:
            self._take(callback, wild)

    def holds(self, callback: Callback) -> bool:
        """Whether a callback lies near the line, as far as there is one."""
        off = self._off(callback)
        return off is None or abs(off) <= WILD * self._rate

    def _off(self, callback: Callback) -> float | None:
        expected = self._line(callback.time)
        return None if expected is None else callback.frames - expected

    def _take(self, callback: Callback, wild: float) -> None:
        """Weigh in a callback, less the frames by which it is not believed."""
        if self._origin is None:
            self._origin, self._newest = callback, callback.time
        step = callback.time - self._newest
        self._newest = callback.time
        self._xx += step * (step * self._weight - 2 * self._x)
        self._x -= step * self._weight
        self._xy -= step * self._y
        y = callback.frames - self._origin.frames - self._rate * (callback.time - self._origin.time) - wild
        kept = math.exp(-step / MEMORY)
        self._weight, self._x, self._xx = self._weight * kept + 1, self._x * kept, self._xx * kept
        self._y, self._xy = self._y * kept + y, self._xy * kept

    def frame_at(self, time: float) -> float | None:
        """Return the frames pulled by a time as the line has them; None until the device runs steadily."""
        return self._line(time) if self.steady else None

    @property
    def steady(self) -> bool:
        """Whether the device has run regularly for long enough to tell the time by."""
        return self._settled and self._weight > 0

    def _line(self, time: float) -> float | None:
        if self._origin is None:
            return None
        # The slope is drawn towards 0, the nominal rate, as far as a usual quartz allows.
        drawn = (JITTER / QUARTZ) ** 2
        spread = self._xx - self._x * self._x / self._weight
        slope = (self._xy - self._x * self._y / self._weight) / (spread + drawn)
        level = (self._y - slope * self._x) / self._weight
        nominal = self._origin.frames + self._rate * (time - self._origin.time)
        return nominal + level + slope * (time - self._newest)
