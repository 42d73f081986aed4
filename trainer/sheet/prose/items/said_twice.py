"""Counts whose second half is the first on the other side: "vine right and touch, then the same to the left"."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.header.gloss import Gloss
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.items.turned_again import tells_a_step_that_turns
from trainer.sheet.prose.words import Item, Token

_SAME = re.compile(
    r"(?:(?:[,;.(]|and|then|&) )*\b(?:the )?(?:very |exact )?(?:same|again|repeat(?:ed)?)(?: again| thing)? "
    r"(?:to|on|with|starting|going|leading|for|over to|from)(?: with| on| to)? (?:the |your )?"
    r"(?:left|right|other|opposite)(?: (?:side|foot|way|feet|leg|direction))?\b"
)
_FITS = 0.45
"""The words of the first half fill its counts so well."""
_LEAST = 4
"""Counts of both halves."""


def with_mirrored_halves(items: Sequence[Item], gloss: Gloss) -> list[Item]:
    """Return the items, each of which says so as one of its first half and one that points back to it."""
    return [half for item in items for half in _halves(item, gloss)]


def _halves(item: Item, gloss: Gloss) -> Iterator[Item]:
    count = len(item.slots)
    cut = _cut(item.text) if count >= _LEAST and count % 2 == 0 else None
    if cut is None or fills(item.text[: cut[0]], count // 2, gloss) >= _FITS:
        yield item
        return
    first, last = item.slots[: count // 2], item.slots[count // 2 :]
    if [slot.label for slot in first if slot.label in "e&a"] != [slot.label for slot in last if slot.label in "e&a"]:
        yield item
        return
    yield replace(item, slots=first, text=item.text[: cut[0]])
    yield replace(item, slots=last, text=item.text[cut[0] : cut[1]], span=item.text[cut[0]].span)


def _cut(text: Sequence[Token]) -> tuple[int, int] | None:
    """Return where the words begin that point back, and where they end, if nothing is told behind them."""
    words = ""
    starts = []
    for token in text:
        starts.append(len(words))
        words += token.low + " "
    match = next((one for one in _SAME.finditer(words) if one.start() > 0), None)
    if match is None:
        return None
    first = next(at for at, start in enumerate(starts) if start >= match.start())
    last = next((at for at, start in enumerate(starts) if start >= match.end()), len(text))
    if tells_a_step_that_turns(text[last:]):
        last = len(text)
    return (first, last) if first > 1 and not _tells_more(text[last:]) else None


def _tells_more(rest: Sequence[Token]) -> bool:
    """Whether steps follow, and not only, in brackets, what the ones told are."""
    marks = [token for token in rest if token.text not in ".,;!"]
    return bool(marks) and marks[0].text not in "(["
