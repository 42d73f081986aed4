"""Steps marked as quick and slow in rows that are counted too: "1-4 Side (Q), close (Q), forward (S)".

A quick step takes one count, a slow one two: its second is held. So it is where the steps of a row so marked fill the
counts before them. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LASTS = {"q": 1, "quick": 1, "s": 2, "slow": 2}
_LEAST = 2
"""Marked steps of a row."""


def with_slow_and_quick(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the second count of slow steps told as a hold, and no step marked."""
    return tuple(_told(line) for line in lines)


def _told(line: Line) -> Line:
    tokens = line.tokens
    marked = [at for at in range(1, len(tokens) - 1) if _is_marked(tokens, at)]
    marks = marks_in(tokens, 0) if len(marked) >= _LEAST else []
    if not marks or marks[0].first or any(place.sub for place in marks[0].places):
        return line
    opening = marks[0]
    first, last = opening.places[0].number or 0, opening.places[-1].number or 0
    if sum(_LASTS[tokens[at].low] for at in marked) != last - first + 1:
        return line
    done: list[Token] = []
    for at, token in enumerate(tokens):
        if at in marked and _LASTS[token.low] > 1:
            done += [_comma(token), replace(token, kind="word", text="hold", low="hold")]
        elif at - 1 in marked and at + 1 < len(tokens) and tokens[at + 1].kind == "word":
            done.append(_comma(token))
        elif not {at - 1, at, at + 1} & set(marked):
            done.append(token)
    return replace(line, tokens=tuple(done), source="")


def _comma(token: Token) -> Token:
    return replace(token, kind="mark", text=",", low=",")


def _is_marked(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token in brackets tells how long a step lasts."""
    return tokens[at].low in _LASTS and tokens[at - 1].text in "([" and tokens[at + 1].text in ")]"
