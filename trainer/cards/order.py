"""The wall order on a band across the page, as one list where that takes hardly more room than two columns of it."""

from collections.abc import Sequence
from typing import TypeAlias

from trainer.cards.columns import divided, height_of
from trainer.cards.marks import Band, Mark, Strip, stacked
from trainer.cards.model import Card
from trainer.cards.setting import Set, Setter

_HARDLY = 1.25
"""A list is easier learnt than columns, and may be so much longer."""
_Columns: TypeAlias = Sequence[Sequence[Strip]]


def order_bands(card: Card, setter: Setter, width: float, column: float, most: float) -> list[Strip]:
    """Return the order on as many bands as there must be for none to be higher than `most`.

    `column` is the width of a column of the page.
    """
    if not card.walls:
        return []
    inset, gap = 0.7 * setter.size, 0.2 * setter.size
    listed = _lines(card, setter, width - 2 * inset)
    halves = _lines(card, setter, column - 2 * inset)
    columns = divided([Set((strip,), 0) for strip in halves], float("inf"), gap) or ((), ())
    in_columns = max(height_of(one, gap) for one in columns)
    single = stacked(listed, gap).height <= _HARDLY * in_columns
    bands: list[list[Strip]] = []
    for strip in listed if single else halves:
        if bands and _height([*bands[-1], strip], single, gap) <= most:
            bands[-1].append(strip)
        else:
            bands.append([strip])
    return [
        _band(setter, _arranged(strips, single, gap), width, (0, width - column), first=not number)
        for number, strips in enumerate(bands)
    ]


def _lines(card: Card, setter: Setter, width: float) -> list[Strip]:
    names = setter.names_width(card.walls)
    lines = [setter.wall(wall, names, width) for wall in card.walls]
    return [*lines, setter.note(card.goes_on, width)] if card.goes_on else lines


def _arranged(strips: Sequence[Strip], single: bool, gap: float) -> _Columns:
    if single:
        return [strips]
    halves = divided([Set((strip,), 0) for strip in strips], float("inf"), gap) or ((), ())
    return [[strip for block in half for strip in block.strips] for half in halves]


def _height(strips: Sequence[Strip], single: bool, gap: float) -> float:
    return max(stacked(column, gap).height for column in _arranged(strips, single, gap))


def _band(setter: Setter, columns: _Columns, width: float, lefts: tuple[float, float], *, first: bool) -> Strip:
    """Return some lines of the order on a band; `lefts` is where its columns begin."""
    inset, gap = 0.7 * setter.size, 0.2 * setter.size
    heading = setter.title("the order, wall by wall" if first else "the order, going on", width / 2)
    stacks = [stacked(column, gap) for column in columns]
    height = heading.height + max(stack.height for stack in stacks) + 1.6 * inset
    marks: list[Mark] = [Band(0, 0, width, height, "band"), *heading.at(inset, 0.6 * inset)]
    for stack, left in zip(stacks, lefts, strict=False):
        marks += stack.at(left or inset, 0.8 * inset + heading.height)
    return Strip(height, tuple(marks))
