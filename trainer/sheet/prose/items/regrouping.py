"""Items whose words and counts the page parted otherwise than the steps go.

A figure whose feet are counted one by one ("shuffle back right (3), left (&), right (4)") is one item; a step after an
& among the words ("on 1 and 2 rock right, recover left, & step right beside left") has a count of its own.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.dance.counts import offset
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.items.halves_listed import with_listed_halves
from trainer.sheet.prose.items.phrases import Gloss, fills
from trainer.sheet.prose.items.pointing import steps_told
from trainer.sheet.prose.items.times_behind import with_times_told
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.words import Item, Slot, Token
from trainer.terms import Feel

_FITS = 0.4
"""Words that fill their counts for less need no other."""

_FAILS = 1.0
"""Words that fill their counts for so much break a law there."""

_MOST_FEET = 8
_OF_FEET = {"side", "foot", "break", "glue"}
_FEET = {"foot", "feet"}
"""What tells no more than which feet dance: "the same kick ball change once more, right, right, left"."""

_ON_EACH = re.compile(r"\b(?:every|each) (?:step|count|one|beat)\b|\b(?:full |complete |whole )?circle\b")
"""What is told of the steps that follow, all of them: "a quarter turn left with every step: right on one, ..."."""


def regrouped(items: Sequence[Item], gloss: Gloss, feel: Feel) -> list[Item]:
    """Return a block's items, those joined that are one figure, with the counts of a bare & put in."""
    done: list[Item] = []
    at = 0
    while at < len(items):
        one, length = _with_feet(items, at, gloss)
        one = with_times_told(_spelled_out(one, gloss), gloss)
        done.append(with_listed_halves(_with_upbeat(one, gloss, feel), gloss, feel))
        at += length
    return done


def _spelled_out(item: Item, gloss: Gloss) -> Item:
    """Return an item that points back and then tells its steps all the same with these alone."""
    rest = steps_told(item.text) if item.slots else ()
    n = len(item.slots)
    if not rest or all(lex.kind in _OF_FEET or lex.low in _FEET for lex in lexemes(rest, gloss.short)):
        return item
    passed_over = lexemes(item.text[: len(item.text) - len(rest)], gloss.short)
    # "Quarter turn right again, right beside left" turns, and does not point back.
    again = points_back(item.text) and not any(lex.kind == "amount" for lex in passed_over)
    better = again or fills(item.text, n, gloss) >= _FITS
    return replace(item, text=rest) if better and fills(rest, n, gloss) < _FITS else item


def _with_feet(items: Sequence[Item], at: int, gloss: Gloss) -> tuple[Item, int]:
    """Return the item at a place joined with the bare feet after it, and of how many items it is made."""
    first = items[at]
    feet: list[Token] = []
    for item in items[at + 1 : at + _MOST_FEET]:
        foot = _bare_foot(item) if len(item.slots) == 1 else None
        if foot is None:
            break
        feet.append(foot)
    spread = bool(_ON_EACH.search(" ".join(token.low for token in first.text)))
    figure = spread or any(lex.kind == "figure" for lex in lexemes(first.text, gloss.short))
    if not feet or len(first.slots) != 1 or not figure:
        return first, 1
    if fills(first.text, 1, gloss) < _FAILS and not spread:
        return first, 1
    for length in range(len(feet), 0, -1):
        text = (*_bare_end(first.text), *feet[:length])
        if fills(text, length + 1, gloss) < _FITS:
            slots = tuple(slot for item in items[at : at + length + 1] for slot in item.slots)
            return replace(first, slots=slots, text=text), length + 1
    return first, 1


def _bare_foot(item: Item) -> Token | None:
    """Return the word of an item that names a foot and says nothing else."""
    words = [token for token in item.text if token.kind != "mark" and token.low not in ("and", "then", "the")]
    lone = len(words) == 1 and [lex.kind for lex in lexemes(words)] == ["side"]
    return words[0] if lone else None


def _bare_end(text: Sequence[Token]) -> Sequence[Token]:
    """Return words without the punctuation at their end."""
    end = len(text)
    while end and text[end - 1].kind == "mark" and text[end - 1].text in ",;:.":
        end -= 1
    return text[:end]


def _with_upbeat(item: Item, gloss: Gloss, feel: Feel) -> Item:
    """Return an item with a count for its one bare & where the words need it and it parts them well."""
    beat = offset("&", feel)
    if beat is not None and (led := _led_by_an_and(item, gloss)):
        # "Step right on 3, & left together, step right on 4": the count tells the step that ends its words.
        upbeat = Slot("&", item.slots[0].beat - 1 + beat)
        return replace(item, slots=(upbeat, *item.slots), text=led)
    ands = [at for at, token in enumerate(item.text) if token.kind == "amp" and at]
    if len(ands) != 1 or item.text[ands[0] - 1].text not in ",;." or beat is None or not item.slots:
        return item
    if any(slot.label in ("e", "&", "a") for slot in item.slots) or fills(item.text, len(item.slots), gloss) < _FAILS:
        return item
    before, after = item.text[: ands[0]], item.text[ands[0] + 1 :]
    n = len(item.slots)
    for place in range(n, 0, -1):
        if fills(before, place, gloss) < _FITS and fills(after, n - place + 1, gloss) < _FITS:
            upbeat = Slot("&", item.slots[place - 1].beat + beat)
            return replace(item, slots=(*item.slots[:place], upbeat, *item.slots[place:]))
    return item


def _led_by_an_and(item: Item, gloss: Gloss) -> tuple[Token, ...]:
    """Return an item's words after the & that they begin with, where they fill one count more than it has."""
    start = next((at for at, token in enumerate(item.text) if token.text not in ",;."), 0)
    words = item.text[start + 1 :]
    if not item.slots or not words or item.text[start].kind != "amp" or item.slots[0].label in ("e", "&", "a"):
        return ()
    n = len(item.slots)
    fails = fills(item.text, n, gloss) >= _FAILS and fills(words, n, gloss) >= _FAILS
    return words if fails and fills(words, n + 1, gloss) < _FITS else ()
