"""Lines that tell a whole phrase by themselves, above lines that count from 1 again: "1-8 walk round in a circle ...".

Such a range looks as if it summed up the counts below it. It does not where its words fill it, and where the dance has
just so many counts fewer than it is said to have.
"""

from collections.abc import Collection, Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.chain import Link
from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Fill

_FILLED = 0.4
"""Words that fill a whole phrase so well are its steps."""


def whole_lines(
    texts: Sequence[Line],
    marks: Sequence[Mark],
    links: Sequence[Link],
    fresh: Collection[int],
    lengths: tuple[int, int | None],
    fill: Fill,
) -> set[int]:
    """Return the lines that stand below such lines, each of which begins anew.

    `lengths` are those of a phrase and, if it is stated, of the dance; `fresh` the lines on which an extra begins.
    """
    phrase, total = lengths
    missing = (total or 0) - _danced(links, fresh, phrase)
    if total is None or missing <= 0:
        return set()
    taken = {link.mark.line for link in links}
    below = {
        after.line
        for mark, after in pairwise(marks)
        if mark.line not in taken and mark.line < after.line and _tells_a_phrase(texts, mark, phrase, fill)
    }
    return below if len(below) * phrase == missing else set()


def _tells_a_phrase(texts: Sequence[Line], mark: Mark, phrase: int, fill: Fill) -> bool:
    """Whether a range opens its line, holds a phrase, and the words behind it fill it."""
    whole = mark.spread and mark.first == 0 and len(mark.places) == phrase
    return whole and fill(texts[mark.line].tokens[mark.last :], phrase) < _FILLED


def _danced(links: Sequence[Link], fresh: Collection[int], phrase: int) -> int:
    """Return the counts of the dance as far as links tell them, without those of extras."""
    half = phrase // 2
    base = high = 0
    extra = False
    for link in links:
        if link.restarts:
            base += 0 if extra else -(-high // half) * half
            high = 0
            extra = link.mark.line in fresh
        high = max(high, *(place.number or 0 for place in link.mark.places))
    return base + (0 if extra else -(-high // half) * half)
