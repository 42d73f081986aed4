"""Rows of counts that stand over rows of steps: which rows they are, and which step stands under which count.

Between strokes and tabs a step stands under the count of the same number; between gaps under the count in whose column
it begins, and counts under which nothing begins go with the step before them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.tables.cells import Cell, facing_of, is_count, numbers_in, words_in
from trainer.sheet.prose.tables.grid import Parting, Row, gap_cells
from trainer.sheet.prose.tables.heads import FACING_HEADS
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Fewer counts in a row are no row of counts."""
_HEADS = FACING_HEADS | words_in(
    "the your to at on which way now # counts count beat beats row line you foot feet step steps "
    "finish finishes finishing after begin start"
)
_ROW_LABELS = words_in("count counts beat beats foot feet step steps what action do weight facing")
_NEAR = 2
"""A step begins at most so many columns from the count over it."""


@dataclass(slots=True)
class Slot:
    """Counts over one cell, with what stands below them."""

    counts: list[Token]
    column: int
    place: int
    """The number of the cell between strokes or tabs."""
    feet: Cell = ()
    words: Cell = ()
    facing: Token | None = None


def cells_of(row: Row, parting: Parting) -> list[Cell]:
    """Return the cells of a row; of gaps only what wide ones part."""
    return gap_cells(row.line, 3) if parting == "gap" else list(row.cells)


def is_count_row(row: Row, parting: Parting) -> bool:
    """Whether a row holds counts, but for a label in front and the head of a column of facings behind."""
    cells = cells_of(row, parting)
    counts = [place for place, cell in enumerate(cells) if is_count(cell)]
    tokens = [token for place in counts for token in cells[place] if token.kind != "mark"]
    if len(counts) < 2 or len(tokens) < _LEAST:
        return False
    first = _first(cells)
    before = [cell for cell in cells[:first] if cell]
    after = [cell for place, cell in enumerate(cells) if place > first and cell and place not in counts]
    told = [numbers_in(cells[place]) for place in counts[counts.index(first) :]]
    if sum(_goes_on(*pair) for pair in pairwise(told)) < 0.5 * (len(told) - 1):
        return False  # counts, how many they are, and an hour: "7&8 | 2 | 12"
    numbers = [number for cell in told for number in cell]
    falls = sum(later <= earlier for earlier, later in pairwise(numbers))
    if falls > (len(numbers) > _LEAST) or len(before) > 1 or any(len(cell) > 3 for cell in before):
        return False
    return len(after) <= 1 and all(len(cell) < 4 and all(token.low in _HEADS for token in cell) for cell in after)


def _goes_on(before: Sequence[int], after: Sequence[int]) -> bool:
    """Whether counts go on in the next cell, or one of both holds but a part of a count."""
    return not before or not after or after[0] in (before[-1], before[-1] + 1)


def _first(cells: Sequence[Cell]) -> int:
    """Return the first cell of counts that is no number of the row: the next one goes on from it."""
    counts = [place for place, cell in enumerate(cells) if is_count(cell)]
    numbers = [number for cell in cells[:2] for number in numbers_in(cell)]
    numbered = counts[:1] == [0] and len(numbers) > 1 and numbers[1] <= numbers[0] and len(counts) > 1
    return counts[1] if numbered else counts[0]


def slots_of(row: Row, parting: Parting) -> tuple[list[Slot], Cell]:
    """Return the counts of a row of counts, and the label in front of them."""
    cells = cells_of(row, parting)
    first = _first(cells)
    label: Cell = next((cell for cell in cells[:first] if cell and not is_row_word(cell)), ())
    slots = []
    for place, cell in enumerate(cells[first:], first):
        if not is_count(cell):
            continue
        close = all(after.column - before.column - len(before.text) < 2 for before, after in pairwise(cell))
        whole = parting != "gap" or close
        cell = tuple(token for token in cell if token.low not in _ROW_LABELS)
        groups = [list(cell)] if whole else [[token] for token in cell if token.kind != "mark"]
        slots += [Slot(group, group[0].column, place) for group in groups]
    return slots, label


def under(row: Row, slots: Sequence[Slot], parting: Parting, *, tailed: bool) -> tuple[list[Cell], Cell]:
    """Return the cells of a row by the counts that they stand under, and the cell after the last count.

    `tailed` says that the rows have one; a row that is one cell short has it under its last count.
    """
    cells = cells_of(row, parting)
    if parting == "gap":
        named = {
            token
            for token in cells[0]
            if token.column < slots[0].column - 1 and (token.low in _ROW_LABELS or token.kind == "mark")
        }
        cells = [tuple(token for token in cell if token not in named) for cell in cells]
        return _by_columns(row, [cell for cell in cells if cell], slots)
    last = max(slot.place for slot in slots)
    placed = [cells[slot.place] if slot.place < len(cells) else () for slot in slots]
    after = [cell for cell in cells[last + 1 :] if cell]
    if not after and tailed and row.filled and row.filled[-1] == last and facing_of(placed[-1], {}) is not None:
        return [*placed[:-1], ()], placed[-1]
    return placed, after[0] if after else ()


def _by_columns(row: Row, cells: Sequence[Cell], slots: Sequence[Slot]) -> tuple[list[Cell], Cell]:
    placed: list[list[Token]] = [[] for _ in slots]
    wide = {cell[0].column for cell in cells}
    small = {cell[0].column for cell in gap_cells(row.line, 2)}
    last = cells[-1] if len(cells) > 1 else ()
    faces = bool(last) and len(last) < 5 and facing_of(last, {}) is not None
    tail = last if faces and all(abs(slot.column - last[0].column) > 1 for slot in slots) else ()
    current = 0
    for token in (token for cell in cells for token in cell if token not in tail):
        here = [index for index, slot in enumerate(slots) if abs(slot.column - token.column) <= _NEAR]
        if here and (token.column in wide or token.column in small):
            current = min(here, key=lambda index: abs(slots[index].column - token.column))
        elif token.column in wide:
            current = max((index for index, slot in enumerate(slots) if slot.column <= token.column), default=0)
        placed[current].append(token)
    return [tuple(cell) for cell in placed], tail


def is_row_word(cell: Cell) -> bool:
    """Whether a cell in front only says what its row holds: "count", "feet", "what"."""
    return all(token.low in _ROW_LABELS or token.kind == "mark" for token in cell)


def label_of(row: Row, slots: Sequence[Slot], parting: Parting) -> Cell:
    """Return the label in front of a row of steps."""
    if parting == "gap" or not slots:
        return ()
    return next((cell for cell in row.cells[: slots[0].place] if cell and not is_row_word(cell)), ())
