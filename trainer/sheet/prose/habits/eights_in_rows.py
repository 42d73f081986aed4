"""Rows that are an eight each, only numbered: "1) R side, L behind, ... // L side, ..." down to "4)", of 32 counts.

The number is the section's and no count; the counts told in brackets, "R shuffle (3&4)", are only some of its own, and
the steps fill it without them. So it is where rows are numbered through, no other line counts, and nearly all of
them fill an eight (a six in a waltz) well and one count badly.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FEWEST = 2
_STEPS = 3
"""Words of steps in a row at least."""
_FITS = 1.2
_FAILS = 2.0
"""So much worse the words of an eight fill one count."""
_SIGNS = (")", ".", ":", "-", BREAK, "/", ">", "]")

Fill = Callable[[Sequence[Token], int], float]


def with_eights_in_rows(lines: Sequence[Line], fill: Fill) -> tuple[Line, ...]:
    """Return the lines, each row that is an eight with all its counts before it."""
    rows = {at: last for at, line in enumerate(lines) if (last := _opening(line))}
    numbers = [int(lines[at].tokens[last - 2].text) for at, last in rows.items()]
    if len(rows) < _FEWEST or numbers != list(range(1, len(rows) + 1)):
        return tuple(lines)
    others = (line for at, line in enumerate(lines) if at not in rows and not is_order(line.tokens))
    counted = (mark for line in others for mark in _sure(line))
    steps = {at: _without_counts(lines[at], last) for at, last in rows.items()}
    if any(mark.start.number == 1 or mark.start.sub for mark in counted) or None in steps.values():
        return tuple(lines)
    phrase = phrase_of(lines)
    words = [told for told in steps.values() if told is not None and not points_back(told)]
    fitting = sum((well := fill(told, phrase)) < _FITS and fill(told, 1) >= well + _FAILS for told in words)
    if fitting < max(_FEWEST, len(words) - 1):
        return tuple(lines)
    return tuple(_row(line, steps.get(at), phrase) for at, line in enumerate(lines))


def _opening(line: Line) -> int:
    """Return the index after the number and its sign that open a row of several steps; 0 where none do."""
    tokens = line.tokens
    at = next((at for at, token in enumerate(tokens[:_NAME]) if token.low not in _NAMED), 0)
    if at + 2 >= len(tokens) or tokens[at].kind != "number" or not tokens[at].text.isdecimal():
        return 0
    steps = sum(token.low in STEP_WORDS or token.low in _FEET for token in tokens)
    told = steps >= _STEPS or points_back(tokens[at + 2 :])
    return at + 2 if tokens[at + 1].text in _SIGNS and told else 0


_NAME = 4
_NAMED = {"#", "(", "[", "<", "row", "line", "section", "sec", "no", "number", "nr", "eight"}
"""What may stand before the number of a row."""
_FEET = {"r", "l", "rf", "lf"}


def _sure(line: Line) -> list[Mark]:
    return [mark for mark in marks_in(line.tokens, 0) if mark.strength >= _SURE]


def _without_counts(line: Line, last: int) -> tuple[Token, ...] | None:
    """Return the words of a row without the counts told in brackets; None where it tells its counts otherwise."""
    done = list(line.tokens)
    for mark in reversed(_sure(line)):
        if mark.first < last:
            continue
        if not mark.closed or mark.start.number == 1:
            return None
        del done[mark.first : mark.last]
    return tuple(done[last:])


def _row(line: Line, steps: tuple[Token, ...] | None, phrase: int) -> Line:
    """Return a row with its counts before its steps."""
    if steps is None:
        return line
    first = replace(line.tokens[0], kind="number", text="1", low="1")
    dash = replace(first, kind="mark", text="-", low="-", glued=False)
    last = replace(dash, kind="number", text=str(phrase), low=str(phrase))
    return replace(line, tokens=(first, dash, last, *steps), source="")
