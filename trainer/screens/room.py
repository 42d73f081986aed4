"""Where everything on the floor screen stands, and how large it looks from where the dancer is.

No terminal tells the size of its cells. The window is assumed to be 165 mm high, whatever its rows, until the dancer says
otherwise; so more rows are smaller rows, and growth buys sharpness, not larger letters. Shares of the window:

- the next step 30 mm of 165, the band of the next departure 23.3 to 25, the top (count, dial, turn) 70;
- what is left: the step now in blocks (16 mm), blank rows, a taller top. These go first where room is short.

A region never moves while the window stays as it is. Rows and columns count from 0. Angles are in minutes of arc;
ISO 9241-303 asks for at least 16 and prefers 20 to 22 for the height of letters.
"""

from dataclasses import dataclass, fields
from functools import lru_cache
from math import atan, ceil, degrees

COLUMNS, ROWS = 80, 24
"""The smallest window."""

WINDOW_MM = 165.0
"""Assumed height of the window."""

FLOOR_M = 5.0
"""Assumed distance of the dancer."""

CELL = (8, 17)
"""Width and height of a cell, as a ratio."""

_TOP_MM, _NEXT_MM, _BAND_MM, _BAND_LEAST_MM, _NOW_MM = 70.0, 30.0, 25.0, 23.3, 16.0
_DIAL_SHARE = 0.28  # of the columns, at most


@dataclass(frozen=True, slots=True)
class Region:
    """A rectangle of cells."""

    left: int
    top: int
    columns: int
    rows: int

    @property
    def right(self) -> int:
        """The first column after it."""
        return self.left + self.columns

    @property
    def bottom(self) -> int:
        """The first row after it."""
        return self.top + self.rows

    def overlaps(self, other: "Region") -> bool:
        """Say whether a cell lies in both."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Regions:
    """The floor screen at one size of window."""

    columns: int
    rows: int
    height_mm: float
    distance_m: float

    quiet: Region
    """One line of plain text at the top."""
    foot_left: Region
    count: Region
    sub: Region
    """The slot of &, a and e, right of the count and on its foot."""
    dial: Region
    amount: Region
    """How much is turned: 1/4, 1 1/2."""
    arrow: Region
    """The straight arrow of the turn."""
    end_clock: Region
    """The clock at which the turn ends."""
    foot_right: Region
    now: Region
    """The step being danced: one line of text, or blocks where it has four rows or more."""
    next: Region
    """The next step in blocks."""
    rule: Region
    """The line that lights up from 16 counts off."""
    departure: Region
    """TAG, BRIDGE, RESTART, CHANGE or END with the counts left; in the last four, counts as blocks."""
    departure_clock: Region
    """The facing at the departure."""
    footer: Region

    slab: Region
    """In the last four counts, over `next` and `rule`: a solid with the word cut out. Overlaps them by design."""

    @property
    def row_mm(self) -> float:
        """Height of a row in millimetres."""
        return self.height_mm / self.rows

    @property
    def column_mm(self) -> float:
        """Width of a column in millimetres."""
        return self.row_mm * CELL[0] / CELL[1]

    @property
    def now_in_blocks(self) -> bool:
        """Whether the step now stands in block letters."""
        return self.now.rows > 1

    def minutes(self, rows: float, distance_m: float | None = None) -> float:
        """Return the minutes of arc of so many rows, from the dancer's distance or another."""
        return minutes_of_arc(rows * self.row_mm, self.distance_m if distance_m is None else distance_m)

    def parts(self) -> dict[str, Region]:
        """Return the regions by name, without the slab; no two overlap."""
        found = {field.name: getattr(self, field.name) for field in fields(self)}
        return {name: value for name, value in found.items() if isinstance(value, Region) and name != "slab"}


@dataclass(frozen=True, slots=True)
class TooSmall:
    """The window has no room for the floor screen."""

    columns: int
    rows: int

    def __str__(self) -> str:
        return (
            f"This window is {self.columns} x {self.rows}. The floor screen needs {COLUMNS} x {ROWS}: make it larger."
        )


def minutes_of_arc(size_mm: float, distance_m: float) -> float:
    """Return the angle at which a size is seen, in minutes of arc."""
    return degrees(2 * atan(size_mm / (2000 * distance_m))) * 60


