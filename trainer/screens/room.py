"""Where everything on the floor screen stands, and how large it looks from where the dancer is.

No terminal tells the size of its cells. The window is assumed to be 165 mm high, whatever its rows, until the dancer
says otherwise; so more rows are smaller rows, and growth buys sharpness, not larger letters. Of the 165 mm:

- the next step takes 30 mm (letters cut out of a slab 29.1, which is 20 minutes of arc at 5 m), the band of the next
  departure 23.3 to 25 (16 minutes at 5 m), the top with count, dial and turn 70;
- what is left: the step now in blocks (16 mm), blank rows, a taller top. These go first where room is short.

A region never moves while the window stays as it is. Rows and columns count from 0. Angles are in minutes of arc;
ISO 9241-303 asks for at least 16 and prefers 20 to 22 for the height of letters.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import lru_cache
from math import atan, ceil, degrees
from typing import NamedTuple

COLUMNS, ROWS = 80, 24
"""The smallest window."""

WINDOW_MM = 165.0
"""Assumed height of the window."""

FLOOR_M = 5.0
"""Assumed distance of the dancer."""

CELL = (8, 17)
"""Width and height of a cell, as a ratio."""

_TOP_MM, _NEXT_MM, _SLAB_MM, _BAND_MM, _BAND_LEAST_MM, _NOW_MM = 70.0, 30.0, 29.1, 25.0, 23.3, 16.0
_DIAL_SHARE, _FOOT_SHARE, _CLOCK_SHARE = 0.28, 0.075, 0.31  # of the columns, the first at most
_TURN_SHARE = 0.46  # of what feet and dial leave; the count with its slot takes the rest
_TURN_LEAST = 19  # columns of 10:30 in letters of four
_SUB_SHARE, _TEXT_SHARE = 0.64, 0.36  # of the rows of the top: the slot of &, the texts beside the arrow
_MORE = 5


@dataclass(frozen=True, slots=True)
class Region:
    """A rectangle of cells, and how much of it block letters fill."""

    left: int
    top: int
    columns: int
    rows: int
    inset: int = 0
    """Half-rows kept blank above what is drawn in it."""
    below: int = 0
    """Half-rows kept blank below."""

    @property
    def height(self) -> int:
        """Half-rows that block letters fill."""
        return 2 * self.rows - self.inset - self.below

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

    `height_mm` is the height of the whole window as the dancer measured it. A taller one shows the same layout larger;
    in a lower one the blank rows and the blocks of the step now make room for what must be read.
    """
    if columns < COLUMNS or rows < ROWS:
        return TooSmall(columns, rows)
    down = _down(rows, height_mm)
    top = down["top"]
    across = _across(columns, top.size)
    whole, inside = _Span(0, columns), _Span(1, columns - 2)
    clock = _Span(columns - 1 - round(_CLOCK_SHARE * columns), round(_CLOCK_SHARE * columns))
    sub = ceil(_SUB_SHARE * top.size)
    close = down["next"].end == down["rule"].start
    return Regions(
        columns=columns,
        rows=rows,
        height_mm=height_mm,
        distance_m=distance_m,
        quiet=_region(inside, down["quiet"]),
        foot_left=_region(across["left foot"], top),
        count=_region(across["count"], top),
        sub=_region(across["sub"], _Span(top.end - sub, sub)),
        dial=_region(across["dial"], _Span(top.start, min(top.size, _dial_rows(across["dial"].size)))),
        **_turn(across["turn"], top),
        foot_right=_region(across["right foot"], top),
        now=_region(inside, down["now"]),
        next=_region(inside, down["next"], below=1 if close else 0),
        rule=_region(whole, down["rule"], below=1),
        departure=_region(_Span(1, clock.start - 1 - max(6, round(0.06 * columns))), down["band"]),
        departure_clock=_region(clock, down["band"]),
        footer=_region(inside, down["footer"]),
        slab=_region(whole, _Span(down["next"].start, down["rule"].end - down["next"].start), below=1),
    )


class _Span(NamedTuple):
    start: int
    size: int

    @property
    def end(self) -> int:
        return self.start + self.size


def _region(across: _Span, down: _Span, inset: int = 0, below: int = 0) -> Region:
    return Region(across.start, down.start, across.size, down.size, inset, below)


