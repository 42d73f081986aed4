"""Columns that only number sections whose words count their own steps: "2) | 1-4 vine left; 5-6 rock"."""

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.tables.cells import numbers_in
from trainer.sheet.prose.tables.grid import Table

_MOSTLY = 0.7


def labels_sections(table: Table, place: int) -> bool:
    """Whether the cells of a column hold one number each, and words beside them are counted from 1 on."""
    rows = [row for row in table.rows if row.cells[place]]
    single = [row for row in rows if len(numbers_in(row.cells[place])) == 1]
    own = 0
    for row in single:
        for cell in row.cells[place + 1 :]:
            marks = marks_in(cell, 0)
            own += len(marks) > 1 and marks[0].first == 0 and marks[0].start.number == 1
    return len(single) > 1 and own >= _MOSTLY * len(rows)
