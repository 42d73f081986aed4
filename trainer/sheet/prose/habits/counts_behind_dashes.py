"""Rows whose counts stand behind a dash at their end, "Walk forward right, left - 1-2", told with them in brackets.

Alone, such a row may as well begin with the counts of the row above it; several of them, and none that begins with
counts, tell which. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BEHIND = re.compile(r"(?<= )[-=] (?P<counts>(?:\d{1,2}|&|a|e|-|–|,|and)(?: (?:\d{1,2}|&|a|e|-|–|,|and))*)$")
_LEAST = 4
"""Fewer rows show nothing."""


def with_dashed_counts_bracketed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts behind dashes in brackets where the sheet has them there."""
    dashes = [_dash_of(line.tokens) for line in lines]
    behind = sum(dash > 0 for dash in dashes)
    before = sum(
        not dash and bool(line.tokens) and line.tokens[0].kind in ("number", "amp")
        for dash, line in zip(dashes, lines, strict=True)
    )
    if behind < _LEAST or behind <= before:
        return tuple(lines)
    return tuple(_bracketed(line, dash) if dash else line for dash, line in zip(dashes, lines, strict=True))


def _dash_of(tokens: Sequence[Token]) -> int:
    """Return the index of the dash before counts that end a line of words, 0 where there is none."""
    if not tokens or tokens[0].kind != "word" or tokens[-1].kind not in ("number", "amp", "word"):
        return 0
    match = _BEHIND.search(" ".join(token.low for token in tokens))
    if match is None or not any(char.isdigit() for char in match["counts"]):
        return 0
    at = len(tokens) - match[0].count(" ") - 1
    parted = not tokens[at].glued or tokens[at + 1].kind == "amp"
    counts = tokens[at - 1].kind not in ("number", "amp") and tokens[at + 1].kind in ("number", "amp")
    return at if parted and counts else 0


def _bracketed(line: Line, dash: int) -> Line:
    opens, last = line.tokens[dash], line.tokens[-1]
    open_ = replace(opens, kind="mark", text="(", low="(")
    close = replace(open_, text=")", low=")", column=last.column + len(last.text), glued=True)
    first = replace(line.tokens[dash + 1], glued=True)
    return replace(line, tokens=(*line.tokens[:dash], open_, first, *line.tokens[dash + 2 :], close))
