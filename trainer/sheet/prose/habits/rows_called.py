"""Rows of steps that are called by their numbers: "Dance steps 1) to 8)", "in place of line 12", "as far as row 7".

Each row has a number of its own before its counts or its words, and the numbers rise by one where the counts go on from
row to row. Such a number is told as the counts of its row: "Dance counts 1 - 24". Common practice, no source.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_LEAST = 4
"""Fewer rows show nothing."""
_SIGNS = {")", "]", ".", ":", BREAK}
_SURE = 1.2
"""The strength of a mark that is a count for sure."""
_CALLED = r"(?:steps?|lines?|rows?|items?|moves?|points?|numbers?|nos?)(?: \.)?"
_NUMBER = r"[(\[]? ?(\d{1,2})(?: [)\]])?"
_ON = r"(?:to|-|through|thru|till|until|up to)"
_ENDS = (
    r"((?:until|till|up to|as far as|after|behind|following|at|through to|to|through)(?: and including)?)"
    r"(?: (?:the )?end of)?"
)
_LISTED = re.compile(
    rf"(?<!\S){_CALLED} {_NUMBER}(?: , (?:{_CALLED} )?{_NUMBER})*(?: ,)? (?:and|&) (?:{_CALLED} )?{_NUMBER}(?!\S)"
)
_RUN = re.compile(rf"(?<!\S){_CALLED} {_NUMBER} {_ON} (?:{_CALLED} )?{_NUMBER}(?!\S)")
_END = re.compile(rf"(?<!\S){_ENDS} (?:the )?{_CALLED} {_NUMBER}(?!\S)")
_FROM = re.compile(rf"(?<!\S)(from|before|on from|again at|in at) (?:the )?{_CALLED} {_NUMBER}(?!\S)")
_ONE = re.compile(rf"(?<!\S){_CALLED} {_NUMBER}(?!\S)")


@dataclass(frozen=True, slots=True)
class _Row:
    number: int
    first: int
    last: int


def with_rows_called(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, rows that are called by their numbers told by their counts."""
    rows = {at: row for at, line in enumerate(lines) if (row := _row(line.tokens))}
    counts = _counts_of(list(rows.values()))
    if counts is None:
        return tuple(lines)
    return tuple(line if at in rows else _told(line, counts) for at, line in enumerate(lines))


def _row(tokens: Sequence[Token]) -> _Row | None:
    """Return the number of a row and the counts behind it; None where a line opens with none, or counts nothing."""
    at = 1 if tokens[0].text in ("(", "[") else 0
    if len(tokens) < at + _LEAST or tokens[at].kind != "number" or not tokens[at].text.isdecimal():
        return None
    end = at + 1
    while end < len(tokens) and tokens[end].text in _SIGNS:
        end += 1
    rest = tuple(tokens[end:])
    marks = [mark for mark in marks_in(rest, 0) if mark.strength >= _SURE and any(one.number for one in mark.places)]
    if end == at + 1 or not marks or not (marks[0].first == 0 or marks[-1].last >= len(rest) - 1):
        return None
    mark = marks[0] if marks[0].first == 0 else marks[-1]
    numbers = [one.number for one in mark.places if one.number]
    return _Row(int(tokens[at].text), numbers[0], numbers[-1])


def _counts_of(rows: Sequence[_Row]) -> Mapping[int, tuple[int, int]] | None:
    """Return the counts of the dance in each row by its number; None where rows do not go on so."""
    if len(rows) < _LEAST or rows[0].first != 1 or rows[1].first == 1:
        # A number before each whole section is that of the section.
        return None
    counts: dict[int, tuple[int, int]] = {}
    base = 0
    for place, row in enumerate(rows, 1):
        last = counts[place - 1][1] if place > 1 else 0
        base = last if row.first == 1 else base
        if row.number != place or base + row.first != last + 1:
            return None
        counts[place] = (base + row.first, base + row.last)
    return counts


def _told(line: Line, counts: Mapping[int, tuple[int, int]]) -> Line:
    tokens = line.tokens
    for pattern in (_LISTED, _RUN, _END, _FROM, _ONE):
        tokens = _by(pattern, tokens, counts)
    return line if tokens == line.tokens else replace(line, tokens=tokens, source="")


def _by(
    pattern: re.Pattern[str], tokens: tuple[Token, ...], counts: Mapping[int, tuple[int, int]]
) -> tuple[Token, ...]:
    """Return tokens with what one pattern finds told by counts."""
    words = " ".join(token.low for token in tokens)
    done: list[Token] = []
    at = 0
    for found in pattern.finditer(words):
        first = words[: found.start()].count(" ")
        last = first + found[0].count(" ") + 1
        instead = list(_instead(pattern, found, tokens[first], counts))
        if instead:
            done += [*tokens[at:first], *instead]
            at = last
    return (*done, *tokens[at:])


def _instead(
    pattern: re.Pattern[str], found: re.Match[str], near: Token, counts: Mapping[int, tuple[int, int]]
) -> Iterator[Token]:
    """Yield the counts that are called in a match; nothing where the rows have no such number."""
    numbers = [int(one) for one in found[0].split() if one.isdecimal()]
    low, high = numbers[0], numbers[-1]
    apart = pattern is _LISTED and numbers != list(range(low, high + 1))
    if low > high or low not in counts or apart:
        return
    # A row that the dance does not have stands behind its last one, as many counts as the last one has.
    length = counts[len(counts)][1] - counts[len(counts)][0] + 1
    beyond = max(0, high - len(counts)) * length
    first, last = counts[low][0], counts[min(high, len(counts))][1] + beyond
    if pattern in (_END, _FROM):
        for word in ("after" if found[1] == "at" else found[1]).split():
            yield word_like(near, word)
        yield word_like(near, "count")
        yield number_like(near, last if pattern is _END else first)
        return
    yield word_like(near, "counts" if last > first else "count")
    yield number_like(near, first)
    if last > first:
        yield mark_like(near, "-")
        yield number_like(near, last)
