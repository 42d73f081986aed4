"""Tables that hold two halves side by side, each with counts and steps of its own, to one table after the other."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.tables.cells import Cell, is_count
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.heads import names_rows
from trainer.sheet.prose.tables.roles import Columns, columns_of, edges
from trainer.sheet.prose.text.layout import Line


def halves_of(table: Table, columns: Columns) -> list[tuple[Table, Columns]]:
    """Return the parts of a table in the order in which they are danced; a plain table is its only part."""
    counting = [place for place in range(table.width) if _counts(table, place)]
    cuts = _cuts(table, counting)
    if len(cuts) < 2:
        return [(table, columns)]
    halves = []
    for first, last in cuts:
        rows = tuple(replace(row, cells=row.cells[first:last]) for row in table.rows)
        part = Table(table.parting, tuple(row for row in rows if row.filled))
        own = columns_of(part, columns.words[first:last], columns.key)
        if own is None:
            return [(table, columns)]
        halves.append((part, own))
    if _read_across(table, counting):
        return _row_by_row(table, cuts, halves)
    return _chunks(halves)


def by_sections(table: Table) -> list[tuple[Cell, Table]]:
    """Return the sections of a table that has a column for each, named on top, beside one column of counts for all."""
    top, body = table.rows[0], Table(table.parting, table.rows[1:])
    named = [place for place, cell in enumerate(top.cells) if cell and names_rows(cell)]
    counting = [place for place in range(table.width) if body.rows and _counts(body, place)]
    if len(named) < 2 or len(counting) != 1 or counting[0] in named:
        return []
    if not all(_has_words(body, place) for place in named):
        return []
    count = counting[0]
    ends = [*named[1:], count if count > named[-1] else table.width]
    return [
        (top.cells[first], Table(table.parting, tuple(_of_section(row, count, first, last) for row in body.rows)))
        for first, last in zip(named, ends, strict=True)
    ]


def _of_section(row: Row, count: int, first: int, last: int) -> Row:
    """Return the counts of a row, and the cells of one section."""
    return replace(row, cells=(row.cells[count], *row.cells[first:last]))


def by_sentences(table: Table) -> list[Line]:
    """Return the lines of a table whose columns tell counts and steps in each cell, one column after the other."""
    told = [place for place in range(table.width) if _tells(table.column(place))]
    if len(told) < 2 or len(told) < table.width:
        return []
    first = [[edges(mark) for cell in table.column(place) if (mark := _mark_of(cell))] for place in told]
    goes_on = [one[1] + 1 == other[0] for one, other in zip(first[0], first[1], strict=False)]
    if sum(goes_on) > 0.5 * len(goes_on):
        return []
    return [replace(row.line, tokens=row.cells[place]) for place in told for row in table.rows if row.cells[place]]


def _tells(cells: Sequence[Cell]) -> bool:
    """Whether most cells of a column open with counts and go on with words."""
    filled = [cell for cell in cells if cell]
    return len(filled) > 2 and sum(bool(_mark_of(cell)) for cell in filled) >= 0.7 * len(filled)


def _mark_of(cell: Cell) -> Cell:
    """Return the counts that a cell of words opens with."""
    marks = marks_in(cell, 0)
    opens = bool(marks) and marks[0].first == 0 and len(cell) > marks[0].last
    return cell[: marks[0].last] if opens and is_count(cell[: marks[0].last]) else ()


def _counts(table: Table, place: int) -> bool:
    cells = [cell for cell in table.column(place) if cell]
    counts = [cell for cell in cells if is_count(cell)]
    numbers = {token.text for cell in counts for token in cell if token.kind == "number"}
    goes_on = len({edges(cell) for cell in counts}) > 1
    most = len(counts) >= 0.6 * max(len(cells), 1) and len(counts) > 1
    return most and goes_on and not numbers <= {"12", "3", "6", "9"}


def _cuts(table: Table, counting: Sequence[int]) -> list[tuple[int, int]]:
    """Return the columns of each half, from and up to; one where there are words beside one column of counts only."""
    if len(counting) < 2:
        return []
    words = [_has_words(table, place) for place in range(table.width)]
    before = not any(words[: counting[0]])
    bounds: list[int] = []
    for place, after in zip(counting, [*counting[1:], table.width], strict=True):
        if before and any(words[place + 1 : after]):
            bounds.append(place)
        elif not before:
            bounds.append(place + 1)
    if len(bounds) < len(counting):
        return []
    if before:
        return list(zip([0, *bounds[1:]], [*bounds[1:], table.width], strict=True))
    return list(zip([0, *bounds[:-1]], [*bounds[:-1], table.width], strict=True))


def _has_words(table: Table, place: int) -> bool:
    """Whether the cells of a column are words rather than marks, numbers or letters."""
    cells = [cell for cell in table.column(place) if cell]
    return sum(any(len(token.text) > 2 for token in cell) and len(cell) > 1 for cell in cells) >= 0.4 * max(
        len(cells), 1
    )


def _read_across(table: Table, counting: Sequence[int]) -> bool:
    """Whether the counts of a row go on in its next half."""
    pairs = [
        (edges(row.cells[counting[0]])[1], edges(row.cells[counting[1]])[0])
        for row in table.rows
        if is_count(row.cells[counting[0]]) and is_count(row.cells[counting[1]])
    ]
    return sum(after == before + 1 for before, after in pairs) > 0.5 * len(pairs)


def _row_by_row(
    table: Table, cuts: Sequence[tuple[int, int]], halves: Sequence[tuple[Table, Columns]]
) -> list[tuple[Table, Columns]]:
    """Return each row's halves in turn."""
    return [
        (Table(table.parting, (replace(row, cells=row.cells[first:last]),)), columns)
        for row in table.rows
        for (first, last), (_, columns) in zip(cuts, halves, strict=True)
        if any(row.cells[first:last])
    ]


def _chunks(halves: Sequence[tuple[Table, Columns]]) -> list[tuple[Table, Columns]]:
    """Return the halves whole, or section by section where the right one does not go on from the end of the left."""
    left, right = halves[0], halves[1]
    if len(halves) > 2 or _first(right) > 1:
        return list(halves)
    parts = [_sections(half) for half in (left, right)]
    if len(parts[0]) != len(parts[1]):
        return list(halves)
    return [
        (Table(half[0].parting, tuple(rows)), half[1])
        for pair in zip(*parts, strict=True)
        for half, rows in zip(halves, pair, strict=True)
    ]


def _first(half: tuple[Table, Columns]) -> int:
    place = half[1].places("count")[0]
    return next((edges(cell)[0] for cell in half[0].column(place) if is_count(cell)), 1)


def _sections(half: tuple[Table, Columns]) -> list[list[Row]]:
    """Part the rows of a half where its counts begin again, headings above them included."""
    place = half[1].places("count")[0]
    found: list[list[Row]] = [[]]
    waiting: list[Row] = []
    counted = False
    for row in half[0].rows:
        cell = row.cells[place]
        if not is_count(cell):
            waiting.append(row)
            continue
        if counted and edges(cell)[0] <= 1:
            found.append([])
        found[-1] += [*waiting, row]
        waiting, counted = [], True
    found[-1] += waiting
    return found
