"""Tables with a column for each beat, the counts of a bar before its steps: "1 2 3 | LF over RF | RF side | LF back".

The cells say so: a row has as many cells of words as counts, and each cell holds the step of one count.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.tables.across import remark_of
from trainer.sheet.prose.tables.cells import Cell, as_facing, facing_of, is_count, is_nothing, words_in
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.roles import Columns
from trainer.sheet.prose.tables.words import parted_by_break
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_MOSTLY = 0.7
_FITS = 0.5
_LEAST = 3
"""Beats of a table whose head does not name them."""
_BEATS = words_in("beat beats count first second third fourth 1st 2nd 3rd 4th one two three four 1 2 3 4")


def by_beats(table: Table, columns: Columns) -> list[Line]:
    """Return a table whose columns are beats as lines with each count before its step; nothing where it is none."""
    counting = columns.places("count")[0]
    places = [place for place in columns.places("words", "figure", "notes") if place > counting]
    places.sort()
    rows = [row for row in table.rows if len(_counts(row, counting)) > 1]
    headed = sum(bool(set(columns.words[place].split()) & _BEATS) for place in places) == len(places)
    if len(places) < (2 if headed else _LEAST) or len(rows) < 2:
        return []
    fitting = [row for row in rows if len(_counts(row, counting)) == len(places)]
    cells = [row.cells[place] for row in fitting for place in places if row.cells[place]]
    good = [cell for cell in cells if is_nothing(cell) or fills(cell, 1) < _FITS]
    if (
        len(fitting) < len(rows)
        or len(good) < _MOSTLY * len(cells)
        or len(cells) < _MOSTLY * len(fitting) * len(places)
    ):
        return []
    lines: list[Line] = []
    for row in table.rows:
        counts = _counts(row, counting)
        told = _told(row, counts, places, columns) if len(counts) == len(places) else []
        lines.append(replace(row.line, tokens=tuple(told)) if told else remark_of(row, lines))
    return lines


def _counts(row: Row, place: int) -> list[Token]:
    """Return the counts of a row one by one; none where they are a range or no counts."""
    cell = row.cells[place]
    if not cell or not is_count(cell):
        return []
    numbers = [token for token in cell if token.kind == "number"]
    marks = marks_in(cell, 0)
    if len(numbers) == 2 and marks and len(marks[0].places) > 2:
        first = numbers[0]
        return [
            replace(first, text=str(one.number), low=str(one.number))
            for one in marks[0].places
            if one.number is not None
        ]
    return numbers


def _told(row: Row, counts: Sequence[Token], places: Sequence[int], columns: Columns) -> list[Token]:
    tokens: list[Token] = []
    for count, place in zip(counts, places, strict=True):
        cell: Cell = row.cells[place]
        said = (word_like(count, "hold"),) if is_nothing(cell) else cell
        tokens = parted_by_break(tokens, parted_by_break([count], said))
    for place in columns.places("facing"):
        value = facing_of(row.cells[place], columns.key) if row.cells[place] else None
        if value is not None:
            tokens.append(as_facing(row.cells[place], value))
    return tokens
