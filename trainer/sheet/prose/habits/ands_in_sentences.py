"""An & or a plus that a teacher writes for "and" in sentences: "walk on 1 2 3 & kick on 4", "back in on two & hold".

Where counts are told by "on" behind their steps, what an & leads to is the next step; the half beat would be "on &".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LED = {"on", "through"}
_JOINS = {",", "and", "&", "to", "-"}
_PLACES = {"of", "in", "at", "before", "after"}
_LONGEST = 8
"""Tokens of counts behind one "on"."""
_WORD = 2
"""Letters that a word has at least; "a" and "e" are counts."""


def with_ands_in_sentences(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each & behind counts that "on" leads, and before a word, as the word "and"."""
    return tuple(
        replace(line, tokens=tuple(_told(line.tokens, at) for at in range(len(line.tokens))))
        if any(map(_is_sign, line.tokens))
        else line
        for line in lines
    )


def _told(tokens: Sequence[Token], at: int) -> Token:
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if not _is_sign(token) or token.glued or after is None or after.glued or after.kind != "word":
        return token
    if len(after.low) < _WORD or after.low in _PLACES or count_told(after) is not None or not _counted(tokens, at):
        return token
    return replace(token, kind="word", text="and", low="and")


def _is_sign(token: Token) -> bool:
    return token.kind == "amp" or token.text == "+"


def _counted(tokens: Sequence[Token], at: int) -> bool:
    """Whether counts that are led by "on" stand right before a token."""
    first = at
    while first and at - first < _LONGEST and (count_told(tokens[first - 1]) or tokens[first - 1].low in _JOINS):
        first -= 1
    return 0 < first < at and tokens[first - 1].low in _LED
