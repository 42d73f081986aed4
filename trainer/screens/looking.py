"""How long a page's pictures take, from its look at the clock to the terminal; it looks so much ahead."""

from collections import deque
from statistics import median

ENOUGH = 3
"""Pictures before anything is told."""

PAINTS = 15
"""Pictures whose median counts."""

SLOWEST = 0.06
"""Seconds that are looked ahead at most: on a machine that is slow now and then, no picture may come far too early."""


class Pictures:
    """The last pictures of a page; times are monotonic seconds."""

    def __init__(self) -> None:
        self._looked: float | None = None
        self._took: deque[float] = deque(maxlen=PAINTS)

    @property
    def pending(self) -> bool:
        """Whether something was seen that is not displayed yet."""
        return self._looked is not None

    def looked(self, at: float) -> None:
        """Take in that a look found something new to show."""
        self._looked = at

    def displayed(self, at: float) -> float | None:
        """Return by how many seconds to look ahead from now on; None where nothing new was displayed, or too little.

        The first picture of a dance is of the whole page, and takes longer than any after it.
        """
        if self._looked is None:
            return None
        self._took.append(at - self._looked)
        self._looked = None
        return min(median(self._took), SLOWEST) if len(self._took) >= ENOUGH else None
