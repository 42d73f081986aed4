"""Rows of steps that are numbered on, each with its counts at the end: "3. Walk forward right, left   Counts 1 2".

The numbers before such rows rise by one from row to row, where the counts behind the words go on by themselves.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SIGNS = {"(", "[", "#", ".", ")", "]", ":", "-", BREAK}
_COUNT_MARKS = {"-", ",", "&", "(", ")", "[", "]", ".", "/", ":"}
_COUNT_WORDS = {"count", "counts", "beat", "beats", "cts", "ct", "and", "a", "to"}
_LEAST = 3
"""Fewer rows show nothing."""
_BAR = (3, 4)
"""Counts may begin again after so many, or a multiple."""


class NumberedRow(NamedTuple):
    """A row of steps with its number."""

    at: int
    """Its place among the lines."""
    number: int
    words: tuple[Token, ...]
    """What is behind the number."""
    counts: tuple[int, ...]


def without_row_numbers(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without the numbers of their rows."""
    rows = {row.at: row.words for row in numbered_rows(lines)}
    return tuple(
        replace(line, tokens=rows[at], indent=rows[at][0].column - 1) if at in rows else line
        for at, line in enumerate(lines)
    )


def numbered_rows(lines: Sequence[Line]) -> list[NumberedRow]:
    """Return the rows that are numbered on, each with its counts; none where they are not."""
    leads = {at: lead for at, line in enumerate(lines) if (lead := _lead(line.tokens))}
    told = [
        NumberedRow(at, number, words, counts)
        for at, (number, first) in leads.items()
        if (counts := _counts(words := lines[at].tokens[first:]))
    ]
    numbered = [row.number for row in told] == list(range(1, len(told) + 1))
    return told if len(told) >= _LEAST and numbered and _go_on([row.counts for row in told]) else []


def _lead(tokens: Sequence[Token]) -> tuple[int, int] | None:
    """Return the number that a line of words opens with, and where its words begin; None where it has none."""
    at = next((at for at, token in enumerate(tokens) if token.text not in _SIGNS), len(tokens))
    if at >= len(tokens) or tokens[at].kind != "number" or len(tokens[at].text) > 2:
        return None
    end = at + 1
    while end < len(tokens) and tokens[end].text in _SIGNS - {"(", "["}:
        end += 1
    words = end < len(tokens) and tokens[end].kind == "word" and len(tokens) - end > _LEAST
    return (int(tokens[at].text), end) if words else None


def _counts(tokens: Sequence[Token]) -> tuple[int, ...]:
    """Return the counts that end a row, two at least."""
    numbers: list[int] = []
    for token in reversed(tokens):
        if token.kind == "number" and len(token.text) < 3:
            numbers.append(int(token.text))
        elif token.kind != "amp" and token.text not in (*_COUNT_MARKS, BREAK) and token.low not in _COUNT_WORDS:
            break
    numbers.reverse()
    rising = numbers == sorted(numbers)
    return tuple(numbers) if len(numbers) > 1 and rising else ()


def _go_on(rows: Sequence[tuple[int, ...]]) -> bool:
    """Whether counts begin with 1, and each row goes on from the one above or begins again."""
    last = 0
    for counts in rows:
        again = counts[0] == 1 and any(last % bar == 0 for bar in _BAR)
        if counts[0] != last + 1 and not again:
            return False
        last = counts[-1]
    return True
