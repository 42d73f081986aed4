"""From which wall to which a section goes, in brackets behind its heading: "FIGURE THREE: Brushes (LEFT to FRONT)".

Where two headings at least do so, the walls are those seen from the front, and are told as hours.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HOURS = {"front": "12:00", "home": "12:00", "right": "3:00", "back": "6:00", "left": "9:00"}
_VALUES = {"12:00": Fraction(0), "3:00": Fraction(1, 4), "6:00": Fraction(1, 2), "9:00": Fraction(3, 4)}
_JOINS = {"to", "-", ">", "/"}
_FEWEST = 2
_LENGTH = 5
"""Tokens of "(LEFT to FRONT)"."""


def with_walls_from_to(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such walls told as hours."""
    heads = [_is_told(line.tokens) for line in lines]
    if sum(heads) < _FEWEST:
        return tuple(lines)
    return tuple(_told(line) if head else line for line, head in zip(lines, heads, strict=True))


def _is_told(tokens: Sequence[Token]) -> bool:
    words = [token.low for token in tokens[-_LENGTH:]]
    if len(tokens) <= _LENGTH:
        return False
    opening, begins, joins, ends, closing = words
    return opening in "([{" and closing in ")]}" and joins in _JOINS and begins in _HOURS and ends in _HOURS


def _told(line: Line) -> Line:
    kept, last = line.tokens[:-_LENGTH], line.tokens[-_LENGTH:]
    return replace(line, tokens=(*kept, last[0], _hour(last[1]), last[2], _hour(last[3]), last[4]))


def _hour(token: Token) -> Token:
    hour = _HOURS[token.low]
    return replace(token, kind="clock", text=hour, low=hour, value=_VALUES[hour])
