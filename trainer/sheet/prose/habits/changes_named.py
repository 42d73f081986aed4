"""Changed counts that a list calls by their name: "Wall 5: first 28, then the slow four instead of counts 29-32".

The heading over their steps, "Slow four, wall 5 only", is told with what they stand in place of. Common practice, no
source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like

_CALLED = re.compile(
    r"\b(?:the|our|a|an) (?P<name>[a-z']+(?: [a-z']+){0,2}) (?P<place>(?:instead|in place) of "
    r"(?:(?:the )?(?:counts?|cts|beats) )?\d+ (?:-|to|and|&) \d+)(?= ?[.,;:)]|$)"
)
_HEAD = 8
"""Tokens of such a heading."""
_PLACED = {"instead", "place", "counts", "replaces", "replacing", "for"}


def with_named_changes(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such headings with the counts that their steps replace."""
    called = [(line, match) for line in lines for match in _CALLED.finditer(line.words)]
    done = list(lines)
    for at in range(len(lines) - 1 if called else 0):
        line = lines[at]
        owner = next(((one, match) for one, match in called if one is not line and _is_called(line, match)), None)
        if owner is not None and _heads_counts(line, lines[at + 1]):
            done[at] = _placed(line, *owner)
    return tuple(done)


def _heads_counts(line: Line, below: Line) -> bool:
    """Whether a short line that names no place of its own stands over counts."""
    marks = marks_in(below.tokens, 0)
    placed = {token.low for token in line.tokens} & _PLACED
    return len(line.tokens) <= _HEAD and bool(marks) and not marks[0].first and not placed


def _is_called(line: Line, match: re.Match[str]) -> bool:
    """Whether a line opens with the name, and that is no step."""
    name = match["name"].split()
    opening = [token.low for token in line.tokens if token.low not in ("the", "our")][: len(name)]
    return opening == name and not set(name) <= STEP_WORDS


def _placed(line: Line, owner: Line, match: re.Match[str]) -> Line:
    """Return a heading with the place that another line tells for it."""
    first = owner.words[: match.start("place")].count(" ")
    end = line.tokens[-1]
    place = owner.tokens[first : first + match["place"].count(" ") + 1]
    moved = (replace(one, line=end.line, column=end.column, glued=False) for one in place)
    closing = line.tokens[-1:] if end.text in (":", ".") else ()
    body = line.tokens[:-1] if closing else line.tokens
    return replace(line, tokens=(*body, mark_like(end, ","), *moved, *closing), source="")
