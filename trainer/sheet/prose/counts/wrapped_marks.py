"""Counts that the margin has parted: "step left beside right on | four", "through two | and three", "on the | and".

What belongs to the count moves up to the line on which it began, so that one mark is read there.
"""

from collections.abc import Sequence

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line, taken_back
from trainer.sheet.prose.words import Token

_LEADS = {"on", "for", "at", "through"}
_NOUNS = {"count", "counts", "beat", "beats"}
_JOINS = {"and", "&", "-", "to", "through"}
_LABEL = 6
"""Tokens among which the colon of a label stands."""
_NEAR = 8
"""Tokens on both sides of the margin among which a parted count stands."""

_REACH = 4
"""Tokens at a line's end in which the first half of a count stands: "seven-and-"."""


def rejoined(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with each count that was parted at the margin on the line where it began."""
    return taken_back(lines, _parted)


def _parted(above: Line, line: Line) -> int:
    """Return how many tokens of a line belong to a count that began on the line above."""
    near = line.number == above.number + 1 and above.tokens[-1].line < line.tokens[0].line
    if not near or any(token.text == BREAK for token in (*above.tokens, *line.tokens)):
        return 0
    if behind := _behind_labelled_steps(above, line):
        return behind
    before, after = above.tokens[-_NEAR:], line.tokens[:_NEAR]
    if not _may_part(before, after):
        return 0
    edge = len(before)
    for mark in marks_in((*before, *after), 0):
        if mark.first < edge < mark.last:
            return mark.last - edge
    return 0


def _behind_labelled_steps(above: Line, line: Line) -> int:
    """Return how many tokens of a line are counts, with the mark after them, of steps that a label opens above.

    "Third eight: step forward on the left and lock the right behind it," over "1-2, then left forward".
    """
    colon = next((at for at, token in enumerate(above.tokens[:_LABEL]) if token.text == ":"), 0)
    steps = above.tokens[colon + 1 :]
    told = colon and any(token.low in STEP_WORDS for token in steps) and steps[-1].text == ","
    if not told or marks_in(steps, 0):
        return 0
    first = next(iter(marks_in(line.tokens[:_NEAR], 0)), None)
    closed = first is not None and first.first == 0 and first.last < len(line.tokens)
    return first.last + 1 if closed and first is not None and line.tokens[first.last].text in (",", ".") else 0


def _may_part(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line ends as no sentence does just before a count, or goes on with the second half of one."""
    last = before[-1].low
    led = len(before) > 1 and before[-2].low in {*_LEADS, "the"}
    if last in _LEADS or (led and last in {"the", '"', "'", *_NOUNS}):
        return True
    spelled = any(token.low in NUMBERS and token.kind == "word" for token in before[-_REACH:])
    if last in NUMBERS and spelled:
        return after[0].low in _JOINS
    return spelled and last in _JOINS and after[0].low in NUMBERS
