"""Half beats in rows of their own that repeat the number of the count before: "7  R back" over "7&  L together".

The row has one half beat and no count again: where the row above closes with that number and the row below goes on with
the next one, the number only says to which count the half beat belongs. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_OPENS = 2
"""Tokens of a row before its count at most: a word for it, a bracket."""


def with_halves_by_rows(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rows with their half beat alone."""
    opening = [_opening(line) for line in lines]
    rows = [at for at, mark in enumerate(opening) if mark is not None]
    done = list(lines)
    for before, at, after in zip([-1, *rows], rows, [*rows[1:], -1], strict=False):
        mark, above = opening[at], opening[before] if before >= 0 else None
        below = opening[after] if after >= 0 else None
        if mark is None or above is None or not _is_half(mark) or above.places[-1].number != mark.start.number:
            continue
        number = mark.start.number or 0
        goes_on = below is not None and (below.start.number or number + 1) in (number, number + 1)
        if below is None or goes_on:
            done[at] = replace(lines[at], tokens=_without_number(lines[at].tokens, mark))
    return tuple(done)


def _opening(line: Line) -> Mark | None:
    """Return the counts that a row opens with."""
    mark = next(iter(marks_in(line.tokens, 0)), None)
    return mark if mark is not None and mark.first <= _OPENS and mark.last < len(line.tokens) else None


def _is_half(mark: Mark) -> bool:
    """Whether a mark is one number with a half beat behind it: "7&", "7 a"."""
    return len(mark.places) > 1 and not mark.places[0].sub and all(place.sub for place in mark.places[1:])


def _without_number(tokens: tuple[Token, ...], mark: Mark) -> tuple[Token, ...]:
    at = next((at for at in range(mark.first, mark.last) if tokens[at].kind == "number"), None)
    if at is None or at + 1 >= mark.last:
        return tokens
    return (*tokens[:at], replace(tokens[at + 1], column=tokens[at].column, glued=False), *tokens[at + 2 :])
