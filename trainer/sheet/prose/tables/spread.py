"""Counts, and feet, that stand two blanks apart in one column of a table in gaps: "1  2 | R  L | vine right".

Gaps so small may part two columns or the counts of one: in one the numbers of most rows go on from cell to cell.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import Cell, feet_of, is_count, numbers_in
from trainer.sheet.prose.tables.grid import Row, Table

_SMALL = 3
"""Fewer blanks than these may stand between the counts of one cell."""
_MOSTLY = 0.7
_LEAST = 2
"""Rows with both cells that tell that they are one."""


def with_spread_cells(table: Table) -> Table:
    """Return a table whose neighbouring cells of counts, or of feet, are one where they go on from each other."""
    if table.parting != "gap":
        return table
    done = list(table.rows)
    width = max((len(row.cells) for row in done), default=0)
    counting = False
    for place in reversed(range(1, width)):
        pairs = [(row.cells[place - 1], row.cells[place]) for row in done]
        if _are_counts(pairs):
            counting, done = True, [_joined(row, place) for row in done]
    if not counting:
        return table  # only beside counts so written are feet so written
    for place in reversed(range(1, max(len(row.cells) for row in done))):
        pairs = [(row.cells[place - 1], row.cells[place]) for row in done]
        if _are_feet(pairs):
            done = [_joined(row, place) for row in done]
    return replace(table, rows=tuple(done))


def _are_counts(pairs: Sequence[tuple[Cell, Cell]]) -> bool:
    """Whether most cells of two columns are counts, the right ones next after the left ones."""
    both = [(left, right) for left, right in pairs if is_count(left) and is_count(right)]
    if len(both) < _LEAST and len(both) < len(pairs):
        return False
    return bool(both) and sum(_follows(*pair) for pair in both) >= _MOSTLY * max(len(both), _filled_right(pairs))


def _follows(left: Cell, right: Cell) -> bool:
    before, after = numbers_in(left), numbers_in(right)
    return bool(before and after) and after[0] == before[-1] + 1 and _is_near(left, right)


def _are_feet(pairs: Sequence[tuple[Cell, Cell]]) -> bool:
    """Whether the cells of two columns are feet, those on the right under no head of their own."""
    both = [(left, right) for left, right in pairs if feet_of(left) and right]
    near = [bool(feet_of(right)) and _is_near(left, right) for left, right in both]
    return bool(both) and sum(near) >= _MOSTLY * max(len(both), _filled_right(pairs))


def _is_near(left: Cell, right: Cell) -> bool:
    return left[-1].line == right[0].line and right[0].column - left[-1].column - len(left[-1].text) < _SMALL


def _filled_right(pairs: Sequence[tuple[Cell, Cell]]) -> int:
    return sum(bool(right) for left, right in pairs if left)


def _joined(row: Row, place: int) -> Row:
    """Return a row with two neighbouring cells as one."""
    return replace(
        row, cells=(*row.cells[: place - 1], row.cells[place - 1] + row.cells[place], *row.cells[place + 1 :])
    )
