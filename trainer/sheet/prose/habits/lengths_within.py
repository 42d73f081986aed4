"""Lengths in brackets behind the steps of a row, "Vine right (4), vine left (4)", told as counts: "(1-4)", "(5-8)".

So it is where no other counts are told, the numbers of a row make up whole phrases, and those of most rows cannot be
counts: they stand still, or go back. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FEWEST = 2
"""Rows with lengths."""
_UNITS = {"c", "ct", "cts", "count", "counts", "beat", "beats"}


def with_lengths_within(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such lengths told as the counts that their steps take."""
    phrase = phrase_of(lines)
    rows = {at: found for at, line in enumerate(lines) if (found := _lengths(line))}
    sums = [sum(int(lines[at].tokens[one].text) for one in found) for at, found in rows.items()]
    if len(rows) < _FEWEST or any(number % phrase for number in sums):
        return tuple(lines)
    still = [at for at, found in rows.items() if len(found) > 1 and not _rises(lines[at], found)]
    if 2 * len(still) <= len(rows) or any(_counts(line) for at, line in enumerate(lines) if at not in rows):
        return tuple(lines)
    return tuple(_told(line, rows[at], phrase) if at in rows else line for at, line in enumerate(lines))


def _lengths(line: Line) -> list[int]:
    """Return where the numbers in brackets of a row of steps stand; nothing where it tells counts otherwise."""
    tokens = line.tokens
    found = []
    for at in range(1, len(tokens) - 1):
        closed = at + 1 + (tokens[at + 1].low in _UNITS)
        bracketed = tokens[at - 1].text == "(" and closed < len(tokens) and tokens[closed].text == ")"
        if bracketed and tokens[at].kind == "number" and tokens[at].text.isdecimal() and int(tokens[at].text) > 1:
            found.append(at)
    sure = [mark for mark in marks_in(tokens, 0) if mark.strength >= _SURE]
    inside = all(any(mark.first <= at < mark.last for at in found) for mark in sure)
    steps = any(token.low in STEP_WORDS for token in tokens)
    return found if inside and steps and not is_order(tokens) else []


def _rises(line: Line, found: Sequence[int]) -> bool:
    """Whether the numbers of a row go on as counts do."""
    return all(int(line.tokens[a].text) < int(line.tokens[b].text) for a, b in pairwise(found))


def _counts(line: Line) -> bool:
    """Whether another line gives counts that steps are danced on."""
    steps = any(token.low in STEP_WORDS for token in line.tokens)
    return steps and any(mark.strength >= _SURE for mark in marks_in(line.tokens, 0)) and not is_order(line.tokens)


def _told(line: Line, found: Sequence[int], phrase: int) -> Line:
    tokens: list[Token] = []
    start = 0
    for at, token in enumerate(line.tokens):
        if at not in found:
            if at - 1 not in found or token.low not in _UNITS:
                tokens.append(token)
            continue
        first, last = start % phrase + 1, start % phrase + int(token.text)
        dash = replace(token, kind="mark", text="-", low="-", glued=True, value=None)
        tokens += [_number(token, first), dash, _number(token, last)]
        start += int(token.text)
    return replace(line, tokens=tuple(tokens), source="")


def _number(token: Token, value: int) -> Token:
    return replace(token, text=str(value), low=str(value), glued=True)
