"""Rows of an extra that repeat its name before their counts: "Tag 1-2: sway right, left", "Tag 3-4: touch, hold".

The name goes where such rows count on; the heading above them says it. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line

_EXTRAS = {"tag", "bridge", "ending", "finish", "intro", "introduction", "finale", "outro", "break"}
_COUNTS = {"count", "counts", "beat", "beats"}
_FEWEST = 2
"""Rows that are labelled so."""


def with_extra_labels(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names taken from the rows that a heading stands over."""
    done = list(lines)
    at = 0
    while at < len(lines):
        rows = _rows(lines, at)
        if rows >= _FEWEST and at and _is_headed(lines[at - 1], lines[at]):
            for on in range(at, at + rows):
                done[on] = replace(lines[on], tokens=lines[on].tokens[1:], source="")
        at += max(rows, 1)
    return tuple(done)


def _is_headed(above: Line, row: Line) -> bool:
    words = [token.low for token in above.tokens if token.kind == "word"]
    return row.tokens[0].low in words[:2]


def _rows(lines: Sequence[Line], at: int) -> int:
    """Return how many lines from one on are such rows."""
    rows, follows = 0, 0
    while at + rows < len(lines):
        line = lines[at + rows]
        counts = _counts(line)
        goes_on = not rows or (counts[:1] == [follows] and line.tokens[0].low == lines[at].tokens[0].low)
        if not counts or not goes_on:
            break
        follows, rows = counts[-1] + 1, rows + 1
    return rows


def _counts(line: Line) -> list[int]:
    """Return the whole counts before the colon of a row that begins with the name of an extra; none: it is no such."""
    tokens = line.tokens
    colon = next((at for at, token in enumerate(tokens[:10]) if token.text == ":"), 0)
    between = tokens[1:colon]
    worded = any(token.kind == "word" and len(token.low) > 1 and token.low not in _COUNTS for token in between)
    if not colon or tokens[0].low not in _EXTRAS or worded:
        return []
    return [int(token.text) for token in between if token.text.isdecimal()]
