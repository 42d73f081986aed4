"""Lines of nothing but counts, with a word for them: "counts: 1 2 3&4 5 6 7&8" below the steps; told without it."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line

_WORDS = {"count", "counts", "cts", "ct", "counting", "counted", "rhythm", "timing", "beats", "time"}
_PARTING = {":", "-", "=", BREAK}
_OF_COUNTS = {"&", "and", "a", "e", "n", "+", ",", "-", "/", ".", "'"}
_LEAST = 3
"""Counts of such a line; fewer may say how many there are."""


def with_counts_named_no_more(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those of counts without the word that says so."""
    return tuple(replace(line, tokens=line.tokens[_named(line) :]) if _named(line) else line for line in lines)


def _named(line: Line) -> int:
    """Return how many tokens lead to the counts of a line that tells nothing else; 0 where it does."""
    tokens = line.tokens
    if tokens[0].low not in _WORDS or len(tokens) < 1 + _LEAST:
        return 0
    first = 1 + (tokens[1].text in _PARTING)
    rest = tokens[first:]
    numbers = [int(token.text) for token in rest if token.kind == "number" and len(token.text) <= 2]
    only = all(token.kind in ("number", "amp") or token.low in _OF_COUNTS for token in rest)
    rises = all(after == before + 1 for before, after in pairwise(numbers))
    return first if only and len(numbers) >= _LEAST and rises else 0
