"""Rows of a play by their time in the song, "0:17  Verse", told without the times.

The times rise from row to row, and are none that a clock face would tell. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_TIME = re.compile(r"(\d{1,2}):(\d\d)")
_FEWEST = 4
_FACES = (0, 30)
"""Minutes that a clock face has for a facing: 12:00, 1:30."""
_BEHIND = {"-", ":", BREAK, ")", "]", "=", ">", "."}
_BEFORE = {"at", "(", "[", "from"}


def with_plays_untimed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rows without their times."""
    rows = {at: timed for at, line in enumerate(lines) if at and (timed := _timed(line.tokens)) is not None}
    times = [seconds for seconds, _ in rows.values()]
    rising = all(before < after for before, after in pairwise(times))
    faces = sum(seconds % 60 in _FACES for seconds in times)
    if len(rows) < _FEWEST or not rising or 2 * faces > len(times):
        return tuple(lines)
    return tuple(
        replace(line, tokens=line.tokens[rows[at][1] :], source="") if at in rows else line
        for at, line in enumerate(lines)
    )


def _timed(tokens: Sequence[Token]) -> tuple[int, int] | None:
    """Return the seconds of the time that opens a row, and the token behind it; None where none does."""
    at = 0
    while at < len(tokens) and tokens[at].low in _BEFORE:
        at += 1
    text, end = tokens[at].text if at < len(tokens) else "", at + 1
    if text.isdecimal() and [token.text for token in tokens[end : end + 1]] == [":"] and end + 1 < len(tokens):
        text, end = f"{text}:{tokens[end + 1].text}", end + 2
    match = _TIME.fullmatch(text)
    while end < len(tokens) and tokens[end].text in _BEHIND:
        end += 1
    return (60 * int(match[1]) + int(match[2]), end) if match and end < len(tokens) else None
