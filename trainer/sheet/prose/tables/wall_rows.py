"""Tables that list the walls: what their columns mean goes into the head in plain words, and each row keeps its cells.

What is said in one cell after another is told one after the other: a comma stands between them.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.order.lines.counts_in_place import counts_in_place
from trainer.sheet.prose.tables.cells import (
    Cell,
    as_facing,
    facing_of,
    is_nothing,
    says_how_much,
    wall_number,
    words_in,
)
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.heads import SECTION_HEADS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
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
_SECTIONS_HEADED = SECTION_HEADS | words_in("parts sections blocks eights sets phrases groups figures rows lines")
"""What stands over a column that tells by sections how much is danced."""
_UP_TO = frozenset({"-", "to", "through", "thru", "&", "and"})
_FEW = ("2", "3", "4", "5", "6", "7")
"""Sections rather than counts, where they are danced from the first on: no wall is left so early."""
_MOST = 12
"""Walls of one row."""
_CHANGED = re.compile(
    r"\bchanged? (?:on |of |at |in )?(?:the )?(?:counts?|cts?|beats?) (?P<first>\d+)(?: (?:-|to|&|and) (?P<last>\d+))?"
)
"""What is changed behind the counts that are danced as usual."""
_PLAIN = words_in("no none nothing n normal usual as straight on carry goes go continue - . ,")
"""Words of a cell that says that nothing happens."""
_ORDER = ("wall", "start", "dance", "then", "ends")
_TOLD = ("dance", "then")
"""The columns that say what is danced."""


def walls_of(table: Table, head: Row | None, key: dict[str, Fraction]) -> list[Line]:
    """Return the lines of a table of walls under the head "wall | start | dance | then", its columns in that order.

    Where each wall ends is left out if the next one's start is told.
    """
    named = [_lows(cell) for cell in head.cells] if head else []
    table = _numbered(table)
    titles = _titles(table, [*named, *[set()] * table.width], key)
    if head is None and titles.count("start") + titles.count("dance") == 0:
        return [row.line for row in table.rows]
    order = [place for title in _ORDER for place, own in enumerate(titles) if own == title]
    order = [place for place in order if titles[place] != "ends" or "start" not in titles]
    extras = [_extra_of(head.cells[place]) if head and place < len(head.cells) else () for place in order]
    first = head.line if head else replace(table.rows[0].line, tokens=table.rows[0].line.tokens[:1])
    dances = [place for place in order if titles[place] == "dance" and place < len(named)]
    sections = any(named[place] & _SECTIONS_HEADED for place in dances)
    shown: list[Cell] = [(word_like(first.tokens[0], titles[place]),) for place in order]
    ordered = [titles[place] for place in order]
    return [
        _in_cells(first, shown),
        *(
            _told(row, cells, ordered, extras, sections=sections)
            for row in table.rows
            for cells in _each_wall(_faced([row.cells[place] for place in order], ordered, key), ordered)
        ),
    ]


def _titles(table: Table, named: Sequence[set[str]], key: dict[str, Fraction]) -> list[str]:
    """Return what each column of a table of walls means."""
    columns = [[cell for cell in table.column(place) if cell] for place in range(table.width)]
    numbered = [place for place, cells in enumerate(columns[:2]) if _numbers_walls(cells)]
    walls = numbered[0] if numbered else 0
    titles: list[str] = []
    for place, cells in enumerate(columns):
        titles.append("wall" if place == walls else _title(cells, named[place], titles, key))
    return titles


def _numbered(table: Table) -> Table:
    """Return a table of walls with those that it numbers in words or letters by their numbers: "III", "third", "W3"."""
    for place in range(min(2, table.width)):
        numbers = [wall_number(cell) for cell in table.column(place)]
        if [number for number in numbers if number][:2] == [1, 2]:
            rows = [
                replace(row, cells=(*row.cells[:place], _as_number(row.cells[place], number), *row.cells[place + 1 :]))
                for row, number in zip(table.rows, numbers, strict=True)
            ]
            return replace(table, rows=tuple(rows))
    return table


def _as_number(cell: Cell, number: int | None) -> Cell:
    return cell if number is None else (replace(cell[0], kind="number", text=str(number), low=str(number)),)


def _numbers_walls(cells: Sequence[Cell]) -> bool:
    """Whether the cells of a column number the walls: 1, 2, 3 or "wall 1", "4-5"."""
    numbers = [int(token.text[:3]) for cell in cells for token in cell if token.kind == "number"]
    return numbers[:2] == [1, 2] and all(after > before for before, after in pairwise(numbers))


def _title(cells: Sequence[Cell], own: set[str], before: Sequence[str], key: dict[str, Fraction]) -> str:
    """Return what a column of a table of walls means that does not number them."""
    faced = sum(facing_of(cell, key) is not None for cell in cells)
    if cells and faced >= _MOSTLY * len(cells):
        return "start" if "start" not in before and not own & _ENDS else "ends"
    counted = sum(map(says_how_much, cells))
    return "dance" if counted >= _MOSTLY * len(cells) and "dance" not in before else "then"


def _lows(cell: Cell) -> set[str]:
    return {token.low for token in cell}


def _each_wall(cells: list[Cell], titles: Sequence[str]) -> list[list[Cell]]:
    """Return the cells of a row for each of its walls: "4-5", "4 to 6"; only the first begins where the row says."""
    numbers = [token for token in cells[0] if token.kind == "number"]
    ranged = len(numbers) == 2 and any(token.low in _UP_TO for token in cells[0])
    first, last = (int(token.text[:3]) for token in numbers) if ranged else (0, 0)
    if not first < last < first + _MOST:
        return [cells]
    walls = [(replace(numbers[0], text=str(wall), low=str(wall)),) for wall in range(first, last + 1)]
    later = [() if title == "start" else cell for cell, title in zip(cells, titles, strict=True)]
    return [[wall, *(cells if not place else later)[1:]] for place, wall in enumerate(walls)]


def _faced(cells: Sequence[Cell], titles: Sequence[str], key: dict[str, Fraction]) -> list[Cell]:
    """Return the cells of a row, those that tell by a word or a letter where it begins or ends as facings."""
    told: list[Cell] = []
    for cell, title in zip(cells, titles, strict=True):
        value = facing_of(cell, key) if cell and title in ("start", "ends") else None
        plain = any(token.kind in ("clock", "facing", "number") for token in cell)
        told.append(cell if value is None or plain else (as_facing(cell, value),))
    return told


def _extra_of(head: Cell) -> Cell:
    """Return the extra that a column names at its head, for cells that only say yes or no."""
    return tuple(token for token in head if extra_kind((token,)) or token.low == "restart")[:1]


def _told(row: Row, cells: Sequence[Cell], titles: Sequence[str], extras: Sequence[Cell], *, sections: bool) -> Line:
    """Return a row with a comma after each cell that says what is danced and has another such cell after it."""
    if not cells[0]:
        return row.line
    told = [
        _danced(cell, sections=sections) if title == "dance" else _answered(cell, extra) if title == "then" else cell
        for cell, title, extra in zip(cells, titles, extras, strict=True)
    ]
    told = _with_changed(told, titles)
    parted: list[Cell] = []
    for place, cell in enumerate(told):
        more = titles[place] in _TOLD and cell and any(told[place + 1 :])
        parted.append((*cell, mark_like(cell[-1], ",")) if more else cell)
    return _in_cells(row.line, parted)


def _with_changed(cells: Sequence[Cell], titles: Sequence[str]) -> list[Cell]:
    """Return the cells, counts that are changed behind those danced as usual among these: "15 | change on count 16"."""
    changed = [match for cell in cells if (match := _CHANGED.search(" ".join(token.low for token in cell)))]
    last = {int(match["first"]) - 1: int(match["last"] or match["first"]) for match in changed}
    return [_up_to(cell, last) if title == "dance" else cell for cell, title in zip(cells, titles, strict=True)]


def _up_to(cell: Cell, last: Mapping[int, int]) -> Cell:
    """Return a cell whose last number is another where one stands for it."""
    at = next((at for at in range(len(cell) - 1, -1, -1) if cell[at].kind == "number"), None)
    other = last.get(int(cell[at].text[:3])) if at is not None else None
    return cell if at is None or other is None else (*cell[:at], number_like(cell[at], other), *cell[at + 1 :])


def _answered(cell: Cell, extra: Cell) -> Cell:
    """Return what happens on a wall: the extra at the head for yes, nothing for no and the like."""
    if not cell or is_nothing(cell) or all(token.low in _PLAIN for token in cell):
        return ()
    if cell[0].low in ("no", "none", "n") and len(cell) > 1 and cell[1].text in (",", ";", ".", "-", ":"):
        return cell[2:]
    if cell[0].low in ("yes", "y", "x", "✓", "✔") and extra:
        return (word_like(cell[0], extra[0].text), *cell[1:])
    return counts_in_place(cell)


def _danced(cell: Cell, *, sections: bool) -> Cell:
    """Return how many counts a wall dances, where they are given as those from the first on: 16 of "1-16".

    Under a head that speaks of sections, and where they are too few for counts, they number sections.
    """
    opened = next((at for at, token in enumerate(cell) if token.text in ("(", "=")), 0)
    if opened and cell[0].kind == "number" and all(_names_sections(token) for token in cell[opened:]):
        cell = cell[:opened]
    if is_nothing(cell):
        return ()
    said = [token for token in cell if token.low not in _ROUND_COUNTS]
    if sections and cell[0].kind == "number" and len(cell[0].text) == 1:
        return (word_like(cell[0], "section" if len(said) == 1 or said[1].text == "," else "sections"), *cell)
    from_first = len(said) == 2 and said[0].text == "1" and said[1].kind == "number" and said[1].text not in _FEW
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
