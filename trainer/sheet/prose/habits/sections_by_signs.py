"""Sections that a sheet numbers with a sign alone, "#1 Rock, half, pivot" and "wall 3: #1 to #4", told as sections.

It is so where headings begin with the sign, their numbers rise from 1, and the sheet speaks of them elsewhere; else the
sign may number its rows.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_SIGN = "#"
_LEAST = 2
"""A single heading shows nothing."""
_NAMED = {"section", "sections", "sec", "secs", "wall", "walls", "part", "number", "tag", "bridge", "restart"}
"""Behind these the sign stands for a number."""


def with_signed_sections(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such signs told as "section"; a sheet that has no such headings as it is."""
    headed = [int(line.tokens[1].text) for line in lines if _is_signed(line.tokens, 0)]
    spoken = any(_is_signed(line.tokens, at) for line in lines for at in range(1, len(line.tokens)))
    if len(headed) < _LEAST or headed != list(range(1, len(headed) + 1)) or not spoken:
        return tuple(lines)
    return tuple(replace(line, tokens=_told(line.tokens, len(headed))) for line in lines)


def _is_signed(tokens: Sequence[Token], at: int) -> bool:
    return at + 1 < len(tokens) and tokens[at].text == _SIGN and tokens[at + 1].text.isdecimal()


def _told(tokens: tuple[Token, ...], most: int) -> tuple[Token, ...]:
    done = list(tokens)
    for at, token in enumerate(tokens):
        named = at > 0 and tokens[at - 1].low in _NAMED
        if _is_signed(tokens, at) and int(tokens[at + 1].text) <= most and not named:
            done[at] = replace(token, kind="word", text="section" if at else "Section", low="section")
            done[at + 1] = replace(tokens[at + 1], glued=False)
    return tuple(done)
