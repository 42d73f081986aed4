"""Counts among words that only point into those in brackets after them: "a vine with a quarter turn on 3 (1-3)"."""

from collections.abc import Sequence

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import Line

_LEADS = {"on", "count", "counts", "beat", "beats", "the"}
_STOPS = (".", ";", "!", "?")


def without_pointers(texts: Sequence[Line], marks: Sequence[Mark]) -> list[Mark]:
    """Return the marks without those that name one count of the brackets which close their clause."""
    kept: list[Mark] = []
    for mark in reversed(marks):
        # "on 7 turn left, scuff on 8 (5-8)": the brackets close the clause of both.
        if not (kept and _points(texts, mark, kept[-1])):
            kept.append(mark)
    return kept[::-1]


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
