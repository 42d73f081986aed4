"""What the cells of a list of walls mean, as the line over it says."""

from collections.abc import Sequence

from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_WALL = words_in("wall walls w no nr # number time times round rounds pass go repetition rotation lap")
_ROLES: tuple[tuple[str, frozenset[str]], ...] = (
    ("ends", words_in("ends end finish finishes")),
    ("start", words_in("start starts begin begins facing faces face front side clock from")),
    ("eights", words_in("eights 8s")),
    ("counts", words_in("counts count cts ct much beats")),
    ("sections", words_in("sections section figures figure blocks sets phrases parts bars")),
)
_GAP = 2
"""Blanks between the heads of two columns."""
_SECTION = words_in("s sec section fig figure f set block eight phrase p no #")


def roles_of(head: Line | None, rows: Sequence[Line]) -> tuple[list[str], int]:
    """Return the role of each cell of the rows, and how many lines stand over them that only head the cells."""
    if head is None or head.number < rows[0].number - 2 or not any(t.text == BREAK for row in rows for t in row.tokens):
        return [], 0
    cells = _cells(head.tokens)
    cells = cells[not cells[0] :]
    if len(cells) < 2 or not {token.low for token in cells[0]} & _WALL:
        return [], 0
    roles = [_role(cell, place) for place, cell in enumerate(cells)]
    return roles, 1


def _role(cell: Sequence[Token], place: int) -> str:
    lows = {token.low for token in cell}
    if not cell:
        return ""
    if place == 0:
        return "wall"
    if len(cell) <= 2 and cell[-1].kind in ("number", "word") and cell[0].low in _SECTION and cell[-1].text.isdecimal():
        return "tick"
    return next((role for role, words in _ROLES if lows & words), "")


def _cells(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    cells: list[list[Token]] = [[]]
    for token in tokens:
        before = cells[-1][-1] if cells[-1] else None
        if before is not None and token.text != BREAK and token.column - before.column - len(before.text) >= _GAP:
            cells.append([])
        if token.text == BREAK:
            cells.append([])
        else:
            cells[-1].append(token)
    return [tuple(cell) for cell in cells]
