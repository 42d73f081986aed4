"""Columns of words that only sum up what another column spells out, or stand aside of the steps.

A row may hold "Rock step" beside "R fwd, recover L": told as one text that would be too many steps. Which column is
such a name, and which says nothing of the steps, is told by how well the words of all rows then fill their counts.
"""

from collections.abc import Sequence
from itertools import product
from typing import Literal

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.tables.cells import Cell, is_count, is_nothing
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.tables.words import aside, named

Telling = Literal["words", "figure", "notes"]
_Row = tuple[int, Sequence[Cell]]
"""How many counts a row has, and its cells of words."""

_WAYS: tuple[Telling, ...] = ("words", "figure", "notes")

_MARGIN = 1.2
"""So much better must another meaning of the columns fill the counts of all rows; about one lost step."""
_WORST = 1.0
"""No row counts for more: its words may be garbled, so that more rows than one must speak for it."""
_WELL = 0.5
"""Words that fill their counts so well tell steps."""
_MOSTLY = 0.7
_ROWS = 24
"""So many rows are enough to tell."""


def summed_up(table: Table, counting: int, telling: Sequence[tuple[int, Telling]]) -> dict[int, Telling]:
    """Return what columns of words mean, given what they mean by the head; `counting` is the column of counts."""
    usual: tuple[Telling, ...] = tuple(role for _, role in telling)
    places = [place for place, _ in telling]
    if len(places) not in (2, 3):
        return {}
    rows = [
        (_slots(row.cells[counting]), [row.cells[place] for place in places])
        for row in table.rows
        if is_count(row.cells[counting]) and sum(not is_nothing(row.cells[place]) for place in places) > 1
    ][:_ROWS]
    price = _price(rows, usual) if len(rows) > 1 else 0.0
    if price < _MARGIN:
        return {}
    lengths = [sum(len(cells[column]) for _, cells in rows) for column in range(len(places))]
    stepped = [length == max(lengths) and _tells_steps(rows, column) for column, length in enumerate(lengths)]
    prices = {
        ways: _price(rows, ways)
        for ways in product(_WAYS, repeat=len(places))
        if "words" in ways and ways.count("figure") < 2 and not _sets_aside(ways, usual, stepped)
    }
    best = min(prices, key=lambda ways: (prices[ways], _changed(ways, usual)), default=usual)
    return dict(zip(places, best, strict=True)) if price - prices.get(best, price) >= _MARGIN else {}


def _sets_aside(ways: Sequence[str], usual: Sequence[str], stepped: Sequence[bool]) -> bool:
    """Whether the column that spells the steps out would only stand aside of others."""
    pairs = zip(ways, usual, stepped, strict=True)
    return any(way == "notes" != before and steps for way, before, steps in pairs)


def _changed(ways: Sequence[str], usual: Sequence[str]) -> int:
    return sum(way != before for way, before in zip(ways, usual, strict=True))


def _slots(counts: Cell) -> int:
    return max(sum(len(mark.places) for mark in marks_in(counts, 0)), 1)


def _tells_steps(rows: Sequence[_Row], column: int) -> bool:
    """Whether the cells of a column fill the counts of their rows by themselves, and so are no asides."""
    told = [(slots, cells[column]) for slots, cells in rows if not is_nothing(cells[column])]
    return sum(fills(cell, slots) < _WELL for slots, cell in told) >= _MOSTLY * len(told)


def _price(rows: Sequence[_Row], ways: Sequence[str]) -> float:
    """Return how badly the words of all rows fill their counts, where the columns mean this."""
    return sum(min(fills(_told(cells, ways), slots), _WORST) for slots, cells in rows)


def _told(cells: Sequence[Cell], ways: Sequence[str]) -> Cell:
    said: Cell = ()
    names: Cell = ()
    notes: Cell = ()
    for cell, way in zip(cells, ways, strict=True):
        if is_nothing(cell):
            continue
        if way == "figure":
            names = named(cell)
        elif way == "notes":
            notes = (*notes, *aside(cell))
        else:
            said = (*said, *cell)
    return (*names, *said, *notes)
