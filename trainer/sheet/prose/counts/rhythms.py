"""Counts that only explain how the music is counted: 'rolling, so "1, 2 a 3, 4 a 5"', "Goes one, two-a-three".

A line explains where it gives counts one after another and has no steps for them, and speaks of counting; or where it
stands above all steps, and the counts below it begin with 1 again. So does one that speaks of how they are written.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_RHYTHM = 4
"""Counts in a row that show how the music is counted."""
_FEW = 3
"""Counts in a row that show it above all steps."""
_COUNTING = {"count", "counts", "counted", "counting", "rhythm", "timing", "rolling", "rolled", "music", "phrased"}
_ABOUT_MARKS = re.compile(
    r"\bparagraphs?\b|\bof the next\b|\bat the (?:end|start) of\b|\bend of the (?:eight|line|section)\b|"
    r"\bplease note\b|\bcounts? (?:is|are|stands?|means?|one of)\b|\b(?:is|means) (?:count|beat)\b|"
    r"\bbelongs? to\b|\bruns? over\b|\b(?:in|between) (?:the )?(?:brackets|slashes|strokes)\b|\bwritten\b"
)
"""Words of a line that says how counts are written; two of them make it one."""
_BETWEEN = (".", "!", "?", ":", BREAK)


def without_explained(texts: Sequence[Line], marks: Sequence[Mark], fill: Fill) -> list[Mark]:
    """Return the marks without those that only explain how the music is counted."""
    by_line: dict[int, list[Mark]] = {}
    for mark in marks:
        if mark.strength >= 1:
            by_line.setdefault(mark.line, []).append(mark)
    gone: set[int] = set()
    numbers = list(by_line)
    head = True
    for place, index in enumerate(numbers):
        below = by_line[numbers[place + 1]][0] if place + 1 < len(numbers) else None
        line, here = texts[index].tokens, by_line[index]
        if (
            _explains(line, here, fill)
            or _speaks_of_marks(line, here)
            or (head and below is not None and _shows(line, here, below, fill))
        ):
            gone.add(index)
        elif any(_begins(mark) for mark in here):
            head = False
    kept = [mark for mark in marks if mark.line not in gone]
    return kept if any(mark.strength >= 1 for mark in kept) else list(marks)


def _explains(line: Sequence[Token], told: Sequence[Mark], fill: Fill) -> bool:
    """Whether a line speaks of counting, gives counts one after another, and has no steps for them."""
    counts = sum(len(mark.places) for mark in told)
    if counts < _RHYTHM or not {token.low for token in line[: told[0].first]} & _COUNTING or _parts_words(line, told):
        return False
    before, after = _around(line, told)
    return len(before) > 1 and min(fill(before, counts), fill(after, counts)) >= 1


def _shows(line: Sequence[Token], told: Sequence[Mark], below: Mark, fill: Fill) -> bool:
    """Whether a line above all steps gives counts one after another, and those below it begin anew."""
    places = [place for mark in told for place in mark.places]
    halved = any(place.sub for place in places)
    if len(places) < (_FEW if halved else _RHYTHM) or not _begins(below) or _parts_words(line, told):
        return False
    if any(mark.spread for mark in told) or len(line) == told[-1].last - told[0].first:
        return False
    before, after = _around(line, told)
    return min(fill(before, len(places)), fill(after, len(places))) >= 1


def _speaks_of_marks(line: Sequence[Token], told: Sequence[Mark]) -> bool:
    """Whether a line says what its counts mean: "the <1> at the end of a paragraph is count one of the next"."""
    numbers = [mark.start.number for mark in told if mark.start.number is not None]
    goes_on = any(after == before + 1 for before, after in pairwise(numbers))
    return not goes_on and len(_ABOUT_MARKS.findall(" ".join(token.low for token in line))) > 1


def _begins(mark: Mark) -> bool:
    """Whether counts begin with a mark: with 1, or the half beat before it."""
    return mark.start.number == 1 or (mark.start.number == 0 and bool(mark.start.sub))


def _parts_words(line: Sequence[Token], told: Sequence[Mark]) -> bool:
    """Whether words stand between the counts of a line."""
    inside = {at for mark in told for at in range(mark.first, mark.last)}
    return any(line[at].kind == "word" for at in range(told[0].first, told[-1].last) if at not in inside)


def _around(line: Sequence[Token], told: Sequence[Mark]) -> tuple[Sequence[Token], Sequence[Token]]:
    """Return the words of the sentence before the counts of a line, and those after them."""
    last = told[0].first
    while last and line[last - 1].text in _BETWEEN:
        last -= 1
    start = next((at + 1 for at in range(last - 1, -1, -1) if line[at].text in _BETWEEN), 0)
    return line[start : told[0].first], line[told[-1].last :]
