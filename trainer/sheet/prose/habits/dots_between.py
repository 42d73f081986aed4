"""Dots that stand free between steps, "R side . L together . R side . L touch", told as commas."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 4
"""Free dots show that they are the sheet's way of parting steps."""


def with_dots_between(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, dots with a blank on both sides between words as commas."""
    found = [set(_free(line.tokens)) for line in lines]
    if sum(map(len, found)) < _LEAST:
        return tuple(lines)
    return tuple(
        replace(
            line,
            tokens=tuple(
                replace(token, text=",", low=",") if at in free else token for at, token in enumerate(line.tokens)
            ),
        )
        for line, free in zip(lines, found, strict=True)
    )


def _free(tokens: Sequence[Token]) -> Iterator[int]:
    """Yield where a dot stands free, words or amounts on both sides."""
    for at in range(1, len(tokens) - 1):
        before, after = tokens[at - 1], tokens[at + 1]
        words = before.kind in ("word", "fraction", "clock") and after.kind in ("word", "fraction")
        if tokens[at].text == "." and not tokens[at].glued and not after.glued and words:
            yield at
