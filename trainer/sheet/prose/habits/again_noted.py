"""Notes in brackets that a step goes as before, behind the one count that it fills: "4 LF in place (same again)".

The steps are told, and the note adds none; where it stands behind several counts, it may tell a half of them.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_AGAIN = re.compile(
    r"(?:(?:and|just|all|exactly|the|as) )*(?:same(?: (?:again|thing|as (?:before|above|that)|once more))?|again|"
    r"ditto|idem|as (?:before|above)|like before|once more|once again|repeats?|repeated)(?: again)?[!.]?"
)
_OPENS, _CLOSES = ("(", "["), (")", "]")
_LONGEST = 6
"""Tokens of a note."""
_SURE = 1.4
"""The strength of a mark that is a count for sure."""


def without_again_noted(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without such notes."""
    return tuple(_without(line) for line in lines)


def _without(line: Line) -> Line:
    tokens = line.tokens
    for first in range(len(tokens) - 1, 1, -1):
        if tokens[first].text not in _OPENS:
            continue
        last = next((at for at in range(first, min(len(tokens), first + _LONGEST)) if tokens[at].text in _CLOSES), 0)
        said = " ".join(token.low for token in tokens[first + 1 : last])
        if last and _AGAIN.fullmatch(said) and _tells_one_count(line, tokens[:first]):
            return replace(line, tokens=(*tokens[:first], *tokens[last + 1 :]))
    return line


def _tells_one_count(line: Line, before: Sequence[Token]) -> bool:
    """Whether a row opens with a count, and the last count before the note is a single one with a step of its own."""
    marks: Sequence[Mark] = [mark for mark in marks_in(line.tokens, 0) if mark.last <= len(before)]
    if not marks or marks[0].first or marks[0].strength < _SURE:
        return False
    words = {token.low for token in before[marks[-1].last :]}
    return len(marks[-1].places) == 1 and bool(words & STEP_WORDS)
