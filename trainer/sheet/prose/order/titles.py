"""Sections by the words of their headings, so that "after Lanterns" and "do SKATE and HALF" are places."""

import re
from collections import Counter

from trainer.sheet.prose.order.telling import Known
from trainer.sheet.prose.order.vocabulary import FILLERS, NUMBERS, ORDINALS, PHRASES

_PLAIN = frozenset({
    "and", "section", "sections", "sec", "part", "parts", "set", "block", "eight", "eights", "verse", "chorus",
    "counts", "count", "bar", "bars", "first", "second", "then", "x", "of", "the", "to", "with", "w", "on", "in", "no", "half",
})  # fmt: skip
"""Words that a heading has though it is not called by them."""


def titles_of(known: Known) -> dict[tuple[str, ...], str]:
    """Return the words that stand for one section only, whole headings and single words of them, to its name."""
    if known.parts:
        return {}
    found: dict[tuple[str, ...], set[int]] = {}
    for place, (_, _, heading) in enumerate(known.sections, 1):
        words = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)*", heading.lower())
        if len(words) > 1:
            found.setdefault(tuple(words), set()).add(place)
        for word, many in Counter(words).items():
            told = word in _PLAIN or word in FILLERS or word in NUMBERS or word in ORDINALS or (word,) in PHRASES
            if many == 1 and len(word) > 2 and not told:
                found.setdefault((word,), set()).add(place)
    return {words: known.sections[min(places) - 1][0] for words, places in found.items() if len(places) == 1}
