"""Sentences in a numbered list, told without its numbers: "1. Walls 1 and 4 as above. 2. In wall 2".

The numbers rise by one from 1, from point to point, and count nothing: what stands behind them names its walls itself,
or they are whole sentences, one below the other, that speak of the dance, and no steps. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_STOPS = {".", "!", "?", ")"}
_MARKS = {".", ")", ":", "-", BREAK}
_NEAR = 3
"""Lines from one point to the next, at most, where nothing but the points is between."""
_SPEAKS = re.compile(
    r"\b(?:walls?|restarts?|tags?|bridge|ending|finale?|music|tune|song|track|bpm|levels?|improvers?|beginners?|"
    r"choreograph\w+|danced?|intro\w*|wait|beats|counts|begins?|starts?|first time|last time|chorus|verse|part [a-d])\b"
)
"""What sentences about a dance speak of, and steps do not."""
_OF_A_WALL = {
    "starts", "begins", "start", "begin", "from", "facing", "faces", "all", "full", "dance", "whole", "sections", "as",
    "complete", "only", "restart", "tag", "ends", "at", "to", "up", "until",
}  # fmt: skip
"""What opens the row of a wall that is called by its number alone: "3. Starts at 12:00"."""
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
        for at, first in _sentences(lines, points):
            done[at] = replace(lines[at], tokens=lines[at].tokens[first:], indent=lines[at].tokens[first].column - 1)
        about = [at for at, first in points if _NAMES_WALLS.search(_words(lines[at].tokens[first:]))]
        if len(points) < _FEWEST or points[0][0] not in about or 2 * len(about) <= len(points):
            continue
        for at, first in points:
            done[at] = replace(lines[at], tokens=lines[at].tokens[first:], indent=lines[at].tokens[first].column - 1)
    return tuple(done)


def _sentences(lines: Sequence[Line], points: Sequence[tuple[int, int]]) -> Sequence[tuple[int, int]]:
    """Return the points of a list, one below the other, that are sentences about the dance; none where they are not."""
    apart = (at for at in range(1, len(points)) if not _follows(lines, points[at - 1][0], points[at][0]))
    near = points[: next(apart, len(points))]
    told = [lines[at].tokens[first:] for at, first in near]
    speaking = sum(_SPEAKS.search(_words(tokens)) is not None for tokens in told)
    steps = sum(tokens[0].low in STEP_WORDS for tokens in told)
    whole = sum(tokens[-1].text in _STOPS for tokens in told)
    named = any(_NAMES_WALLS.search(_words(tokens)) for tokens in told)
    if not named and 2 * sum(tokens[0].low in _OF_A_WALL for tokens in told) > len(near):
        return ()
    if len(near) < _FEWEST or 2 * speaking < len(near) or 2 * steps >= len(near) or 2 * whole < len(near):
        return ()
    return near


def _follows(lines: Sequence[Line], point: int, other: int) -> bool:
    """Whether nothing but what goes on with a point stands between it and another."""
    between = lines[point + 1 : other]
    counted = any(line.tokens[0].kind == "number" or line.tokens[0].text in ("(", "[", "&") for line in between)
    return lines[other].number - lines[point].number <= _NEAR and not counted


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
