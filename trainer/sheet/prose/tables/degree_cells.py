"""Turns in a column of their own, told in bare degrees: "180 L" under "Turn", told with the sign of degrees.

A column is one of turns where all its cells hold so many degrees and a side, or nothing. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import Cell, is_nothing
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.text.like import mark_like

_DEGREES = {str(degrees) for degrees in range(45, 721, 45)}
_SIDES = {"l", "r", "left", "right", "cw", "ccw", "to", "the"}
_FEWEST = 2
"""Cells with a turn: one alone may be anything."""


def with_degrees_signed(table: Table) -> Table:
    """Return a table, bare degrees in a column of turns with their sign; the row of its head stays as it is."""
    turning = [place for place in range(table.width) if _turns(table.column(place)[1:])]
    if not turning:
        return table
    rows = tuple(
        replace(
            row,
            cells=tuple(
                _signed(cell) if place in turning and _is_turn(cell) else cell for place, cell in enumerate(row.cells)
            ),
        )
        for row in table.rows
    )
    return Table(table.parting, rows)


def _turns(cells: Sequence[Cell]) -> bool:
    told = [cell for cell in cells if cell and not is_nothing(cell)]
    return len(told) >= _FEWEST and all(map(_is_turn, told))


def _is_turn(cell: Cell) -> bool:
    """Whether a cell holds so many degrees, and a side: "180 L", "90 to the right"."""
    return len(cell) > 1 and cell[0].text in _DEGREES and all(token.low in _SIDES for token in cell[1:])


def _signed(cell: Cell) -> Cell:
    return (cell[0], replace(mark_like(cell[0], "°"), glued=True), *cell[1:])
