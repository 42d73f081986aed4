"""Titles of sections with their length beside them, "Step Scuff x4      (8)", over lines that count so far themselves.

The number in brackets at the title's end is no count. So it is where it stands over more than one section, or part,
and each time the counts under it begin with 1 and come to it. Nor are the counts that close a line in brackets which it
opens with: "9-16 Jazz box right twice (9-16)". Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.text.layout import BREAK, Line

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_LEAST = 2
"""Sections with their length."""
_OPENS = {"(", "["}
_CLOSES = {")", "]"}


def with_no_lengths_beside(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, titles without the lengths of their sections, and counts that are told twice told once."""
    lines = [_told_once(line) for line in lines]
    marks = [[mark for mark in marks_in(line.tokens, 0) if mark.strength >= _SURE] for line in lines]
    told = {at: cut for at, line in enumerate(lines) if (cut := _length_at(line, marks[at]))}
    titles = [at for at in told if _counts_so_far(marks, at, told)]
    if len(titles) < _LEAST or len(titles) < len(told):
        return tuple(lines)
    return tuple(
        replace(line, tokens=line.tokens[: told[at]], source="") if at in told else line
        for at, line in enumerate(lines)
    )


def _told_once(line: Line) -> Line:
    """Return a line without the counts in brackets at its end that it begins with."""
    closing = bool(line.tokens) and line.tokens[-1].text in _CLOSES
    marks = marks_in(line.tokens, 0) if closing else []
    if len(marks) < _LEAST or marks[0].first > 1 or marks[-1].last != len(line.tokens):
        return line
    opening, last = marks[0], marks[-1]
    same = opening.places == last.places and len(last.places) > 1 and line.tokens[last.first].text in _OPENS
    return replace(line, tokens=line.tokens[: last.first], source="") if same else line


def _length_at(line: Line, marks: Sequence[Mark]) -> int:
    """Return where a number in brackets begins that closes a line and is its only one; 0 where none does."""
    if len(marks) != 1 or not marks[0].first or marks[0].last != len(line.tokens) or len(marks[0].places) > 1:
        return 0
    first = marks[0].first
    return (first - (line.tokens[first - 1].text == BREAK)) if line.tokens[first].text in _OPENS else 0


def _counts_so_far(marks: Sequence[Sequence[Mark]], at: int, told: dict[int, int]) -> bool:
    """Whether the counts under a title begin with 1 and come to its length, in one section or in all of a part."""
    length = marks[at][0].start.number
    sections: list[int] = []
    for index in range(at + 1, len(marks)):
        if index in told:
            break
        for number in (place.number for mark in marks[index] for place in mark.places if place.number):
            if not sections and number != 1:
                return False
            if number == 1 and (not sections or sections[-1] > 1):
                sections.append(1)
            elif number >= sections[-1]:
                sections[-1] = number
            else:
                return False
        if sum(sections) == length:
            return True
    return False
