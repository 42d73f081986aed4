"""Tables of walls that number them by words, letters or signs: "III | back | 16 | restart", "3rd ...", "W3 ...".

Each such row is told with the word for a wall and its number in figures.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import Cell, wall_number
from trainer.sheet.prose.tables.grid import parting_of, table_of
from trainer.sheet.prose.tables.heads import is_walls
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import word_like

_LEAST = 3
"""Fewer rows are no table."""


def with_walls_numbered(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the walls of such tables by their numbers."""
    done = list(lines)
    at = 0
    while at < len(done):
        rows = _rows(done, at)
        if len(rows) >= _LEAST and is_walls(table_of(parting_of(rows[0]), rows), []):
            done[at : at + len(rows)] = [_numbered(line, number) for number, line in enumerate(rows, 1)]
        at += max(len(rows), 1)
    return done


def _rows(lines: Sequence[Line], first: int) -> list[Line]:
    """Return the rows from an index on that number the walls from 1 on, and not all in figures alone."""
    rows: list[Line] = []
    for line in lines[first:]:
        cells = _cells(line)
        if len(cells) < 2 or wall_number(cells[0]) != len(rows) + 1 or parting_of(line) != parting_of(lines[first]):
            break
        rows.append(line)
    figures = all(len(cell) == 1 and cell[0].kind == "number" for cell in (_cells(line)[0] for line in rows))
    return [] if figures else rows


def _cells(line: Line) -> list[Cell]:
    cells = list(line.cells)
    return cells[1:] if cells and not cells[0] else cells


def _numbered(line: Line, number: int) -> Line:
    """Return a row with its wall's name in figures."""
    first = next(at for at, token in enumerate(line.tokens) if token.text != BREAK)
    last = first + len(_cells(line)[0])
    token = line.tokens[first]
    named = (word_like(token, "wall"), replace(token, kind="number", text=str(number), low=str(number), glued=False))
    return replace(line, tokens=(*line.tokens[:first], *named, *line.tokens[last:]))
