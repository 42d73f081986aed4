"""Rows that each tell their name and length before their steps: "Vine R - 4 counts: step R, behind L, step R, scuff L".

The length is no count. So it is where three rows or more tell it, together they make up whole phrases, and the counts
of none go over the end of one. Each is told with its own counts, the name only where the steps do not fill them.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Fill = Callable[[Sequence[Token], int], float]

_UNITS = {"c", "ct", "cts", "count", "counts", "beat", "beats", "bts"}
_BEFORE = {"-", ",", "(", "[", BREAK, "."}
_BEHIND = {":", ".", "-", BREAK, "="}
_NAME = 12
"""Tokens of a name and its length at most."""
_FEWEST = 3
_FITS = 1.2
"""Steps that fill their counts less well are told with their name."""


class _Row(NamedTuple):
    name: tuple[Token, ...]
    length: int
    steps: tuple[Token, ...]


def with_lengths_led(lines: Sequence[Line], fill: Fill) -> tuple[Line, ...]:
    """Return the lines, each such row with its counts before its steps."""
    rows = {at: row for at, line in enumerate(lines) if (row := _row(line.tokens)) is not None}
    phrase = phrase_of(lines)
    starts: dict[int, int] = {}
    danced = 0
    for at, row in rows.items():
        starts[at] = danced % phrase
        danced += row.length
    over = any(starts[at] + row.length > phrase for at, row in rows.items())
    if len(rows) < _FEWEST or over or danced % phrase:
        return tuple(lines)
    return tuple(_counted(line, rows[at], starts[at], fill) if at in rows else line for at, line in enumerate(lines))


def _row(tokens: Sequence[Token]) -> _Row | None:
    """Return a line's name, length and steps; None where it does not tell a length between these."""
    for at in range(1, min(len(tokens) - 3, _NAME)):
        length = NUMBERS.get(tokens[at].low, 0)
        if tokens[at].kind == "number" and tokens[at].text.isdecimal():
            length = int(tokens[at].text)
        if not length or tokens[at + 1].low not in _UNITS or tokens[at - 1].text not in _BEFORE:
            continue
        end = at + 2 + (tokens[at + 2].text in ")]")
        steps = tuple(tokens[end + 1 :])
        told = end < len(tokens) and tokens[end].text in _BEHIND and any(one.low in STEP_WORDS for one in steps)
        named = any(one.kind == "word" for one in tokens[: at - 1])
        return _Row(tuple(tokens[: at - 1]), length, steps) if told and named and length > 1 else None
    return None


def _counted(line: Line, row: _Row, start: int, fill: Fill) -> Line:
    first = replace(line.tokens[0], kind="number", text=str(start + 1), low=str(start + 1), glued=False, value=None)
    dash = replace(first, kind="mark", text="-", low="-")
    last = replace(first, text=str(start + row.length), low=str(start + row.length))
    gap = replace(dash, text=BREAK, low=BREAK)
    name = (*row.name, replace(dash, text=":", low=":")) if fill(row.steps, row.length) > _FITS else ()
    return replace(line, tokens=(first, dash, last, gap, *name, *row.steps), source="")
