"""Words that several counts share, and words that only announce what comes, before words are parted to counts.

"Two kick ball changes, the first on 1&2, the second on 3&4" is one text with the counts of both. "Then come round to
the back: quarter turn left ... on seven, ... on eight" names where the steps after the colon lead; it checks nothing
at the count that it stands before.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

Words = tuple[Token, ...]

_FIRSTS = {"first", "one", "once"}
_OTHERS = {"second", "other", "next", "third", "fourth", "last", "one", "once", "another"}
_AROUND = {
    ",", ";", ".", ":", "(", ")", "-", "and", "then", "the", "on", "for", "at", "with", "of", "them", "is", "comes",
    "come", "takes", "each", "count", "counts",
}  # fmt: skip
_FEWEST = 3
"""Words told before "the first" that the counts share."""
_JOURNEYS = {"come", "coming", "comes", "go", "going", "get", "getting", "work", "make", "circle", "travel", "head",
             "turn", "bring", "take"}  # fmt: skip
_TO = {"to", "towards"}
_LONGEST = 12


def shared(words: Sequence[Words], marks: Sequence[Mark]) -> tuple[tuple[Words, ...], tuple[Mark, ...]]:
    """Return the words about marks and the marks, those joined whose words tell that they share a text."""
    texts = [_announcing(part) for part in words]
    kept = list(marks)
    at = 0
    while at + 1 < len(kept):
        cut = _first_of(texts[at])
        if not cut or not _is_other(texts[at + 1]):
            at += 1
            continue
        texts[at] = texts[at][:cut]
        while at + 1 < len(kept) and _is_other(texts[at + 1]):
            kept[at] = _joined(kept[at], kept.pop(at + 1))
            texts.pop(at + 1)
        at += 1
    return tuple(texts), tuple(kept)


def _first_of(words: Words) -> int:
    """Return where "the first" begins that ends some words; 0 where it does not, or nothing stands before it."""
    end = len(words)
    while end and words[end - 1].low in _AROUND:
        end -= 1
    if not end or words[end - 1].low not in _FIRSTS:
        return 0
    end -= 1
    while end and words[end - 1].low in _AROUND - {")"}:
        end -= 1
    return end if sum(token.kind == "word" for token in words[:end]) >= _FEWEST else 0


def _is_other(words: Words) -> bool:
    """Whether some words are no more than "the second", "one", "and the other"."""
    said = [token.low for token in words if token.low not in _AROUND and token.text != BREAK]
    return len(said) == 1 and said[0] in _OTHERS


def _joined(first: Mark, second: Mark) -> Mark:
    """Return one mark with the counts of two."""
    other = (*(first.other or first.places), *(second.other or second.places)) if first.other or second.other else ()
    return replace(first, places=(*first.places, *second.places), other=other)


def _announcing(words: Words) -> Words:
    """Return words whose facings are no checks in a clause that only tells the way, before its colon."""
    done = list(words)
    for colon in (at for at, token in enumerate(words) if token.text == ":"):
        start = max((at + 1 for at in range(colon) if words[at].text in (".", "!", "?")), default=0)
        clause = words[start:colon]
        facing = next((at for at, token in enumerate(clause) if token.kind == "facing"), None)
        opens = clause[:1] and clause[0].text[0].isupper()
        if not opens or facing is None or len(clause) > _LONGEST:
            continue
        lead = [token.low for token in clause[:facing]]
        if _TO & set(lead) and _JOURNEYS & set(lead) and not any(token.kind == "fraction" for token in clause):
            done[start + facing] = replace(clause[facing], kind="word", value=None)
    return tuple(done)
