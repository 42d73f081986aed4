"""Words that stand over the columns of tables, and which rows are heads or headings by them.

A head only confirms what the cells of a column say (`roles.py`).
"""

from collections.abc import Sequence

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.tables.cells import Cell, facing_of, is_count, is_nothing, says_how_much, wall_number, words_in
from trainer.sheet.prose.tables.grid import Row, Table

COUNT_HEADS = words_in("count counts ct cts beat beats timing time cnt cnts rhythm")
FACING_HEADS = words_in(
    "facing face faces looking look looks wall o'clock clock dir direction see sees ends end fc view front"
)
SECTION_HEADS = words_in("part section sec block eight set phrase group figure verse row line bar")
NOTE_HEADS = words_in(
    "note notes hint hints remark remarks styling style tip tips comment comments arms hands cue extra watch think"
)
FIGURE_HEADS = frozenset(["figure", "name", "figures", "called", "pattern", "title", "term"])
FOOT_HEADS = frozenset(["foot", "feet", "ft", "lead", "leg", "which"])
LEFT_HEADS = frozenset({"left foot", "lf", "left", "l", "l foot", "the left"})
RIGHT_HEADS = frozenset({"right foot", "rf", "right", "r", "r foot", "the right"})
_WALL_HEADS = words_in("wall walls round rounds pass w go time times repetition rotation")
_NUMBER_HEADS = frozenset({"no", "nr", "number", "#"})
"""What may stand over the numbers of walls beside where they start."""
_START_HEADS = frozenset({"start", "starts", "begin", "begins", "starting", "from"})
_OTHER_HEADS = words_in(
    "step steps what do this the left right lf rf l r you action actions description movement movements "
    "move moves no # where side turn turns weight wt to how it does footwork and / on bars your of is are "
    "after which at now done we dance starts begins in with for from detail details whats what's happens "
    "doing number nr travel way words text instruction instructions goes they start then next order "
    "finish finishes begin starting beginning danced dances afterwards through much many happens change changes"
)
_HEADS = (
    COUNT_HEADS | FACING_HEADS | SECTION_HEADS | NOTE_HEADS | FIGURE_HEADS | FOOT_HEADS | _WALL_HEADS | _OTHER_HEADS
)  # fmt: skip
_STRONG_HEADS = (
    COUNT_HEADS | FOOT_HEADS | _WALL_HEADS | SECTION_HEADS | (FACING_HEADS - {"end", "ends", "front", "dir"})
)
_ORDER_WORDS = words_in(
    "all restart restarts tag tags full whole then bridge again everything ending sections blocks section "
    "block complete start nothing none no yes normal usual finish finishes fade fades end ends ending again over "
    "continue carry straight on first half counts change top beginning instead become becomes only"
)
_VALUES = ("number", "fraction", "clock", "facing", "amp")
_BETWEEN_COUNTS = frozenset({"-", "and", "&", ",", "to", "a", "/"})
_FINISH = frozenset({"finish"})
"""What a head says that is more often the ending below it than where a wall ends."""
_FEET = frozenset({"r", "l", "rf", "lf", "right", "left", "both"})
_LONGEST = 5
"""Tokens of a cell of a head."""
_MOSTLY = 0.7


def is_head(row: Row) -> bool:
    """Whether a row heads a table: some cells of few words, most of them such as stand over columns."""
    cells = [cell for cell in row.cells if cell]
    words = [token for cell in cells for token in cell if token.kind == "word" or token.text == "#"]
    named = [cell for cell in cells if cell[0].kind == "word" and names_rows(cell)]
    plain = [token for cell in cells if cell not in named for token in cell if token.kind in _VALUES]
    if any(all(token.low in NUMBERS or token.low in _BETWEEN_COUNTS for token in cell) for cell in cells):
        return False  # counts in words: "Seven-and-eight"
    if len(cells) < 2 or not words or plain or len(named) > 1 or any(len(cell) > _LONGEST for cell in cells):
        return False
    if len(cells) > 2 and all(facing_of(cell, {}) is not None for cell in cells[1:]):
        return False  # where each wall begins, in a row: "Facing | front | left | back"
    titles = [_text(cell) for cell in cells]
    strong = any(set(title.split()) & _STRONG_HEADS for title in titles) or set(titles) >= {"left foot", "right foot"}
    strong |= titles[0].strip(" .") in _NUMBER_HEADS
    stepped = any(
        title not in LEFT_HEADS | RIGHT_HEADS and title.split()[0] in ("r", "l", "rf", "lf") for title in titles
    )
    stepped |= sum(title in LEFT_HEADS | RIGHT_HEADS for title in titles) > 2
    known = sum(token.low in _HEADS for token in words) + sum(len(cell) for cell in named)
    return strong and not stepped and known >= 0.6 * len(words)


def _text(cell: Cell) -> str:
    return " ".join(token.low for token in cell)


def names_rows(cell: Cell) -> bool:
    """Whether a cell of a head names the section or extra that stands below it: "Tag", not "End facing"."""
    told = all(token.low in _HEADS for token in cell)
    return is_heading(cell) and (not told or (len(cell) == 1 and cell[0].low in _FINISH))


def is_heading(cell: Cell) -> bool:
    """Whether a cell names one section or an extra, and not only the word for them."""
    numbered = any(token.kind == "number" or len(token.text) == 1 for token in cell) or len(cell) > 1
    return bool(cell) and (extra_kind(cell) is not None or (is_section_name(cell) and numbered))


def is_walls(table: Table, head: Sequence[str]) -> bool:
    """Whether a table lists the walls in their order, and no steps."""
    first = set(head[0].split()) if head else set()
    starts = any(_START_HEADS & set(text.split()) for text in head)
    numbered = bool(first & _NUMBER_HEADS) and len(first) < 3 and starts and bool(_running(table, 0))
    if numbered or (first & _WALL_HEADS and (starts or len(first) < 3)):
        return True
    numbers = _running(table, 0) or _running(table, 1)
    told = [row for row in table.rows if all(map(_is_of_walls, row.cells))]
    ordered = any(token.low in _ORDER_WORDS for row in told for cell in row.cells for token in cell)
    return len(numbers) > 2 and ordered and len(told) >= _MOSTLY * len(table.rows) and not _tells_feet(table)


def _tells_feet(table: Table) -> bool:
    """Whether a column tells only feet: walls that begin to the right and to the left alone, no sheet has."""
    columns = ([cell for cell in table.column(place) if cell] for place in range(table.width))
    return any(cells and all(len(cell) == 1 and cell[0].low in _FEET for cell in cells) for cells in columns)


def _running(table: Table, place: int) -> list[int]:
    """Return the numbers of a column that runs from 1 on."""
    cells = table.column(place) if place < table.width else []
    numbers = [number for cell in cells if cell and (number := wall_number(cell)) is not None]
    return numbers if numbers == list(range(1, len(numbers) + 1)) else []


def _is_of_walls(cell: Cell) -> bool:
    """Whether a cell may stand in a list of walls: a facing, a number, or words of the order."""
    if is_nothing(cell) or facing_of(cell, {}) is not None or wall_number(cell) or is_count(cell):
        return True
    if all(token.kind == "number" for token in cell) or (says_how_much(cell) and cell[0].kind == "word"):
        return True
    return any(token.low in _ORDER_WORDS for token in cell)
