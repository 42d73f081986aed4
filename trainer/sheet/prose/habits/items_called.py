"""Rows of steps that are numbered on and called by their numbers: "Wall 3: items 1 to 16, then restart".

Where the counts behind the rows go on from the first to the last of the dance, such a number stands for the counts of
its row; the number of a row that tells an extra stands for the extra. Common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.habits.rows_numbered import numbered_rows
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import number_like, word_like
from trainer.sheet.prose.words import Token

_ITEMS = {"item", "items", "row", "rows", "line", "lines", "point", "points", "entry", "entries"}
_TO = {"to", "-", "through", "till", "until"}
_FEWEST = 8
"""Rows of the dance."""


def with_items_called(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such numbers told as counts or extras."""
    rows = numbered_rows(lines)
    counts = {row.number: row.counts for row in rows if extra_kind(row.words[:1]) is None}
    extras = {row.number: row.words[0] for row in rows if extra_kind(row.words[:1]) is not None}
    ends = [counts[number][-1] for number in counts]
    if len(counts) < _FEWEST or ends != sorted(set(ends)):
        return tuple(lines)
    told = ((line, tuple(_told(line.tokens, counts, extras))) for line in lines)
    return tuple(line if tokens == line.tokens else replace(line, tokens=tokens, source="") for line, tokens in told)


def _told(tokens: Sequence[Token], counts: Mapping[int, Sequence[int]], extras: Mapping[int, Token]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        numbers = _numbers(tokens, at) if tokens[at].low in _ITEMS else []
        token = tokens[at]
        if len(numbers) == 1 and numbers[0] in extras:
            yield word_like(tokens[at + 1], extras[numbers[0]].text)
            at += 2
        elif numbers and all(number in counts for number in numbers):
            first, last = counts[numbers[0]][0], counts[numbers[-1]][-1]
            leads = at and tokens[at - 1].low in ("from", "after", "before")
            ends = (tokens[at + 1], tokens[at + 2 * len(numbers) - 1])
            yield word_like(token, "count" if leads else "counts")
            if leads:
                yield number_like(ends[1], last if tokens[at - 1].low == "after" else first)
            else:
                # Each at its own place: a gap between them would part cells.
                yield from (number_like(ends[0], first), word_like(ends[0], "to"), number_like(ends[1], last))
            at += 2 * len(numbers)
        else:
            yield token
            at += 1


def _numbers(tokens: Sequence[Token], at: int) -> list[int]:
    """Return the number behind a token, or the first and the last of several."""
    found = [token for token in tokens[at + 1 : at + 4] if token.text.isdecimal()]
    if at + 1 >= len(tokens) or not tokens[at + 1].text.isdecimal():
        return []
    ranged = at + 3 < len(tokens) and tokens[at + 2].low in _TO and tokens[at + 3].text.isdecimal()
    return [int(token.text) for token in (found[:2] if ranged else found[:1])]
