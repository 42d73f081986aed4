"""Counts of a table as its column writes them, to cells of counts: 12 34 for two counts each, 5/6, and 2.3&4.

What a cell means here is told by all cells of its column: 1/2 may be half a turn, and 12 a count.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.tables.cells import Cell, is_count, numbers_in
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.words import Token

_PAIRS = frozenset({"12", "34", "56", "78"})
_MOSTLY = 0.7
_LEAST = 3
"""Fewer cells are no column of counts in sections."""


def with_plain_counts(table: Table, head: Sequence[str]) -> tuple[Table, tuple[str, ...]]:
    """Return a table whose counts are written plainly, and its head; sections in the cells have their own column."""
    columns = [_slashed(_paired(table.column(place))) for place in range(table.width)]
    words = [*head, *[""] * (table.width - len(head))] if head else []
    for place, column in enumerate(columns):
        beside = any(_counts(other) for other in columns if other is not column)
        if not beside and (parted := _sections(column)):
            columns[place : place + 1] = parted
            if words:
                words.insert(place, "")
            break
    cells = zip(*columns, strict=True)
    rows = tuple(replace(row, cells=own) for row, own in zip(table.rows, cells, strict=True))
    return Table(table.parting, rows), tuple(words)


def _counts(cells: Sequence[Cell]) -> bool:
    """Whether a column holds ranges of counts of its own, beside which no number of a section counts."""
    filled = [cell for cell in cells if cell]
    ranges = sum(len(cell) > 1 and cell[0].kind == "number" and is_count(cell) for cell in filled)
    return ranges >= max(_LEAST, _MOSTLY * len(filled))


def _paired(cells: Sequence[Cell]) -> list[Cell]:
    """Return the cells of a column; where 12 34 56 78 stand for two counts each, as 1-2 and so on."""
    numbers = {token.text for cell in cells for token in cell if token.kind == "number"}
    if not numbers & _PAIRS - {"12"} or any(len(number) > 1 for number in numbers - _PAIRS):
        return list(cells)
    return [_spelt(cell, [token for token in cell if token.text in _PAIRS]) for cell in cells]


def _spelt(cell: Cell, pairs: Sequence[Token]) -> Cell:
    """Return a cell in which these tokens are ranges."""
    return tuple(part for token in cell for part in (_pair(token) if token in pairs else (token,)))


def _pair(token: Token) -> Cell:
    """Return a number of two counts, or a fraction of them, as a range."""
    first, last = token.text[0], token.text[-1]
    return (
        replace(token, kind="number", text=first, low=first, value=None),
        replace(token, kind="mark", text="-", low="-", glued=True, value=None),
        replace(token, kind="number", text=last, low=last, glued=True, value=None),
    )


def _slashed(cells: Sequence[Cell]) -> list[Cell]:
    """Return the cells of a column of counts with strokes between them, 5/6 and 3/&/4, as counts."""
    plain = [
        tuple(part for token in cell for part in (_pair(token) if _is_pair(token) else (token,))) for cell in cells
    ]
    filled = [cell for cell in plain if cell]
    counted = [cell for cell in filled if is_count(cell)]
    highest = max((number for cell in counted for number in numbers_in(cell)), default=0)
    strokes = any(token.text == "/" or _is_pair(token) for cell in cells for token in cell)
    if not strokes or highest < _HALF_PHRASE or len(counted) < _MOSTLY * len(filled):
        return list(cells)
    return [_without_strokes(cell) if is_count(cell) else cell for cell in plain]


_HALF_PHRASE = 5
"""Turns are told by no higher numbers than 4, counts are."""


def _is_pair(token: Token) -> bool:
    """Whether a fraction may be two counts, 1/2 or 7/8."""
    parts = token.text.split("/")
    return token.kind == "fraction" and len(parts) == 2 and all(map(str.isdecimal, parts)) and _follow(parts)


def _follow(parts: Sequence[str]) -> bool:
    return int(parts[1]) == int(parts[0]) + 1 and len(parts[0]) == len(parts[1]) == 1


def _without_strokes(cell: Cell) -> Cell:
    halved = any(token.kind == "amp" for token in cell)
    return tuple(
        token if token.text != "/" else replace(token, text=",", low=",")
        for token in cell
        if token.text != "/" or not halved
    )


def _sections(cells: Sequence[Cell]) -> list[list[Cell]]:
    """Return two columns, sections and counts, of one that tells both: 2.3&4, B3&4; nothing of any other column."""
    filled = [cell for cell in cells if cell]
    parted = [_parted(cell) for cell in cells]
    told = [parts for parts in parted if parts[1]]
    if len(told) < max(_LEAST, _MOSTLY * len(filled)):
        return []
    names = [parts[0][0].low for parts in told]
    changes = [after for before, after in pairwise(told) if before[0][0].low != after[0][0].low]
    begins = all(numbers_in(counts)[:1] in ([1], []) for _, counts in [told[0], *changes])
    if not begins or len(set(names)) != len(changes) + 1 or len(changes) + 1 == len(told):
        return []
    return [[section for section, _ in parted], [counts or section for section, counts in parted]]


def _parted(cell: Cell) -> tuple[Cell, Cell]:
    """Return the section and the counts of a cell; without counts what it holds."""
    if len(cell) < 2 or not cell[1].glued:
        return (), ()
    name = cell[0].kind == "number" or len(cell[0].text) == 1
    point = cell[1].text in (".", ":") and len(cell) > 2 and cell[2].glued
    rest = cell[2:] if point else cell[1:]
    lettered = cell[0].kind == "word" and cell[0].low not in ("a", "e")
    if not name or not (point or (cell[0].kind == "word" and rest[0].kind == "number")) or not is_count(rest):
        return (), ()
    return (cell[:1], rest) if point or lettered or cell[0].text.isupper() else ((), ())
