"""Sentences about the walls in a numbered list, told without its numbers: "1. Walls 1 and 4 as above. 2. In wall 2".

The numbers rise by one from 1, from point to point, and count nothing: what stands behind them names its walls itself.
Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_MARKS = {".", ")", ":", "-", BREAK}
_FEWEST = 2
"""Points of a list."""
_WALL = r"(?:walls?|times?|rounds?|turns?|goes?|repetitions?)"
_NTH = r"(?:\d+ ?(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|last|final)"
_NAMES_WALLS = re.compile(
    rf"\b(?:{_WALL} (?:numbers? |no ?\. )?(?:\d+|one|two|three|four|five|six|seven|eight|nine)\b|"
    rf"{_NTH}(?: (?:and|,|or|full|whole|short))*(?: {_NTH})? {_WALL}\b|"
    rf"(?:all|every|each|the|both) (?:other )?{_WALL}\b)"
)
"""What names the walls that a point is about."""


def without_order_numbers(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, points of such a list without their numbers."""
    done = list(lines)
    for points in _lists(lines):
        about = [at for at, first in points if _NAMES_WALLS.search(_words(lines[at].tokens[first:]))]
        if len(points) < _FEWEST or points[0][0] not in about or 2 * len(about) <= len(points):
            continue
        for at, first in points:
            done[at] = replace(lines[at], tokens=lines[at].tokens[first:], indent=lines[at].tokens[first].column - 1)
    return tuple(done)


def _lists(lines: Sequence[Line]) -> Iterator[list[tuple[int, int]]]:
    """Yield lists of points: the line of each, and the token behind its number."""
    points: list[tuple[int, int]] = []
    for at, line in enumerate(lines):
        number, first = _numbered(line.tokens)
        if number == len(points) + 1:
            points.append((at, first))
        elif number == 1:
            yield points
            points = [(at, first)]
    yield points


def _numbered(tokens: Sequence[Token]) -> tuple[int, int]:
    """Return the number of a point and the token behind its mark; 0 and 0 where the line opens with none."""
    if len(tokens) < _FEWEST + 1 or not tokens[0].text.isdecimal() or tokens[1].text not in _MARKS - {BREAK}:
        return 0, 0
    first = next((at for at, token in enumerate(tokens[1:], 1) if token.text not in _MARKS), 0)
    return (int(tokens[0].text), first) if first and tokens[first].kind == "word" else (0, 0)


def _words(tokens: Sequence[Token]) -> str:
    return " ".join(token.low for token in tokens)
