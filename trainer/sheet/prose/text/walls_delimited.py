"""Lists of walls whose cells are parted by signs: "1;north;32;", "II / back / 16 / restart".

The signs become strokes, so that such rows are read as those of any other table; columns stay true.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.number_words import numeral

STROKE = "|"
_SIGNS = (";", " / ", " :: ", " // ", " -- ", " > ", " => ", " -> ", " * ", " • ", " ~ ", " = ", " - ", ",")
_WALL = re.compile(
    r"\W*(?:(?:the )?(?:wall|round|pass|time|no|nr|w|go)\b\W*|w(?=\d))?"
    r"(?P<number>\d{1,2}|[a-z]+)(?:\.|\)|:|st|nd|rd|th| wall| round| time)*\s*$",
    re.IGNORECASE,
)
_LEAST = 3
"""Fewer rows are no list."""
_SURE = 2
"""Signs of a row that may be marks of a sentence too."""
_WEAK = (",", " - ", " = ", " * ", " • ", " > ", " ~ ")
_MOST = 8
"""Columns of a list."""


def with_walls_parted(raw: Sequence[str]) -> list[str]:
    """Return the lines, the signs that part the cells of a list of walls as strokes; so are those of its head."""
    done = list(raw)
    at = 0
    while at < len(done):
        sign, last = next(((sign, last) for sign in _SIGNS if (last := _rows_end(done, at, sign)) > at), ("", at))
        first = at - (bool(sign) and at > 0 and _is_head(done[at - 1], done[at], sign))
        for row in range(first, last):
            done[row] = done[row].replace(sign, STROKE.center(len(sign)))
        at = max(last, at + 1)
    return done


def _rows_end(raw: Sequence[str], first: int, sign: str) -> int:
    """Return the index after the rows that number the walls from 1 on, their cells parted by a sign; else the first."""
    row = raw[first]
    signs = row.count(sign)
    if STROKE in row or not (_SURE if sign in _WEAK else 1) <= signs < _MOST or _wall(row, sign) != 1:
        return first
    last = first
    while (
        last < len(raw)
        and STROKE not in raw[last]
        and abs(raw[last].count(sign) - signs) <= (sign not in _WEAK)
        and _wall(raw[last], sign) == last - first + 1
    ):
        last += 1
    spaced = sign == "," and any(", " in one for one in raw[first:last])
    # Rows that go on otherwise are those of steps: 1, 2, 3, and, 4.
    goes_on = last < len(raw) and raw[last].count(sign) >= signs
    return last if last - first >= _LEAST and not (spaced or goes_on) else first


def _wall(row: str, sign: str) -> int:
    """Return the number of the wall that the first cell of a row names; 0 where it names none."""
    named = _WALL.match(row.split(sign)[0])
    if not named:
        return 0
    low = named["number"].lower()
    if low.isdecimal():
        return int(low)
    return numeral(low)


def _is_head(line: str, row: str, sign: str) -> bool:
    """Whether a line stands over the columns of a row: as many cells, and no number in any of them."""
    return 0 < line.count(sign) >= row.count(sign) and not re.search(r"\d", line) and STROKE not in line
