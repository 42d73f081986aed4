"""Tables that list the walls: what their columns mean goes into the head in plain words, and each row keeps its cells.

What is said in one cell after another is told one after the other: a comma stands between them.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.tables.cells import Cell, facing_of, is_nothing, words_in
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.heads import SECTION_HEADS
from trainer.sheet.prose.tables.words import mark_like, word_like
from trainer.sheet.prose.words import Token

_MOSTLY = 0.7
_ENDS = frozenset({"end", "ends", "finish", "finishes", "finishing", "after"})
_ROUND_COUNTS = frozenset(
    {"-", "to", "through", "thru", "count", "counts", "ct", "cts", "all", "full", "whole", "(", ")"}
)
_SECTIONS = SECTION_HEADS | words_in(
    "parts sections blocks eights sets phrases groups figures verses rows lines bars and to through the first second "
    "third fourth last only just up end of after half whole all counts count"
)
_TOLD = ("dance", "then")
"""The columns that say what is danced."""


def walls_of(table: Table, head: Row | None) -> list[Line]:
    """Return the lines of a table of walls; its head, if it has one, as "wall | start | dance | then"."""
    if head is None:
        return [row.line for row in table.rows]
    titles: list[str] = []
    for place in range(table.width):
        cells = [cell for cell in table.column(place) if cell]
        own = {token.low for token in head.cells[place]} if place < len(head.cells) else set()
        titles.append(_title(cells, own, titles))
    first = head.line.tokens[0]
    named: list[Cell] = [(word_like(first, title),) for title in titles]
    return [_in_cells(head.line, named), *(_told(row, titles) for row in table.rows)]


def _title(cells: Sequence[Cell], own: set[str], before: Sequence[str]) -> str:
    """Return what a column of a table of walls means."""
    if not before:
        return "wall"
    faced = sum(facing_of(cell, {}) is not None for cell in cells)
    if cells and faced >= _MOSTLY * len(cells):
        return "start" if "start" not in before and not own & _ENDS else "ends"
    counted = sum(cell[0].kind == "number" for cell in cells)
    return "dance" if counted >= _MOSTLY * len(cells) and "dance" not in before else "then"


def _told(row: Row, titles: Sequence[str]) -> Line:
    """Return a row with a comma after each cell that says what is danced and has another such cell after it."""
    if not row.cells[0]:
        return row.line
    cells: list[Cell] = []
    danced = [_danced(cell) if titles[place] == "dance" else cell for place, cell in enumerate(row.cells)]
    for place, cell in enumerate(danced):
        after = row.cells[place + 1] if place + 1 < len(row.cells) else ()
        more = titles[place] in _TOLD and cell and not is_nothing(cell) and after and not is_nothing(after)
        cells.append((*cell, mark_like(cell[-1], ",")) if more else () if is_nothing(cell) else cell)
    return _in_cells(row.line, cells)


def _danced(cell: Cell) -> Cell:
    """Return how many counts a wall dances, where they are given as those from the first on: 16 of "1-16"."""
    opened = next((at for at, token in enumerate(cell) if token.text in ("(", "=")), 0)
    if opened and cell[0].kind == "number" and all(_names_sections(token) for token in cell[opened:]):
        cell = cell[:opened]
    said = [token for token in cell if token.low not in _ROUND_COUNTS]
    from_first = len(said) == 2 and said[0].text == "1" and said[1].kind == "number"
    return (replace(said[1], glued=False),) if from_first else cell


def _names_sections(token: Token) -> bool:
    """Whether a token in brackets only tells the sections that so many counts are: "16 (blocks A B)"."""
    return token.kind in ("number", "mark", "amp") or len(token.text) == 1 or token.low in _SECTIONS


def _in_cells(line: Line, cells: Sequence[Cell]) -> Line:
    """Return a line of these cells, empty ones at its end left out."""
    filled = [place for place, cell in enumerate(cells) if cell]
    tokens: list[Token] = []
    for cell in cells[: filled[-1] + 1] if filled else ():
        tokens += [*([mark_like(line.tokens[0], BREAK)] if tokens else []), *cell]
    return replace(line, tokens=tuple(tokens)) if tokens else line
