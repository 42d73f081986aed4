"""Counts of an extra with its initial before them, "Tag T1-T2 | R fwd, pivot 1/2 left", told without it under its name.

Such rows are known by their order alone: their letter opens the extra's name, which stands before them or in a line
above, and they count on from 1. Where the name stands before the first of them it becomes a heading of its own.
Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_EXTRAS = {
    "tag", "bridge", "end", "ending", "finish", "break", "intro", "introduction", "change", "coda", "interlude",
    "extra",
}  # fmt: skip
_CLOSES = {BREAK, ":", ")", "."}
_BEFORE = 3
"""Tokens of a name before its counts, with its article and a break or a mark."""
_HEAD = 12
"""Tokens of a heading above such rows."""


class _Row(NamedTuple):
    """A line that counts so: where its letter stands, the first count and the last."""

    at: int
    first: int
    last: int


def with_lettered_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts of extras told without their letters."""
    told: list[Line] = []
    name, last, rows = "", 0, 0
    for line in lines:
        named = _name(line)
        row = _row(line, named or name)
        if row and row.first == (1 if named and named != name else last + 1):
            name, last, rows = named or name, row.last, rows + 1
            told += _told(line, row, heads=bool(named) and row.first == 1)
            continue
        told.append(line)
        if named or not row:
            name, last = (named if len(line.tokens) <= _HEAD else ""), 0
    return tuple(told) if rows else tuple(lines)


def _name(line: Line) -> str:
    """Return the extra that the first words of a line name."""
    return next((token.low for token in line.tokens[:_BEFORE] if token.low in _EXTRAS), "")


def _row(line: Line, name: str) -> _Row | None:
    tokens = line.tokens
    for at, token in enumerate(tokens[: _BEFORE + 1]):
        if token.low == name[:1] and token.text.isupper() and (first := _number(tokens, at + 1)):
            end, last = at + 2, first
            if end < len(tokens) and tokens[end].text == "-":
                end += 1
                end += end < len(tokens) and tokens[end].text == token.text
                last, end = _number(tokens, end), end + 1
            closed = end < len(tokens) and (tokens[end].text in _CLOSES or at == 0 or tokens[0].low == name)
            return _Row(at, first, last) if closed and last >= first else None
    return None


def _number(tokens: Sequence[Token], at: int) -> int:
    """Return a count that stands at a token, glued to its letter; 0 where none does."""
    token = tokens[at] if at < len(tokens) else None
    return int(token.text) if token and token.kind == "number" and token.glued and token.text.isdecimal() else 0


def _told(line: Line, row: _Row, *, heads: bool) -> Iterator[Line]:
    """Yield the row without its letters, below its name where that stands before it."""
    letter = line.tokens[row.at].text
    before = [token for token in line.tokens[: row.at] if token.kind == "word"]
    if heads and before:
        yield replace(line, tokens=tuple(before), source="")
    counts = line.tokens[row.at : row.at + 4]
    bare = [token for token in counts if token.text != letter]
    yield replace(line, tokens=(replace(bare[0], glued=False), *bare[1:], *line.tokens[row.at + 4 :]), source="")
