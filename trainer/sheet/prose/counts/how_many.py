"""Numbers that say how many steps an extra has, and are no counts: "Tag: 4 sways R L R L"."""

from collections import Counter
from collections.abc import Container, Sequence

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_NEAR = 3
"""Tokens within which the plural of what there are several of stands: "4 big hip sways"."""


def without_how_many(marks: Sequence[Mark], texts: Sequence[Line], extras: Container[int]) -> list[Mark]:
    """Return the marks without the only number on a line of an extra that says how many steps there are."""
    on_line = Counter(mark.line for mark in marks)
    return [
        mark for mark in marks if mark.line not in extras or on_line[mark.line] > 1 or not says_how_many(mark, texts)
    ]


def says_how_many(mark: Mark, texts: Sequence[Line]) -> bool:
    """Whether a number stands before the steps of which there are so many, or says how long the last of them lasts."""
    if _lasts(mark, texts[mark.line].tokens):
        return True
    several = len(mark.places) == 1 and not mark.places[0].sub and (mark.start.number or 0) > 1
    after = texts[mark.line].tokens[mark.last : mark.last + _NEAR]
    plain = several and mark.last == mark.first + 1 and not (mark.closed or mark.ends)
    return plain and bool(after) and after[0].kind == "word" and any(token.low.endswith("s") for token in after)


_HELD = {"hold", "holds", "holding", "held", "wait", "pause", "freeze", "pose", "stay", "stand", "still", "it", "there"}


def _lasts(mark: Mark, tokens: Sequence[Token]) -> bool:
    """Whether a number says how long one stands: "step left forward and hold for two"."""
    at = mark.first if tokens[mark.first].low == "for" else mark.first - 1
    lasts = at > 0 and tokens[at].low == "for" and tokens[at - 1].low in _HELD
    return lasts and len(mark.places) == 1 and not mark.places[0].sub
