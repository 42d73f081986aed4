"""The counts that words take: as many as a sheet says they last, halves among them where a figure has some."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.sheet.prose.items.phrases import Gloss, fills, item_readings
from trainer.sheet.prose.items.unmarked import with_counts
from trainer.sheet.prose.words import Item, Slot, Token

FITS = 0.7
"""Words that fill counts so well are danced on them."""
_EMPTY = 9.0
"""What it costs that no words stand there."""
_LONGEST = 32
"""Tokens of words whose figures are looked for."""
_WELL = 0.2
"""Words that fill their counts so well need no halves."""
_OVER_LINES = 0.2
"""What it costs that words stand on two lines, where those of one may do."""
_PATTERNED = 0.25
"""What it costs that a figure's own pattern gives the counts."""
_TRIPLE = 0.65
"""What it costs that three steps are taken for a triple."""


@dataclass(frozen=True, slots=True)
class Filling:
    """How some words fill so many counts."""

    price: float
    labels: tuple[str, ...]
    """The counts from 1 on, halves among them."""


def filling(candidates: Sequence[Sequence[Token]], counts: int, gloss: Gloss) -> Filling:
    """Return the counts that the words take which best fill so many, and how badly they do.

    `candidates` are the words with and without what stands at their edges.
    """
    plain = tuple(str(count) for count in range(1, counts + 1))
    best = Filling(_EMPTY, plain)
    for words in candidates:
        apart = _OVER_LINES * (words[0].line != words[-1].line)
        price = fills(words, counts, gloss) + apart
        if price < best.price:
            best = Filling(price, plain)
        if price > _WELL and len(words) <= _LONGEST:
            patterned = _patterned(words, counts, gloss)
            if patterned is not None and patterned.price + apart < best.price:
                best = replace(patterned, price=patterned.price + apart)
    return best


def _patterned(words: Sequence[Token], counts: int, gloss: Gloss) -> Filling | None:
    """Return the counts of words with halves, as the figures that they name have them; None where they have none."""
    item = Item((), tuple(words), words[0].span)
    slots = with_counts(item, counts, gloss).slots
    if len(slots) > counts:
        return Filling(_PATTERNED, tuple(_label(slot) for slot in slots))
    if counts == 2 and _is_a_triple(item, gloss):
        return Filling(_TRIPLE, ("1", "&", "2"))
    return None


def _label(slot: Slot) -> str:
    """Return a count without the fold at the end of a phrase."""
    return str(int(slot.beat) + 1) if slot.beat.denominator == 1 and slot.label.isdecimal() else slot.label


def _is_a_triple(item: Item, gloss: Gloss) -> bool:
    """Whether words are three steps: on two counts these are a triple."""
    slots = (Slot("1", Fraction(0)), Slot("&", Fraction(1, 2)), Slot("2", Fraction(1)))
    return any(reading.breaches == 0 for reading in item_readings(Item(slots, item.text, item.span), gloss, most=2))
