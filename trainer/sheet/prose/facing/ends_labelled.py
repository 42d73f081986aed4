"""Lines that only label where each section ends: "Finish: 9:00", "Ends - left wall", told as "Finish facing: 9:00".

One such line may head the ending of the dance; three or more that are written alike stand below the sections.
Common practice, no source.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LABELS = {"finish", "finishes", "finishing", "end", "ends", "ending"}
_SIGNS = {":", "=", "-"}
_LONGEST = 6
"""Tokens of such a line."""
_LEAST = 3


def with_ends_labelled(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those that label where a section ends with the word of facing in them."""
    often = Counter(label for line in lines if (label := _label(line.tokens)))
    return [
        replace(line, tokens=_faced(line.tokens)) if often[_label(line.tokens)] >= _LEAST else line for line in lines
    ]


def _label(tokens: Sequence[Token]) -> str:
    """Return the word and the sign that open a short line; nothing where it is no label."""
    labelled = 2 < len(tokens) <= _LONGEST and tokens[0].low in _LABELS and tokens[1].text in _SIGNS
    return f"{tokens[0].low}{tokens[1].text}" if labelled else ""


def _faced(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    if not _label(tokens):
        return tokens
    word, sign, *rest = tokens
    return word, replace(word, text="facing", low="facing"), replace(sign, text=":", low=":"), *rest
