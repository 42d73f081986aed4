"""A foot parted by a sign from what it does, row after row: "1 R -> fwd", "4 L = kick", "(5) Right | back"."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 4
"""Rows that show it."""
_CELLS = 3
"""Counts, foot and step."""
_FEET = {"r", "l", "rf", "lf", "right", "left"}
_SIGNS = {">", "-", "=", BREAK, "/", ",", ".", "~", "*", "+"}
_LONGEST = 3
"""Tokens of a sign: "...", "->"."""


def with_feet_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such signs left out."""
    found = {at: span for at, line in enumerate(lines) if (span := _sign(line.tokens))}
    signs = {at: _said(lines[at].tokens[first:last]) for at, (first, last) in found.items()}
    usual, often = next(iter(Counter(signs.values()).most_common(1)), ("", 0))
    columns = usual == BREAK and any(len(line.cells) > _CELLS or _heads_feet(line) for line in lines)
    if often < _LEAST or usual == "-" or columns:
        # A table with more columns, or with one headed "foot", tells them itself.
        return tuple(lines)
    return tuple(
        replace(line, tokens=(*line.tokens[: found[at][0]], *line.tokens[found[at][1] :]))
        if signs.get(at) == usual
        else line
        for at, line in enumerate(lines)
    )


def _heads_feet(line: Line) -> bool:
    """Whether a cell of a line heads the column of the feet."""
    return any([token.low for token in cell] in (["foot"], ["feet"]) for cell in line.cells)


def _said(tokens: Sequence[Token]) -> str:
    return "".join(token.text for token in tokens)


def _sign(tokens: Sequence[Token]) -> tuple[int, int] | None:
    """Return where the sign stands between the foot of one count and what it does; None where none does."""
    mark = next(iter(marks_in(tuple(tokens), 0)), None)
    if mark is None or mark.first or len(mark.places) > 1:
        return None
    at = mark.last
    while at < len(tokens) and tokens[at].text in (BREAK, "-", ":"):
        at += 1
    if at >= len(tokens) or tokens[at].low not in _FEET:
        return None
    at += 1 + (at + 1 < len(tokens) and tokens[at + 1].low == "foot")
    end = at
    while end < min(len(tokens), at + _LONGEST) and tokens[end].text in _SIGNS:
        end += 1
    after = tokens[end] if end < len(tokens) else None
    # "R, L" are two feet, and "R, step L" tells the second.
    plain = after is not None and after.kind == "word" and after.low not in _FEET
    return (at, end) if end > at and plain and not any(one.low in _FEET for one in tokens[end:]) else None
