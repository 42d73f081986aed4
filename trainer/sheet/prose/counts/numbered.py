"""Numbers that only number the sections or paragraphs of a sheet, and count no steps: 1. 2. 3. down the page."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FEWEST = 3
"""Titles with numbers."""


def without_numbering(marks: Sequence[Mark], texts: Sequence[Line]) -> list[Mark]:
    """Return the marks without those that only number sections or paragraphs: 1. 2. 3. through the sheet, once."""
    heading = _over_runs(marks, texts)
    marks = [mark for mark in marks if mark not in heading]
    counting = _count_on_alike(marks, texts)
    numbering = [mark for mark in marks if _numbers_a_line(mark, texts[mark.line]) and mark not in counting]
    values = [mark.start.number for mark in numbering]
    numbers = [value or 0 for value in values]
    rises = numbers == sorted(set(numbers)) and numbers[:1] == [1] and numbers[-1] <= len(numbers) + 3
    others = [mark for mark in marks if mark.strength >= 1.4 and mark not in numbering]
    counted_too = sum(any(other.line == mark.line for other in others) for mark in numbering)
    if not counted_too and any(_filled(marks, one, two) for one, two in pairwise(numbering)):
        # "One: step right", "Two, three: hold", "Four: close" go on from each other.
        return list(marks)
    if not counted_too and _are_steps_in_a_row([texts[mark.line] for mark in numbering]):
        # "1. step right", "2. step left", below the name of a tag, count its steps.
        return list(marks)
    if len(values) < 2 or not rises or (len(others) < 1.5 * len(values) and counted_too < 0.8 * len(values)):
        return list(marks)
    gone = {id(mark) for mark in numbering}
    return [mark for mark in marks if id(mark) not in gone]


def _filled(marks: Sequence[Mark], one: Mark, two: Mark) -> bool:
    """Whether counts at the start of the line between two numbers go from one to the other."""
    first, last = one.start.number or 0, two.start.number or 0
    between = [mark for mark in marks if one.line < mark.line < two.line and mark.first == 0]
    numbers = [place.number for mark in between for place in mark.places]
    return last > first + 1 and numbers == list(range(first + 1, last))


def _are_steps_in_a_row(lines: Sequence[Line]) -> bool:
    """Whether lines stand right under each other, and each tells a step."""
    rows = all(after.number == before.number + 1 for before, after in pairwise(lines))
    return rows and all(any(token.low in STEP_WORDS for token in line.tokens[1:]) for line in lines)


def _over_runs(marks: Sequence[Mark], texts: Sequence[Line]) -> list[Mark]:
    """Return the marks that number titles, each over lines that count: "4 - Cross rock" over "1-3", "4-6"."""
    sure = [mark for mark in marks if mark.strength >= _SURE]
    found = [
        mark
        for mark, after in pairwise(sure)
        if _opens_a_title(mark, texts[mark.line]) and after.line > mark.line and len(after.places) > 1
    ]
    numbers = [mark.start.number for mark in found]
    return found if len(found) >= _FEWEST and numbers == list(range(1, len(found) + 1)) else []


def _opens_a_title(mark: Mark, line: Line) -> bool:
    """Whether a mark is a lone number before a dash or colon and words, at a line's start."""
    plain = mark.first == 0 and len(mark.places) == 1 and not mark.start.sub and not mark.closed
    signed = any(token.text in ("-", ":") for token in line.tokens[1:2])
    return plain and signed and len(line.tokens) > 2 and line.tokens[2].kind == "word"


def _count_on_alike(marks: Sequence[Mark], texts: Sequence[Line]) -> list[Mark]:
    """Return the marks at a line's start that others go on from in their line: "(1) step right (2) touch left"."""
    return [
        mark
        for mark, after in pairwise(marks)
        if mark.line == after.line
        and mark.first == 0
        and (after.start.number == (mark.end.number or 0) + 1 or after.start.number is None)
        and _form(mark, texts[mark.line]) == _form(after, texts[mark.line])
    ]


def _form(mark: Mark, line: Line) -> tuple[bool, str]:
    """Return how a number is set off from the words: in brackets, or by the sign behind it."""
    return mark.closed, "" if mark.closed else line.tokens[mark.last - 1].text if mark.last - mark.first > 1 else ""


def _numbers_a_line(mark: Mark, line: Line) -> bool:
    """Whether a mark is a lone number with a full stop or bracket at a line's start."""
    if mark.first or len(mark.places) != 1 or mark.start.sub or mark.last < 2:
        return False
    if line.tokens[0].text in "([":
        return len(line.tokens) > mark.last
    if mark.spelled:
        return line.tokens[1].text in (".", ")", ":", "-")
    return not mark.closed and line.tokens[1].text in (".", ")") and line.tokens[1].glued
