"""Tables that list the walls: what their columns mean goes into the head in plain words, the rows stay as they are."""

from dataclasses import replace

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.tables.cells import Cell, facing_of
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.words import mark_like, word_like
from trainer.sheet.prose.words import Token

_MOSTLY = 0.7
_ENDS = frozenset({"end", "ends", "finish", "finishes", "finishing", "after"})


def walls_head(table: Table, head: Row) -> Line:
    """Return the head of a table of walls as "wall | start | dance | then", by what stands in the cells below."""
    titles: list[str] = []
    for place in range(table.width):
        cells = [cell for cell in table.column(place) if cell]
        own = {token.low for token in head.cells[place]} if place < len(head.cells) else set()
        titles.append(_title(cells, own, titles))
    tokens: list[Token] = []
    first = head.line.tokens[0]
    for title in titles:
        tokens += [*([mark_like(first, BREAK)] if tokens else []), word_like(first, title)]
    return replace(head.line, tokens=tuple(tokens))


def _title(cells: list[Cell], own: set[str], before: list[str]) -> str:
    if not before:
        return "wall"
    faced = sum(facing_of(cell, {}) is not None for cell in cells)
    if cells and faced >= _MOSTLY * len(cells) and "start" not in before and not own & _ENDS:
        return "start"
    if cells and faced >= _MOSTLY * len(cells):
        return "ends"
    counted = sum(cell[0].kind == "number" for cell in cells)
    return "dance" if counted >= _MOSTLY * len(cells) and "dance" not in before else "then"
