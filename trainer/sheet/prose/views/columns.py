"""Tables of a sheet as lines: their heads go, and what their columns mean goes into the words of each row.

Each stretch of lines in cells is a table, or several under heads of their own. A table with a column of counts is told
row by row (`tables/listed.py`), one with counts in a row over its steps cell by cell (`tables/across.py`). Tables
that list the walls, and whatever else stands in cells, keep their lines.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.tables.across import Across
from trainer.sheet.prose.tables.beats import by_beats
from trainer.sheet.prose.tables.countcells import with_plain_counts
from trainer.sheet.prose.tables.countrows import is_count_row
from trainer.sheet.prose.tables.degree_cells import with_degrees_signed
from trainer.sheet.prose.tables.grid import Parting, Row, Table, table_of
from trainer.sheet.prose.tables.halves import by_sections, by_sentences, halves_of
from trainer.sheet.prose.tables.heads import is_walls, names_rows
from trainer.sheet.prose.tables.listed import Listing
from trainer.sheet.prose.tables.lying import walls_lying
from trainer.sheet.prose.tables.paired import with_pairs
from trainer.sheet.prose.tables.pieces import Piece, pieces_of
from trainer.sheet.prose.tables.roles import Columns, columns_of
from trainer.sheet.prose.tables.rooms import key_of, with_room
from trainer.sheet.prose.tables.spread import with_spread_cells
from trainer.sheet.prose.tables.wall_rows import walls_of
from trainer.sheet.prose.tables.words import parted_by_break
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like


def with_columns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with those of tables told as lines of steps."""
    tables = _Tables(key_of(lines))
    done: list[Line] = []
    for piece in pieces_of(with_pairs(lines)):
        done += tables.told(piece) if piece.parting else piece.lines
    return with_room(done, tables.key, compass=tables.compass)


_PAIR = 2
"""Cells of a label and its fact."""


class _Tables:
    """Tells the tables of a sheet; a later one without a head is read as the one before it of its width."""

    def __init__(self, key: dict[str, Fraction]) -> None:
        self.key = key
        self.compass = bool(key)
        self._before: dict[tuple[Parting, int], Columns] = {}
        self._across: Across | None = None

    def told(self, piece: Piece) -> list[Line]:
        """Return the lines of a table as they are to be read."""
        parting, head = piece.parting, piece.head
        whole = with_spread_cells(table_of(parting, [*([head.line] if head else []), *piece.group]))
        whole = with_degrees_signed(whole)
        if _is_of_facts(whole):
            return [*([head.line] if head else []), *piece.lines]
        first = piece.first + (head is not None)
        table = Table(parting, whole.rows[first : first + len(piece.lines)])
        named = _heading_in(whole.rows[0]) if head and not piece.first else []
        words: Sequence[str] = [_text(cell) for cell in whole.rows[0].cells] if head else []
        if lying := walls_lying(whole, self.key):
            return lying
        if is_walls(table, words):
            return walls_of(table, whole.rows[0] if head else None, self.key)
        if any(is_count_row(row, parting) for row in table.rows):
            self._across = Across(parting)
            return [*named, *self._across.lines_of(table.rows)]
        if head is None and self._across is not None and self._across.numbers_more(table.rows):
            return self._across.more_of(table.rows)
        if head is None and (sections := self._by_sections(table)):
            return sections
        body, words = with_plain_counts(Table(parting, whole.rows[head is not None :]), words)
        table = Table(parting, body.rows[piece.first : piece.first + len(piece.lines)])
        if told := by_sentences(table):
            return [*named, *told]
        columns = self._columns(body, words)
        if columns is None and head is None and self._across is not None and self._across.fits(table.rows):
            return self._across.more_of(table.rows)
        if columns is None or (parting == "gap" and not _is_solid(table, columns)):
            return [*named, *piece.lines] if head else list(piece.lines)
        self.compass = self.compass or _by_compass(table, columns)
        self._before[parting, table.width] = columns
        if beats := by_beats(table, columns):
            return [*named, *beats]
        return [
            *named,
            *(line for part, own in halves_of(table, columns) for line in Listing(own).lines_of(part)),
        ]

    def _by_sections(self, table: Table) -> list[Line]:
        """Return a table with a column for each section as their lines, one section after the other."""
        done: list[Line] = []
        for name, part in by_sections(table):
            columns = columns_of(part, [], self.key)
            told = Listing(columns).lines_of(part) if columns else []
            if not told:
                return []
            named = (*name, mark_like(name[-1], ":"))
            done += [replace(told[0], tokens=tuple(parted_by_break(named, told[0].tokens))), *told[1:]]
        return done

    def _columns(self, table: Table, words: Sequence[str]) -> Columns | None:
        """Return what the columns mean, by the head and the cells, or as in the table before."""
        before = self._before.get((table.parting, table.width))
        if before is None and table.parting != "gap":
            wider = [
                columns
                for (parting, width), columns in self._before.items()
                if parting == table.parting and width > table.width
            ]
            before = wider[-1] if wider else None
        if not words and before is not None and len(table.rows) < 6:
            words = before.words
        return columns_of(table, words, self.key)


def _is_solid(table: Table, columns: Columns) -> bool:
    """Whether lines parted by gaps are more than counts at one side of the words: most have cells in three columns."""
    counted = [row for row in table.rows if row.cells[columns.places("count")[0]]]
    return table.width > 2 and sum(len(row.filled) > 2 for row in counted) >= max(2, 0.5 * len(counted))


def _heading_in(head: Row) -> list[Line]:
    """Return the name of a section or extra that stands in the head of its table, as a line."""
    named = next((cell for cell in head.cells if cell and names_rows(cell)), ())
    return [replace(head.line, tokens=named)] if named else []


def _is_of_facts(table: Table) -> bool:
    """Whether labels and facts stand by turns in each row: "Count:", "32", "Wall:", "4"."""
    rows = [[cell for cell in row.cells if cell] for row in table.rows]
    return any(len(cells) > _PAIR for cells in rows) and all(
        len(cells) % _PAIR == 0 and all(cell[-1].text == ":" for cell in cells[::_PAIR]) for cells in rows
    )


def _by_compass(table: Table, columns: Columns) -> bool:
    """Whether the facings of a table are letters of the compass."""
    cells = [cell for place in columns.places("facing") for cell in table.column(place)]
    letters = {cell[0].low for cell in cells if len(cell) == 1}
    return len(letters & {"n", "e", "s", "w"}) > 1 and "r" not in letters and "l" not in letters


def _text(cell: Sequence[object]) -> str:
    return " ".join(token.low for token in cell)  # type: ignore[attr-defined]
