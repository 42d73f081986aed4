"""An x typed for a cross before the foot that makes it, "5&6 x R over L, L side, x R over L", told as the word.

Behind a number it else says how often. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEET = {"r", "l", "right", "left", "rf", "lf", "rt", "lt"}
_OVER = {"over", "across", "behind", "in"}
_FOOT = {"foot", "ft"}


def with_crosses_written(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each such x as "cross"."""
    return tuple(replace(line, tokens=told) if (told := _told(line.tokens)) != line.tokens else line for line in lines)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    return tuple(
        replace(token, kind="word", text="cross", low="cross", value=None) if _crosses(tokens, at) else token
        for at, token in enumerate(tokens)
    )


def _crosses(tokens: Sequence[Token], at: int) -> bool:
    """Whether an x stands apart before a foot and where that foot goes."""
    if tokens[at].low != "x" or tokens[at].glued:
        return False
    after = [token.low for token in tokens[at + 1 : at + 4] if token.low not in _FOOT]
    return len(after) > 1 and after[0] in _FEET and after[1] in _OVER
