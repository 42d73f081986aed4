"""Feet that cross or touch the other one, told without a word between: "R crosses L", "L touches R".

The second foot only says where the first goes to; with "over" or "beside" before it, it is no step of its own.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_MEETS = {"crosses": "over", "touches": "beside", "taps": "beside"}
_RIGHT, _LEFT = {"r", "rf", "right"}, {"l", "lf", "left"}
_WAYS = {
    "side", "back", "forward", "fwd", "behind", "out", "in", "heel", "toe", "diagonal", "diagonally", "forwards",
}  # fmt: skip
"""After these the second foot goes its own way: "R crosses L side"."""


def with_feet_met(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with a word of place before a foot that another crosses or touches."""
    return tuple(
        replace(line, tokens=tuple(_told(line.tokens))) if any(token.low in _MEETS for token in line.tokens) else line
        for line in lines
    )


def _told(tokens: Sequence[Token]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        token, ahead = tokens[at], [one.low for one in tokens[at + 2 : at + 4]]
        if not (token.low in _MEETS and 0 < at < len(tokens) - 1 and _meets(tokens, at)):
            yield token
            at += 1
            continue
        # "R crosses L and rocks" is one step.
        rocks = ahead[:1] in (["and"], ["&"]) and ahead[1:] == ["rocks"]
        yield tokens[at + 3] if rocks else token
        word = _MEETS[token.low]
        yield replace(token, text=word, low=word, glued=False)
        yield tokens[at + 1]
        at += 4 if rocks else 2


def _meets(tokens: Sequence[Token], at: int) -> bool:
    """Whether one foot stands before a verb and the other one, by itself, after it."""
    before, other = tokens[at - 1].low, tokens[at + 1].low
    beyond = tokens[at + 2].low if at + 2 < len(tokens) else ""
    feet = (before in _RIGHT and other in _LEFT) or (before in _LEFT and other in _RIGHT)
    return feet and beyond not in _WAYS
