"""A sheet's lines as its tables and what stands between them.

A table may be cut by headings and remarks: its parts share the head that stands over the first of them, and what their
columns mean is told from the rows of all.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from trainer.sheet.prose.tables.abreast import abreast
from trainer.sheet.prose.tables.cells import is_count
from trainer.sheet.prose.tables.countrows import is_count_row
from trainer.sheet.prose.tables.grid import Parting, Row, Table, stretches, table_of
from trainer.sheet.prose.tables.heads import is_head, is_walls
from trainer.sheet.prose.tables.lying import walls_lying
from trainer.sheet.prose.text.layout import Line

_CUT = 3
"""So many lines at most stand between a head and its rows, or between two parts of one table."""


@dataclass(slots=True)
class Piece:
    """Lines parted alike, those of one table or a part of one; lines without cells where `parting` is empty."""

    parting: Parting
    head: Row | None
    lines: list[Line]
    group: list[Line] = field(default_factory=list)
    """The rows of all parts of the table."""
    first: int = 0
    """The place of its first row in the group."""


def pieces_of(lines: Sequence[Line]) -> list[Piece]:
    """Return the tables of a sheet and the lines between them, in their order."""
    found: list[Piece] = []
    for parting, stretch in stretches(lines):
        columns = abreast(stretch, parted=parting != "gap") if parting else []
        if columns or not parting:
            found.append(Piece("", None, columns or stretch))
        else:
            found += [Piece(parting, head, rows) for head, rows in _headed(parting, stretch)]
    _group(found)
    return [piece for piece in map(_as_read, found) if piece.lines]


def _as_read(piece: Piece) -> Piece:
    """Return a head that no row stands under as the line that it is: "FINISH (2 counts)    Stomp right, hold"."""
    if piece.head is None or piece.group:
        return piece
    return Piece("", None, [piece.head.line])


def _headed(parting: Parting, lines: Sequence[Line]) -> list[tuple[Row | None, list[Line]]]:
    """Part a stretch where a head stands over more of its rows."""
    parts: list[tuple[Row | None, list[Line]]] = [(None, [])]
    rows = table_of(parting, lines).rows
    for at, row in enumerate(rows):
        if is_head(row):
            parts.append((row, []))
        elif _lists_more_walls(parts[-1][1], parting, rows[at:]) or _ends_the_walls(parts[-1], row):
            parts.append((None, [row.line]))
        else:
            parts[-1][1].append(row.line)
    return [(head, rows) for head, rows in parts if head or rows]


def _lists_more_walls(above: Sequence[Line], parting: Parting, rows: Sequence[Row]) -> bool:
    """Whether walls are listed from a row on that a free line parts from other rows above it."""
    apart = bool(above) and rows[0].line.number > above[-1].number + 1
    return apart and _lists_walls(parting, rows)


def _ends_the_walls(above: tuple[Row | None, list[Line]], row: Row) -> bool:
    """Whether a row below a list of walls and a free line opens with a name and counts: an extra's steps."""
    head, lines = above
    if head is None or not lines or row.line.number == lines[-1].number + 1 or not row.cells[0]:
        return False
    words = [" ".join(token.low for token in cell) for cell in head.cells]
    listed = is_walls(Table("", (row,)), words) and lines[0].tokens[0].kind == "number"
    return (
        listed and all(token.kind == "word" for token in row.cells[0]) and any(is_count(cell) for cell in row.cells[1:])
    )


def _lists_walls(parting: Parting, rows: Sequence[Row]) -> bool:
    """Whether the rows up to the next free line list the walls."""
    after = [at for at in range(1, len(rows)) if rows[at].line.number > rows[at - 1].line.number + 1]
    own = rows[: after[0]] if after else rows
    table = Table(parting, tuple(own))
    return is_walls(table, []) or bool(walls_lying(table, {}))


def _group(pieces: Sequence[Piece]) -> None:
    """Give the parts of one table their head and the rows of all of them; gaps leave each part its own columns."""
    open_: Piece | None = None
    between = 0
    for piece in pieces:
        piece.group = list(piece.lines)
        if not piece.parting:
            between += len(piece.lines)
            continue
        goes_on = open_ is not None and piece.head is None and piece.parting == open_.parting and between <= _CUT
        between = 0
        if open_ is None or not goes_on or not (_is_bare(open_) or _go_together(open_, piece)):
            open_ = piece
            continue
        piece.head, piece.first = open_.head, len(open_.group)
        open_.group += piece.lines
        piece.group = open_.group


def _is_bare(piece: Piece) -> bool:
    """Whether a head stands alone, over a heading or a remark."""
    return not piece.group


def _go_together(above: Piece, below: Piece) -> bool:
    """Whether rows without a head go on with a table that has as many columns, marked by strokes or tabs."""
    if above.parting == "gap":
        return False
    lead = table_of(below.parting, below.lines).rows[0]
    if lead.line.number > above.group[-1].number + 1 and _ends_the_walls((above.head, above.group), lead):
        return False
    tables = [table_of(piece.parting, lines) for piece, lines in ((above, above.group), (below, below.lines))]
    if walls_lying(tables[1], {}):
        return False
    listed = all(not any(is_count_row(row, table.parting) for row in table.rows) for table in tables)
    return listed and tables[0].width == tables[1].width and not is_walls(tables[1], [])