def _stacked(parts: Iterable[tuple[str, int]]) -> dict[str, _Span]:
    """Return parts one after the other, from 0; blanks have empty names."""
    found, start = {}, 0
    for name, size in parts:
        found[name] = _Span(start, size)
        start += size
    return found


def _down(rows: int, height_mm: float) -> dict[str, _Span]:
    """Share out the rows: as in a window of 165 mm; a lower one then gives what is left to what it shows too small."""
    row, real = WINDOW_MM / rows, height_mm / rows
    sizes = {
        "next": ceil(_NEXT_MM / row),
        "band": max(ceil(_BAND_LEAST_MM / row), round(_BAND_MM / row)),
        "top": ceil(_TOP_MM / row),
    }
    left = rows - sum(sizes.values()) - 4  # quiet line, step now, rule, footer
    for name, least in (("next", _NEXT_MM), ("band", _BAND_LEAST_MM), ("top", _TOP_MM)):
        missed = min(left, max(0, ceil(least / real) - sizes[name]))
        sizes[name] += missed
        left -= missed
    now = max(4, ceil(_NOW_MM / row))
    if left < now + 1:  # blocks replace one row, and want a blank row above and below
        now = 1
    left -= now - 1
    if (
        left <= _MORE - 2
    ):  # no blank row above the rule: the slab over both loses three half-rows, two solid, one of air
        missed = min(left, max(0, ceil(_SLAB_MM / row + 0.5) - sizes["next"]))
        sizes["next"] += missed
        left -= missed
    # Rows in the order in which they help: blank above and below the step now, under the quiet line and above the rule;
    # a rule of two rows, which more rows on the same glass would else make too thin.
    more = [1 if left > place else 0 for place in range(_MORE)]
    sizes["top"] += max(0, left - _MORE)
    return _stacked(
        [
            ("quiet", 1), ("", more[2]), ("top", sizes["top"]), ("", more[0]), ("now", now), ("", more[1]),
            ("next", sizes["next"]), ("", more[3]), ("rule", 1 + more[4]), ("band", sizes["band"]), ("footer", 1),
        ]
    )  # fmt: skip


def _across(columns: int, top: int) -> dict[str, _Span]:
    """Share out the columns of the top: foot, count with its slot, dial, turn, foot."""
    foot = max(7, round(_FOOT_SHARE * columns))
    dial = min(int(top * CELL[1] / CELL[0]), int(_DIAL_SHARE * columns))
    gap, close = max(2, round(0.02 * columns)), max(1, round(0.0125 * columns))
    rest = columns - 2 * foot - dial - 3 * gap - 2 * close
    turn = max(_TURN_LEAST, round(_TURN_SHARE * rest))
    sub = max(6, round(0.36 * (rest - turn)))
    count = rest - turn - sub
    # In a wide window letters stop growing before the room does: what they leave stands round the dial.
    count, sub, turn = min(count, round(1.5 * top)), min(sub, round(1.5 * _SUB_SHARE * top)), min(turn, 3 * top)
    spare = rest - count - sub - turn
    return _stacked(
        [
            ("left foot", foot), ("", gap), ("count", count), ("", close), ("sub", sub), ("", gap + spare // 2),
            ("dial", dial), ("", close + spare - spare // 2), ("turn", turn), ("", gap), ("right foot", foot),
        ]
    )  # fmt: skip


def _dial_rows(columns: int) -> int:
    """Return the rows of a round dial of so many columns, with the bar of the screen."""
    return ceil(columns * CELL[0] / CELL[1]) + 1


def _turn(across: _Span, top: _Span) -> dict[str, Region]:
    """Return the amount, the arrow and the clock of a turn below each other, at least a half-row apart."""
    text = round(_TEXT_SHARE * top.size)
    arrow = top.size - 2 * text
    # Where rows are few the texts give the half-rows between them and the arrow, else the arrow does.
    inset = 0 if arrow < 4 else arrow // 4
    return {
        "amount": _region(across, _Span(top.start, text), below=0 if inset else 1),
        "arrow": _region(across, _Span(top.start + text, arrow), inset, inset),
        "end_clock": _region(across, _Span(top.end - text, text), inset=0 if inset else 1),
    }
