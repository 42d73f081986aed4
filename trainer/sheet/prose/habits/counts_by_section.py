"""Rows that open with their section and its counts in one, "2.3&4 shuffle", "S2:3&4", "B.5-6": "Section 2: 3&4"."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_LEAST = 6
"""Rows that show it."""
_POINTS = (".", ":")
_LETTERS = "abcdefghijklmnop"


def with_counts_by_section(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the section told before the first of its rows and left out before the others."""
    rows = {at: row for at, line in enumerate(lines) if (row := _row(line.tokens))}
    names = [name for name, _ in rows.values()]
    order = list(dict.fromkeys(names))
    changes = 1 + sum(before != after for before, after in pairwise(names))
    if len(rows) < _LEAST or not 1 < len(order) == changes <= len(rows) // 2 or not _go_on(order):
        return tuple(lines)
    firsts = {next(at for at, row in rows.items() if row[0] == name): number for number, name in enumerate(order, 1)}
    if any(_first_count(lines[at].tokens[rows[at][1] :]) not in (0, 1) for at in firsts):
        return tuple(lines)
    return tuple(
        replace(line, tokens=_told(line.tokens, rows[at][1], firsts.get(at, 0))) if at in rows else line
        for at, line in enumerate(lines)
    )


def _row(tokens: Sequence[Token]) -> tuple[str, int] | None:
    """Return the name of the section that opens a row, and at which token its counts begin; None where none does.

    A table tells its columns itself.
    """
    named = bool(tokens) and tokens[0].low == "s" and len(tokens) > 1 and tokens[1].kind == "number" and tokens[1].glued
    at = int(named)
    if (
        len(tokens) < at + 4
        or any(token.text == BREAK for token in tokens)
        or tokens[at + 1].text not in _POINTS
        or not tokens[at + 1].glued
    ):
        return None
    name, counts = tokens[at], at + 2
    called = name.kind == "number" or (name.kind == "word" and len(name.text) == 1 and name.text.isupper())
    if not called or not tokens[counts].glued or tokens[counts].kind not in ("number", "amp"):
        return None
    return (name.low, counts) if _first_count(tokens[counts:]) is not None else None


def _first_count(tokens: Sequence[Token]) -> int | None:
    first = next(iter(marks_in(tuple(tokens), 0)), None)
    return None if first is None or first.first else first.start.number or 0


def _go_on(names: Sequence[str]) -> bool:
    """Whether names rise one by one from the first there is: 1, 2, 3 or A, B, C."""
    letters = list(_LETTERS[: len(names)])
    return list(names) in ([str(number) for number in range(1, len(names) + 1)], letters)


def _told(tokens: Sequence[Token], counts: int, number: int) -> tuple[Token, ...]:
    rest = (replace(tokens[counts], glued=False), *tokens[counts + 1 :])
    if not number:
        return rest
    near = tokens[0]
    return (word_like(near, "section"), number_like(near, number), mark_like(near, ":"), *rest)
