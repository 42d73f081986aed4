"""Columns of words that only sum up what another column spells out, or stand aside of the steps.

A row may hold "Rock step" beside "R fwd, recover L": told as one text that would be too many steps. Which column is
such a name, and which says nothing of the steps, is told by how well the words of all rows then fill their counts.
"""

from collections.abc import Sequence
from itertools import product
from typing import Literal

from trainer.sheet.prose.marks import marks_in
from trainer.sheet.prose.phrases import fills
from trainer.sheet.prose.tables.cells import Cell, is_count, is_nothing
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.tables.words import aside, named

Telling = Literal["words", "figure", "notes"]

_WAYS: tuple[Telling, ...] = ("words", "figure", "notes")

_MARGIN = 1.2
"""So much better must another meaning of the columns fill the counts of all rows; about one lost step."""
_WORST = 3.0
"""No row counts for more: its words may be garbled."""
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
    if len(rows) < 2:
        return {}
    prices = {
        ways: _price(rows, ways)
        for ways in product(_WAYS, repeat=len(places))
        if "words" in ways and ways.count("figure") < 2
    }
    best = min(prices, key=lambda ways: (prices[ways], _changed(ways, usual)))
    if prices[usual] - prices[best] < _MARGIN:
        return {}
    return dict(zip(places, best, strict=True))


def _changed(ways: Sequence[str], usual: Sequence[str]) -> int:
    return sum(way != before for way, before in zip(ways, usual, strict=True))


def _slots(counts: Cell) -> int:
    marks = marks_in(counts, 0)
    return max(len(marks[0].places), 1) if marks else 1


def _price(rows: Sequence[tuple[int, Sequence[Cell]]], ways: Sequence[str]) -> float:
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
