"""Hours without "o'clock" at which walls begin, in words: "The fourth begins at six and is short", told by the clock.

A number in words behind steps seems to count one more of them. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.listings.starting import as_hour
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HOURS = {"twelve": "12", "three": "3", "six": "6", "nine": "9"}
_BEGINS = {"begins", "starts", "begin", "start", "begun", "started", "beginning", "starting", "began"}
_COUNTED = {"counts", "count", "beats", "beat", "o'clock", "oclock", "o", "or", "-", "more", "bars", ":"}


def with_hours_begun(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such hours as clock times."""
    return tuple(replace(line, tokens=told) if (told := _told(line.tokens)) != line.tokens else line for line in lines)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    return tuple(_as_hour(token) if _is_hour(tokens, at) else token for at, token in enumerate(tokens))


def _is_hour(tokens: Sequence[Token], at: int) -> bool:
    """Whether a wall begins "at six": nothing that is counted stands behind it."""
    led = at > 1 and tokens[at - 1].low == "at" and tokens[at - 2].low in _BEGINS
    if tokens[at].low not in _HOURS or not led:
        return False
    after = [token.low for token in tokens[at + 1 : at + 3]]
    return not set(after[:1]) & _COUNTED and not (after[:1] == ["and"] and set(after[1:]) & set(_HOURS))


def _as_hour(token: Token) -> Token:
    return as_hour(replace(token, text=_HOURS[token.low], low=_HOURS[token.low], kind="number"))
