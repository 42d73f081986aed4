"""Counts among words that only point into those in brackets after them: "a vine with a quarter turn on 3 (1-3)"."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import Line

_LEADS = {"on", "count", "counts", "beat", "beats", "the"}
_STOPS = (".", ";", "!", "?")


def without_pointers(texts: Sequence[Line], marks: Sequence[Mark]) -> list[Mark]:
    """Return the marks without those that name one count of the brackets which close their clause."""
    pointing = [mark for mark, after in pairwise(marks) if _points(texts, mark, after)]
    return [mark for mark in marks if not any(mark is one for one in pointing)]


def _points(texts: Sequence[Line], mark: Mark, after: Mark) -> bool:
    """Whether a count is one of those in the brackets after it, which are more, and no sentence ends between them."""
    closes = mark.line == after.line and after.closed and not mark.closed and mark.first > 0
    if not closes or len(mark.places) >= len(after.places):
        return False
    words = texts[mark.line].tokens
    if words[mark.first].low not in _LEADS or any(one.text in _STOPS for one in words[mark.first : after.first]):
        return False
    return all(
        place in after.places if place.number is not None else place.sub in {one.sub for one in after.places}
        for place in mark.places
    )
