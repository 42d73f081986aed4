"""Rows that are named in turn and count themselves all the same: "Bar 3. 1, 2: step right forward ...".

Where every row of the dance that is so named opens with counts of its own, its name counts nothing and falls away.
Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_NAMES = {"bar", "measure", "line", "row", "step", "phrase", "move", "item"}
_CLOSES = {".", ":", ")", "-", BREAK}
_LEAST = 4
"""Rows that show the habit."""
_FIGURES = 2
_AFTER_A_COUNT = {",", "-", ":", ")", "/", ";", "=", BREAK}


def with_counted_rows_unnamed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rows without their names."""
    heads = {at: head for at, line in enumerate(lines) if (head := _head(line.tokens))}
    numbers = [number for number, _, _ in heads.values()]
    counted = all(counts for _, _, counts in heads.values())
    if len(heads) < _LEAST or numbers != list(range(1, len(numbers) + 1)) or not counted:
        return tuple(lines)
    return tuple(
        replace(line, tokens=line.tokens[heads[at][1] :], source="") if at in heads else line
        for at, line in enumerate(lines)
    )


def _head(tokens: Sequence[Token]) -> tuple[int, int, bool] | None:
    """Return the number in a row's name, the index after the name, and whether a count stands there."""
    named = len(tokens) > _LEAST and tokens[0].low in _NAMES and tokens[1].kind == "number"
    if not named or len(tokens[1].text) > _FIGURES or tokens[2].text not in _CLOSES:
        return None
    at = 2
    while at < len(tokens) - 1 and tokens[at].text in _CLOSES:
        at += 1
    at += tokens[at].text in ("(", "[") and at < len(tokens) - 2
    counted = tokens[at].kind == "number" and len(tokens[at].text) <= _FIGURES
    counts = counted and (tokens[at + 1].kind == "amp" or tokens[at + 1].text in _AFTER_A_COUNT)
    return int(tokens[1].text), at - (tokens[at - 1].text in ("(", "[")), counts