@lru_cache(maxsize=32)
def plan(columns: int, rows: int, *, height_mm: float = WINDOW_MM, distance_m: float = FLOOR_M) -> Regions | TooSmall:
    """Return where everything stands in a window of so many cells, or that it is too small.

    `height_mm` is the height of the whole window as the dancer measured it. A taller one shows the same layout larger; in a
    lower one the blank rows and the blocks of the step now make room for what must be read.
    """
    if columns < COLUMNS or rows < ROWS:
        return TooSmall(columns, rows)
    tall = _heights(rows, height_mm)
    across = _Across(columns, tall.top)
    above = 1 + tall.blank_below_quiet
    third = round(tall.top * 0.36)
    gap = 1 if tall.top - 2 * third >= 5 else 0
    now = above + tall.top + tall.blank_above_now
    following = now + tall.now + tall.blank_below_now
    rule = following + tall.next + tall.blank_above_rule
    half = ceil(tall.top * 0.64)
    return Regions(
        columns=columns,
        rows=rows,
        height_mm=height_mm,
        distance_m=distance_m,
        quiet=Region(0, 0, columns, 1),
        foot_left=Region(0, above, across.foot, tall.top),
        count=Region(across.count, above, across.count_wide, tall.top),
        sub=Region(across.sub, above + tall.top - half, across.sub_wide, half),
        dial=Region(across.dial, above, across.dial_wide, min(tall.top, across.dial_rows)),
        amount=Region(across.turn, above, across.turn_wide, third),
        arrow=Region(across.turn, above + third + gap, across.turn_wide, tall.top - 2 * third - 2 * gap),
        end_clock=Region(across.turn, above + tall.top - third, across.turn_wide, third),
        foot_right=Region(columns - across.foot, above, across.foot, tall.top),
        now=Region(0, now, columns, tall.now),
        next=Region(0, following, columns, tall.next),
        rule=Region(0, rule, columns, 1),
        departure=Region(0, rule + 1, columns - across.clock_wide - 3, tall.band),
        departure_clock=Region(columns - across.clock_wide, rule + 1, across.clock_wide, tall.band),
        footer=Region(0, rows - 1, columns, 1),
        slab=Region(0, following, columns, rule + 1 - following),
    )


@dataclass(slots=True)
class _Heights:
    top: int
    next: int
    band: int
    now: int = 1
    blank_below_quiet: int = 0
    blank_above_now: int = 0
    blank_below_now: int = 0
    blank_above_rule: int = 0
    blank_above_footer: int = 0


_BLANKS = ("blank_above_now", "blank_below_now", "blank_below_quiet", "blank_above_rule", "blank_above_footer")


def _heights(rows: int, height_mm: float) -> _Heights:
    """Share out the rows: as in a window of 165 mm; a lower one then gives what is left where it is missed most."""
    row = WINDOW_MM / rows
    tall = _Heights(
        top=ceil(_TOP_MM / row), next=ceil(_NEXT_MM / row), band=max(ceil(_BAND_LEAST_MM / row), round(_BAND_MM / row))
    )
    left = rows - (tall.top + tall.next + tall.band) - 4  # quiet line, step now, rule, footer
    real = height_mm / rows
    for name, least in (("next", _NEXT_MM), ("band", _BAND_LEAST_MM), ("top", _TOP_MM)):
        more = min(left, max(0, ceil(least / real) - getattr(tall, name)))
        setattr(tall, name, getattr(tall, name) + more)
        left -= more
    blocks = max(4, ceil(_NOW_MM / row))
    if left >= blocks - 1 + 2:
        tall.now = blocks
        left -= blocks - 1
    for name in _BLANKS[: max(0, left)]:
        setattr(tall, name, 1)
    tall.top += max(0, left - len(_BLANKS))
    return tall


class _Across:
    """The columns of the top: foot, count and its slot, dial, turn, foot."""

    def __init__(self, columns: int, top: int) -> None:
        self.foot = max(7, round(0.075 * columns))
        self.dial_wide = min(int(top * CELL[1] / CELL[0]), int(_DIAL_SHARE * columns))
        self.dial_rows = ceil(self.dial_wide * CELL[0] / CELL[1]) + 1
        rest = columns - 2 * self.foot - self.dial_wide - 8
        both = round(0.54 * rest)
        self.count = self.foot + 2
        self.count_wide = round(0.63 * both)
        self.sub = self.count + self.count_wide + 1
        self.sub_wide = both - self.count_wide - 1
        self.dial = self.count + both + 2
        self.turn = self.dial + self.dial_wide + 2
        self.turn_wide = columns - self.foot - 2 - self.turn
        self.clock_wide = round(0.31 * columns)
