"""Lists of walls, or of parts, that lie on their side: a column for each wall, the row's name in front.

"part | A | A | B" over "begins | 12 | 6 | 12" is an order of play, "wall | 1 | 2 | 3" a table of walls; both are told
as if they stood upright.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.tables.cells import Cell, as_facing, facing_of, is_nothing, words_in
from trainer.sheet.prose.tables.grid import Row, Table, gap_cells
from trainer.sheet.prose.tables.wall_rows import walls_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_WALLS = words_in("wall walls round rounds pass passes time times go repetition rotation no # w")
_PARTS = words_in("part parts order sequence play dance section sections")
_STARTS = words_in("start starts begin begins beginning from facing faces face looking clock at wall direction")
_TOLD = _STARTS | words_in(
    "count counts cts beats danced dance dances then after afterwards also add extra extras notes note remark remarks "
    "what how much many length end ends finish finishes do does"
)
_LEAST = 3
"""Fewer walls or parts make no list."""
_LABEL = 3
"""Tokens of a row's name."""
_SMALL = 2


def walls_lying(table: Table, key: dict[str, Fraction]) -> list[Line]:
    """Return the lines of a list of walls or parts that lies on its side; none where a table is no such list."""
    rows = [_cells(row, table) for row in table.rows]
    if len(rows) < 2 or any(not cells or not cells[0] or len(cells[0]) > _LABEL for cells in rows):
        return []
    top, others = rows[0], rows[1:]
    if not all(_is_named(cells[0], _TOLD) for cells in others) or len(top) <= _LEAST:
        return []
    if any(len(cells) > len(top) for cells in others):
        return []
    others = [[*cells, *[()] * (len(top) - len(cells))] for cells in others]
    numbers = [cell[0].text for cell in top[1:] if len(cell) == 1]
    if _is_named(top[0], _WALLS) and numbers == [str(number) for number in range(1, len(top))]:
        return _upright(table, [top, *others], key)
    parts = [cell for cell in top[1:] if len(cell) == 1 and len(cell[0].text) == 1 and cell[0].text.isupper()]
    if _is_named(top[0], _PARTS) and len(parts) > 1 and all(c in parts or extra_kind(c) for c in top[1:]):
        return [replace(table.rows[0].line, tokens=tuple(_played(top, others, key)))]
    return []


def _cells(row: Row, table: Table) -> list[Cell]:
    """Return the cells of a row, but for a colon after its name; between gaps those that are there, if none lacks."""
    cells = list(row.cells)
    if table.parting == "gap" and row.line.tokens:
        told = gap_cells(row.line, _SMALL)
        cells = told if len(told) >= len(row.filled) else cells
    while cells and not cells[-1]:
        cells.pop()
    if cells and cells[0] and cells[0][-1].text == ":":
        cells[0] = cells[0][:-1]
    return cells


def _is_named(cell: Cell, names: frozenset[str]) -> bool:
    return bool(cell) and any(token.low in names for token in cell)


def _upright(table: Table, rows: Sequence[Sequence[Cell]], key: dict[str, Fraction]) -> list[Line]:
    """Return a table of walls told with a row for each."""
    first = table.rows[0].line
    standing = [Row(first, tuple(cells[place] for cells in rows)) for place in range(len(rows[0]))]
    return walls_of(Table(table.parting, tuple(standing[1:])), standing[0], key)


def _played(top: Sequence[Cell], others: Sequence[Sequence[Cell]], key: dict[str, Fraction]) -> list[Token]:
    """Return an order of play: each part with the facing that it begins with and what is danced after it."""
    first = top[0][0]
    told = [word_like(first, "order"), mark_like(first, ":")]
    for place, part in enumerate(top[1:], 1):
        told += [*([mark_like(part[0], ",")] if place > 1 else []), *part]
        for cells in others:
            cell = cells[place]
            value = facing_of(cell, key) if cell else None
            if value is not None and _is_named(cells[0], _STARTS):
                told += [mark_like(cell[0], "("), as_facing(cell, value), mark_like(cell[0], ")")]
            elif extra_kind(cell):
                told += [mark_like(cell[0], ","), *cell]
            elif cell and not is_nothing(cell) and value is None:
                told += [mark_like(cell[0], "("), *cell, mark_like(cell[0], ")")]
    return told
