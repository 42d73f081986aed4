"""Lines to tables: which lines stand under each other in cells, parted by strokes, by tabs or by wide gaps.

Strokes and tabs give each cell its number. Gaps do not: there a column is a place where cells of several lines begin.
A line without cells of its own that begins under a column carries on the cell above it.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from trainer.sheet.prose.tables.cells import Cell
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Parting = Literal["stroke", "tab", "gap", ""]

_GAP = 3
"""So many blanks part two cells anywhere."""
_SMALL = 2
"""So many part two cells where a column begins."""


@dataclass(frozen=True, slots=True)
class Row:
    """A line with its cells, one for each column of its table; an empty cell is an empty tuple."""

    line: Line
    cells: tuple[Cell, ...]

    @property
    def filled(self) -> list[int]:
        """The places of cells that hold something."""
        return [place for place, cell in enumerate(self.cells) if cell]


@dataclass(frozen=True, slots=True)
class Table:
    """Lines that stand under each other in the same columns."""

    parting: Parting
    rows: tuple[Row, ...]

    @property
    def width(self) -> int:
        """The number of columns."""
        return max((len(row.cells) for row in self.rows), default=0)

    def column(self, place: int) -> list[Cell]:
        """Return the cells of a column, empty ones too."""
        return [row.cells[place] for row in self.rows]


def parting_of(line: Line) -> Parting:
    """Return what parts the cells of a line; an empty text where it has but one."""
    if not line.source:
        return ""  # what was told of a row, cells and all
    said = [token for token in line.tokens if token.text != BREAK]
    if any(token.text == BREAK and line.source[token.column - 1 : token.column] == BREAK for token in line.tokens):
        return "stroke"
    if not said:
        return ""
    if "\t" in line.source.rstrip("\n"):
        return "tab"
    return "gap" if len(gap_cells(line, _GAP)) > 1 else ""


def gap_cells(line: Line, least: int) -> list[Cell]:
    """Return the words of a line, parted where at least so many blanks stand between them."""
    cells: list[list[Token]] = []
    end = 0
    for token in line.tokens:
        if token.text == BREAK:
            continue
        if not cells or token.column - end >= least:
            cells.append([])
        cells[-1].append(token)
        end = token.column + len(token.text)
    return [tuple(cell) for cell in cells]


def stretches(lines: Sequence[Line]) -> list[tuple[Parting, list[Line]]]:
    """Part lines into stretches of those whose cells are parted alike, and of those that have none."""
    found: list[tuple[Parting, list[Line]]] = []
    kinds = _with_small_gaps(lines, [parting_of(line) for line in lines])
    for line, kind in zip(lines, kinds, strict=True):
        last = found[-1] if found else None
        wrapped = last is not None and kind == "" and last[0] == "gap" and _carries_on(last[1], line)
        if last is not None and (wrapped or last[0] == kind):
            last[1].append(line)
        else:
            found.append((kind, [line]))
    return found


def _with_small_gaps(lines: Sequence[Line], kinds: list[Parting]) -> list[Parting]:
    """Return what parts the cells of each line; a line beside a table of gaps may have small ones only, in its columns.

    So it goes with the longest rows of a table whose columns stand two blanks apart.
    """
    starts = [{cell[0].column for cell in gap_cells(line, _SMALL)[1:] if line.source} for line in lines]
    around = [*range(1, len(lines)), *range(len(lines) - 2, -1, -1)]
    steps = [*([-1] * (len(lines) - 1)), *([1] * (len(lines) - 1))]
    for at, step in zip(around, steps, strict=True):
        beside = at + step
        near = abs(lines[at].number - lines[beside].number) == 1
        if kinds[at] == "" and kinds[beside] == "gap" and near and starts[at] & starts[beside]:
            kinds[at] = "gap"
    return kinds


def _carries_on(above: Sequence[Line], line: Line) -> bool:
    """Whether a line begins under a cell of the line above that is not its first."""
    starts = [cell[0].column for cell in gap_cells(above[-1], _SMALL)[1:]]
    starts += [above[-1].tokens[0].column] if parting_of(above[-1]) == "" else []
    first = line.tokens[0].column
    return line.number == above[-1].number + 1 and any(abs(first - start) <= 1 for start in starts) and first > 3


def table_of(parting: Parting, lines: Sequence[Line]) -> Table:
    """Return the lines with their cells in columns."""
    if parting == "gap":
        anchors, gutters = _anchors(lines), _gutters(lines)
        rows = [Row(line, _at_anchors(line, anchors)) for line in lines]
        between = [Row(line, _between(line, gutters)) for line in lines]
        if sum(len(row.filled) for row in between) > sum(len(row.filled) for row in rows):
            rows = between
    else:
        rows = [Row(line, _by_marks(line, parting)) for line in lines]
    return Table(parting, tuple(_even(rows)))


def _by_marks(line: Line, parting: Parting) -> tuple[Cell, ...]:
    """Return the cells between the strokes, or the tabs, of a line."""
    cells: list[list[Token]] = [[]]
    at = 0
    for token in line.tokens:
        stroke = token.text == BREAK and line.source[token.column - 1 : token.column] == BREAK
        if token.text == BREAK and not stroke:
            continue
        if parting == "tab":
            cells += [[] for _ in range(line.source.count("\t", at, token.column - 1))]
            at = token.column
        if stroke:
            cells.append([])
            continue
        cells[-1].append(token)
    if parting == "stroke":
        leading = line.source[: line.tokens[0].column - 1] if line.tokens else ""
        cells = [[] for _ in range(leading.count(BREAK))] + cells
    return tuple(tuple(cell) for cell in cells)


def _even(rows: Sequence[Row]) -> list[Row]:
    """Return rows of equally many cells, without columns that are empty in all."""
    width = max((len(row.cells) for row in rows), default=0)
    padded = [replace(row, cells=row.cells + ((),) * (width - len(row.cells))) for row in rows]
    used = [place for place in range(width) if any(row.cells[place] for row in padded)]
    return [replace(row, cells=tuple(row.cells[place] for place in used)) for row in padded]


def _anchors(lines: Sequence[Line]) -> list[int]:
    """Return the columns of the text where cells begin in several lines."""
    parted = [gap_cells(line, _SMALL) for line in lines]
    rows = [cells for cells in parted if len(cells) > 1]
    wide = Counter(cell[0].column for line in lines for cell in gap_cells(line, _GAP)[1:])
    small = Counter(cell[0].column for cells in rows for cell in cells[1:])
    firsts = Counter(cells[0][0].column for cells in rows)
    need = max(2, 0.3 * len(rows))
    places = {column for column in wide if _near(wide, column) >= need}
    places |= {column for column in small if _near(small, column) >= max(3, 0.7 * len(rows))}
    merged: list[int] = []
    for column in sorted(places, key=lambda place: (-max(wide[place], small[place]), place)):
        if all(abs(column - other) > 1 for other in merged):
            merged.append(column)
    return sorted({min(firsts, default=1), *merged})


def _gutters(lines: Sequence[Line]) -> list[int]:
    """Return where the columns of the text begin that no cell of any line runs over, however its cells are aligned."""
    covered: set[int] = set()
    for line in lines:
        cells = gap_cells(line, _SMALL)
        for cell in cells if len(cells) > 1 else ():
            covered |= set(range(cell[0].column, cell[-1].column + len(cell[-1].text)))
    return [column for column in sorted(covered) if not {column - 1, column - 2} & covered]


def _between(line: Line, starts: Sequence[int]) -> tuple[Cell, ...]:
    """Return the cells of a line by the columns that they stand in."""
    cells: list[list[Token]] = [[] for _ in starts]
    for cell in gap_cells(line, _SMALL):
        place = max((index for index, start in enumerate(starts) if start <= cell[0].column), default=0)
        cells[place] += cell
    return tuple(tuple(cell) for cell in cells)


def _near(counter: Counter[int], column: int) -> int:
    return sum(counter[other] for other in (column - 1, column, column + 1))


def _at_anchors(line: Line, anchors: Sequence[int]) -> tuple[Cell, ...]:
    """Return the cells of a line by where they begin; what begins elsewhere goes with the column before it.

    Of what begins elsewhere after a wide gap, counts and the like at the line's end are a cell in one more column.
    """
    cells: list[list[Token]] = [[] for _ in range(len(anchors) + 1)]
    parts = gap_cells(line, _SMALL)
    for at, cell in enumerate(parts):
        start = cell[0].column
        place = next((index for index, anchor in enumerate(anchors) if abs(anchor - start) <= 1), None)
        if place is None:
            place = max((index for index, anchor in enumerate(anchors) if anchor <= start), default=0)
            wide = at and start - (parts[at - 1][-1].column + len(parts[at - 1][-1].text)) >= _GAP
            if at + 1 == len(parts) and wide and len(cell) < 5 and cells[place]:
                place = len(anchors)
        cells[place] += cell
    return tuple(tuple(cell) for cell in cells)
