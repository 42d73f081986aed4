"""A hold between walls that is told like a tag: "HOLD 4 ct, end of W5: 1-4 hold, no moves, wt stays LF".

What counts it, behind its heading or below, tells the same four counts as the heading does: the heading is read as that
of a tag, so that they are danced once. That nobody moves needs no saying beside a hold.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HOLDS = words_in("hold pause freeze standstill")
_COUNTS = words_in("count counts ct cts c beat beats")
_PLACES = words_in("wall walls w after end round")
_HEAD = 18
"""Tokens of a heading at most."""
_NAME = 5
"""Tokens in which its length may stand."""
_STILL = re.compile(
    r"(?:with |and )?(?:no (?:moves?|movements?|moving|steps?|footwork|motion)(?: at all)?|"
    r"without (?:moving|any steps?)|nothing moves|(?:nobody|no one) moves|"
    r"(?:do not|don't|dont) move|(?:feet|everything) (?:stays? )?(?:still|quiet))"
)
_HELD = words_in("hold holds pause freeze stand still wait")
_ENDS = (",", ";", ".", ")", "-")
_LEADS = (",", ";", "(", "-")
_LONGEST = 6
"""Tokens of what says that nobody moves."""


def with_holds_headed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such headings as those of tags, and what is counted there without what a hold says anyhow."""
    done = list(lines)
    for at, line in enumerate(lines):
        length = _length(line)
        if not length:
            continue
        below = lines[at + 1] if at + 1 < len(lines) and lines[at + 1].number == line.number + 1 else None
        if _counts_a_hold(line, length, first=1):
            done[at] = _as_a_tag(_without_stillness(line))
        elif below is not None and _counts_a_hold(below, length, first=0):
            done[at], done[at + 1] = _as_a_tag(line), _without_stillness(below)
    return tuple(done)


def _length(line: Line) -> int:
    """Return how many counts a heading holds for at some place among the walls; 0 where it is none."""
    tokens = line.tokens
    if tokens[0].low not in _HOLDS or not {token.low for token in tokens[1:_HEAD]} & _PLACES:
        return 0
    told = [
        int(token.text)
        for token, after in pairwise(tokens[1 : _NAME + 1])
        if token.kind == "number" and after.low in _COUNTS
    ]
    return told[0] if told else 0


def _counts_a_hold(line: Line, length: int, *, first: int) -> bool:
    """Whether a line counts from 1 to a length, from a token on, and has nothing but a hold for these counts."""
    marks = [mark for mark in marks_in(line.tokens, 0) if mark.first >= first and mark.start.number == 1]
    mark = next((one for one in marks if one.end.number == length and len(one.places) > 1), None)
    led = mark is not None and (mark.first == 0 or line.tokens[mark.first - 1].text in (":", "-", ".", "|", ")"))
    return led and mark is not None and _holds(line.tokens, mark)


def _holds(tokens: Sequence[Token], mark: Mark) -> bool:
    words = [token.low for token in tokens[mark.last :] if token.kind == "word"]
    return bool(words) and words[0] in _HELD


def _as_a_tag(line: Line) -> Line:
    """Return a heading with the name of a tag; its text stays as it was typed."""
    return replace(line, tokens=(replace(line.tokens[0], low="tag"), *line.tokens[1:]))


def _without_stillness(line: Line) -> Line:
    tokens = line.tokens
    for first in range(2, len(tokens)):
        if tokens[first - 1].text not in _LEADS:
            continue
        for last in range(min(len(tokens), first + _LONGEST), first, -1):
            ends = last == len(tokens) or tokens[last].text in _ENDS
            if ends and _STILL.fullmatch(" ".join(token.low for token in tokens[first:last])):
                last += last < len(tokens) and tokens[last].text == ")" and tokens[first - 1].text == "("
                return replace(line, tokens=(*tokens[: first - 1], *tokens[last:]))
    return line
