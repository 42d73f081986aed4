"""Hours in brackets within the lines of steps: "5-6 R fwd, piv 1/2 L (6) / 7&8 shuffle", "to the side (12), hold".

So it is where nothing but the four plain hours stands alone in round brackets among steps, most of them behind a turn,
and more than one of them: counts in brackets would have the others too. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_TURNS = {
    "turn", "turning", "turns", "pivot", "pivots", "piv", "pvt", "half", "quarter", "full", "sailor", "monterey",
    "paddle", "unwind", "spiral", "circle", "square", "spin", "roll", "rolling",
}  # fmt: skip
_REACH = 10
"""Tokens before the bracket in which a turn is told."""
_LEAST = 4
_MOSTLY = 0.7
_PARTS = tuple("ABCDEFGH")
_COUNTS = {"count", "counts", "beats", "beat", "for", "tag", "bridge", "intro", "ending"}


def with_bracketed_hours(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such hours as facings."""
    found = [(line.tokens, at) for line in lines for at in _alone(line.tokens)]
    hours = {tokens[at].text for tokens, at in found}
    turned = sum(_turns(tokens, at) for tokens, at in found)
    if len(found) < _LEAST or len(hours) < 2 or not hours <= set(HOURS) or turned < _MOSTLY * len(found):
        return tuple(lines)
    return tuple(
        replace(line, tokens=tuple(_told(line.tokens, set(_alone(line.tokens))))) if any(_alone(line.tokens)) else line
        for line in lines
    )


def _alone(tokens: Sequence[Token]) -> Iterator[int]:
    """Yield where a number stands alone in round brackets, and no length of a tag or of counts."""
    for at in range(2, len(tokens) - 1):
        bracketed = tokens[at - 1].text == "(" and tokens[at + 1].text == ")" and tokens[at].kind == "number"
        # "A(16)" in a play is a part cut short.
        cut = tokens[at - 1].glued and tokens[at - 2].text in _PARTS
        if bracketed and not cut and tokens[at - 2].low not in _COUNTS and at > 2:
            yield at


def _turns(tokens: Sequence[Token], at: int) -> bool:
    before = tokens[max(at - _REACH, 0) : at]
    return any(token.kind == "fraction" or token.low in _TURNS for token in before)


def _told(tokens: Sequence[Token], hours: set[int]) -> Iterator[Token]:
    """Yield the tokens, each such hour with its brackets as one facing."""
    for at, token in enumerate(tokens):
        if at in hours:
            said = f"({token.text})"
            yield replace(tokens[at - 1], kind="facing", text=said, low=said, value=HOURS[token.text])
        elif at + 1 not in hours and at - 1 not in hours:
            yield token
