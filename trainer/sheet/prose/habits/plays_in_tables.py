"""The play of a phrased dance in a table that has the song beside it.

"3 | second verse | Verse, then Breather | 12:00": the song's own verse and chorus are no parts of the dance. What is
danced is told as one line, each item with where it begins. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_SONGS = {"song", "music", "tune", "hear", "singer", "sung", "track", "band", "record"}
_DANCES = {"dance", "danced", "dances", "dancing"}
_STARTS = {"start", "starts", "begin", "begins", "from", "facing", "face"}
_JOINS = {",", "+", "&", "and", "then", ";", "/", "plus", "followed", "by", "with"}
_LEAST = 4
"""Rows of a play."""


class _Columns(NamedTuple):
    """Where the columns of what is danced and of where it begins stand: first letter, and first letter beyond."""

    danced: tuple[int, int]
    starts: tuple[int, int] | None


def with_plays_in_tables(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a table as one line of the play."""
    for at, line in enumerate(lines):
        columns = _columns(line)
        if columns is None:
            continue
        last = at + 1
        while last < len(lines) and lines[last].tokens[0].text == str(last - at):
            last += 1
        told = [list(_items(one, columns)) for one in lines[at + 1 : last]]
        if last - at <= _LEAST or not all(told):
            continue
        first = lines[at + 1].tokens[0]
        play = [word_like(first, "sequence"), mark_like(first, ":")]
        for row in told:
            play += [*row, mark_like(row[-1], ",")]
        return (*lines[:at], replace(lines[at + 1], tokens=tuple(play[:-1]), source=""), *lines[last:])
    return tuple(lines)


def _columns(head: Line) -> _Columns | None:
    """Return the columns of such a table; None for any other line."""
    cells = [cell for cell in head.cells if cell]
    words = [{token.low for token in cell} for cell in cells]
    danced = [at for at, own in enumerate(words) if own & _DANCES]
    sung = [at for at, own in enumerate(words) if own & _SONGS and not own & _DANCES]
    if len(danced) != 1 or not sung:
        return None
    begins = [cell[0].column for cell in cells] + [10_000]
    starts = [at for at, own in enumerate(words) if own & _STARTS and at != danced[0]]
    bounds = [(begins[at], begins[at + 1]) for at in (danced[0], *starts[:1])]
    return _Columns(bounds[0], bounds[1] if len(bounds) > 1 else None)


def _items(row: Line, columns: _Columns) -> Iterator[Token]:
    """Yield what a row dances, parted by commas, behind the first item where it begins in brackets."""
    danced = list(_within(row, columns.danced))
    facing = [token for token in _within(row, columns.starts or (0, 0)) if token.kind in ("clock", "facing")]
    placed = parted = False
    for token in danced:
        if token.low in _JOINS:
            if facing and not placed:
                yield from (mark_like(token, "("), facing[0], mark_like(token, ")"))
                placed = True
            if not parted:
                yield mark_like(token, ",")
            parted = True
        else:
            yield token
            parted = False
    if facing and danced and not placed:
        yield from (mark_like(danced[-1], "("), facing[0], mark_like(danced[-1], ")"))


def _within(row: Line, bounds: tuple[int, int]) -> Iterator[Token]:
    return (token for token in row.tokens if bounds[0] <= token.column < bounds[1] and token.text != BREAK)
