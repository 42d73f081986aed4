"""The foot that begins a row, told in brackets behind it: "Walk 1, walk 2, walk 3, kick 4 (start R)".

With the counts in the row it would be told of the last step alone; so it stands before the first.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEET = {"r", "l", "rf", "lf", "right", "left"}
_STARTS = {"start", "starts", "starting", "begin", "begins", "beginning", "lead", "leads", "leading", "first"}
_AMONG = _STARTS | {"with", "on", "the", "your", "foot"}
_LEAST = 2
"""Counts of a row, the last of them behind its words."""


def with_feet_before_rows(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, a foot that begins its row before its words."""
    return tuple(replace(line, tokens=_led(line.tokens)) for line in lines)


def _led(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    opening = max((at for at, token in enumerate(tokens) if token.text == "("), default=0)
    inside = tokens[opening + 1 : -1]
    feet = [token for token in inside if token.low in _FEET]
    said = {token.low for token in inside}
    if not opening or tokens[-1].text != ")" or len(feet) != 1 or not said & _STARTS or said - _AMONG - _FEET:
        return tokens
    marks = marks_in(tokens[:opening], 0)
    first = next((at for at, token in enumerate(tokens) if token.kind == "word"), 0)
    row = tokens[first:opening]
    if len(marks) < _LEAST or marks[-1].last < opening or any(token.low in _FEET for token in row):
        return tokens
    return (*tokens[:first], replace(feet[0], line=tokens[first].line, glued=False), *tokens[first:opening])
