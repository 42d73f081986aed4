"""A card on paper: the largest type with which all of it fits one page, else pages of a readable size.

Sections stand in two columns under the head, none broken unless it is longer than a page; under them the wall order in
a band across the page, then the notes. Lengths are points.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.cards.columns import divided, height_of
from trainer.cards.marks import Mark, Metrics, Strip, stacked
from trainer.cards.model import Card
from trainer.cards.order import order_bands
from trainer.cards.setting import Set, Setter

PAPERS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
MARGIN = 38.0
_GUTTER = 22.0
LARGEST = 12.5
SMALLEST = 7.0
"""Smaller type than this is not read at arm's length; what does not fit then goes on to another page."""
_GOING_ON = 9.0
"""The size of a card of several pages."""
_STEP = 0.25


@dataclass(frozen=True, slots=True)
class Laid:
    """A card laid out."""

    width: float
    height: float
    size: float
    """Of its type."""
    pages: tuple[tuple[Mark, ...], ...]


def laid_out(card: Card, metrics: Metrics, paper: str) -> Laid:
    """Return a card laid out on a paper, on one page if the type need not become too small for it."""
    width, height = PAPERS[paper]
    sheet = _Sheet(card, metrics, width, height, SMALLEST)
    if not sheet.fits_one():
        sheet = _Sheet(card, metrics, width, height, _GOING_ON)
        return Laid(width, height, _GOING_ON, tuple(sheet.pages()))
    low, high = 1, round((LARGEST - SMALLEST) / _STEP)
    while low <= high:
        middle = (low + high) // 2
        larger = _Sheet(card, metrics, width, height, SMALLEST + middle * _STEP)
        if larger.fits_one():
            sheet, low = larger, middle + 1
        else:
            high = middle - 1
    return Laid(width, height, sheet.setter.size, tuple(sheet.pages()))


class _Sheet:
    """A card set at one size, and how it is cut into pages."""

    def __init__(self, card: Card, metrics: Metrics, width: float, height: float, size: float) -> None:
        self.card, self.setter = card, Setter(metrics, size)
        self.wide, self.high = width - 2 * MARGIN, height - 2 * MARGIN
        self.column = (self.wide - _GUTTER) / 2
        self.gap = 0.85 * size
        self.head = self.setter.head(card, self.wide)
        self.key = self.setter.small(card.key, self.wide)
        self.blocks = [self.setter.block(block, self.column) for block in card.blocks]
        self.tail = self._tail()

    def fits_one(self) -> bool:
        """Whether all of it fits one page."""
        tail = sum(strip.height + 1.2 * self.gap for strip in self.tail)
        room = self.high - self.head.height - self.gap - tail - self.key.height
        return divided(self.blocks, room, self.gap) is not None

    def pages(self) -> list[tuple[Mark, ...]]:
        """Return the marks of each page."""
        pages: list[tuple[list[Mark], float]] = []
        blocks = [piece for block in self.blocks for piece in self._pieces(block)]
        while blocks or not pages:
            top = self._top(len(pages))
            number = self._most(blocks, self.high - top.height - self.gap - self.key.height)
            columns: Sequence[Sequence[Set]] = divided(blocks[:number], float("inf"), self.gap) or []
            marks = [*top.marks, *self._columns(columns, top.height + self.gap)]
            deepest = max((height_of(column, self.gap) for column in columns), default=0.0)
            pages.append((marks, top.height + self.gap + deepest))
            blocks = blocks[number:]
        for strip in self.tail:
            y = pages[-1][1] + 1.2 * self.gap
            if y + strip.height > self.high - self.key.height and pages[-1][1] > self.head.height:
                top = self._top(len(pages))
                pages.append(([*top.marks], top.height))
                y = top.height + 1.2 * self.gap
            pages[-1] = ([*pages[-1][0], *strip.at(0, y)], y + strip.height)
        return [self._finished(marks, number, len(pages)) for number, (marks, _) in enumerate(pages)]

    def _finished(self, marks: Sequence[Mark], number: int, of: int) -> tuple[Mark, ...]:
        foot = self.high - self.key.height
        placed = [*marks, *self.key.at(0, foot)]
        if of > 1:
            placed += self.setter.small(f"page {number + 1} of {of}", 80).at(self.wide - 60, foot)
        return Strip(0, tuple(placed)).at(MARGIN, MARGIN)

    def _top(self, page: int) -> Strip:
        return self.setter.note(f"{self.card.title}, going on", self.wide) if page else self.head

    def _columns(self, columns: Sequence[Sequence[Set]], top: float) -> list[Mark]:
        marks: list[Mark] = []
        for number, column in enumerate(columns):
            strips = [stacked(block.strips, block.gap) for block in column]
            marks += stacked(strips, self.gap).at(number * (self.column + _GUTTER), top)
        return marks

    def _most(self, blocks: Sequence[Set], room: float) -> int:
        """Return how many blocks fit a page, at least one."""
        number = min(len(blocks), 1)
        while number < len(blocks) and divided(blocks[: number + 1], room, self.gap) is not None:
            number += 1
        return number

    def _pieces(self, block: Set) -> list[Set]:
        """Return a block, or where it is longer than a column its pieces."""
        most = self.high - self.head.height - self.key.height - 3 * self.gap
        pieces: list[list[Strip]] = [[]]
        used = 0.0
        for strip in block.strips:
            if pieces[-1] and used + strip.height + block.gap > most:
                pieces.append([])
                used = 0.0
            pieces[-1].append(strip)
            used += strip.height + block.gap
        return [Set(tuple(piece), block.gap) for piece in pieces]

    def _tail(self) -> list[Strip]:
        """Return what stands across the page under the columns: the order in bands, then the notes."""
        most = self.high - self.head.height - self.key.height - 6 * self.gap
        bands = order_bands(self.card, self.setter, self.wide, self.column, most)
        return [*bands, *(self.setter.note(note, self.wide) for note in self.card.notes)]
