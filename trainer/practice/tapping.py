"""A tempo from taps, one for each count: seconds in, counts a minute out.

The tempo is that of the straight line through the last taps (least squares), so that a single late tap matters little.
A pause of more than two seconds, which is longer than a count at 30 a minute, begins anew.
"""

from collections.abc import Sequence
from fractions import Fraction

PAUSE = 2.1
"""Seconds after which a tap is a first one."""
LAST = 12
"""Taps that are looked at."""
LEAST = 3
"""Taps before a tempo is told: of one gap nobody knows whether it was meant."""


def with_tap(taps: Sequence[float], now: float) -> tuple[float, ...]:
    """Return the taps that belong together, after one more."""
    if taps and now - taps[-1] > PAUSE:
        return (now,)
    return (*taps, now)[-LAST:]


def tapped(taps: Sequence[float]) -> Fraction | None:
    """Return the counts a minute of taps, to the nearest whole one; None while there are too few."""
    size = len(taps)
    if size < LEAST:
        return None
    middle, mean = (size - 1) / 2, sum(taps) / size
    spread = sum((place - middle) ** 2 for place in range(size))
    seconds = sum((place - middle) * (tap - mean) for place, tap in enumerate(taps)) / spread
    return Fraction(round(60 / seconds)) if seconds > 0 else None
