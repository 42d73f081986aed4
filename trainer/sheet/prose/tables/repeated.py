"""Columns that only say again how far the words of their rows turn: "1/4 R, R close, 1/4 R | 1/2 R".

A column of turns adds to words that name none; where most rows turn as far in words as in the column it repeats them,
and tells nothing of rows whose words turn. Turns are in parts of a whole turn; in a column only their size is compared.
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.tables.cells import Cell, is_nothing
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.tables.words import only_turns
from trainer.sheet.prose.words import Token

_SIZES = {"quarter": Fraction(1, 4), "half": Fraction(1, 2), "full": Fraction(1), "eighth": Fraction(1, 8)}
_SIDES = {"r": 1, "right": 1, "cw": 1, "clockwise": 1, "l": -1, "left": -1, "ccw": -1, "anticlockwise": -1}
_NEAR = 4
"""A turn's side stands at most so many tokens after its size."""
_MOSTLY = 0.6


def repeated_turns(table: Table, places: Sequence[int]) -> frozenset[int]:
    """Return which columns of words only repeat the turns that the other ones tell."""
    return frozenset(place for place in places if _repeats(table, place, [one for one in places if one != place]))


def turns(words: Sequence[Cell]) -> bool:
    """Whether words tell the size of a turn."""
    return any(token.kind == "fraction" or token.low in _SIZES for cell in words for token in cell)


def _repeats(table: Table, place: int, others: Sequence[int]) -> bool:
    cells = [row.cells[place] for row in table.rows if not is_nothing(row.cells[place])]
    if not cells or not others or sum(map(only_turns, cells)) < _MOSTLY * len(cells):
        return False
    told = [
        (_sum(row.cells[place]), _sum([token for other in others for token in row.cells[other]]))
        for row in table.rows
        if only_turns(row.cells[place]) and turns([row.cells[other] for other in others])
    ]
    return bool(told) and sum(_alike(*pair) for pair in told) >= _MOSTLY * len(told)


def _alike(one: Fraction, other: Fraction) -> bool:
    return abs(one) % 1 == abs(other) % 1


def _sum(words: Sequence[Token]) -> Fraction:
    """Return how far words turn in all, to the right; a turn without a side goes on to the side of the one before."""
    total, side = Fraction(0), 1
    for at, token in enumerate(words):
        size = _SIZES.get(token.low)
        if token.kind == "fraction" and token.value is not None:
            size = token.value
        if size is None:
            continue
        after = [one.low for one in words[at + 1 : at + 1 + _NEAR]]
        side = next((_SIDES[low] for low in after if low in _SIDES), side)
        total += side * size
    return total
