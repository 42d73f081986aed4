"""Bars of which some are counted from one in themselves: "Bar 6. Long step right (count 1), draw left (counts 2-3)".

Where the bars above and below have no counts they are three or four counts each, and all of them count on through the
dance. A sheet whose bars are all counted, or go on from one another, counts by itself.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from trainer.sheet.prose.counts.marks import Mark, bar_mark, marks_in
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Bars of a sheet that is told in bars."""
_SURE = 0.7
"""The strength of a mark that is no mere number in a sentence."""


@dataclass(slots=True)
class _Bar:
    """One bar: where its head ends, and its lines with what may count it."""

    number: int
    head: int
    lines: list[int]
    marks: list[Mark] = field(default_factory=list)


def with_bars_counted_on(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the counts of bars that begin again from one going on from the bars before."""
    length = phrase_of(lines) // 2
    bars = _bars(lines, length)
    counted = [bar for bar in bars if bar.marks]
    anew = [bar.marks[0].start.number == 1 for bar in counted if bar.number > 1]
    # One bar that begins with another count than the first is a fault of the sheet.
    if len(bars) < _LEAST or len(bars) == len(counted) or sum(anew) <= anew.count(False):
        return tuple(lines)
    done = list(lines)
    for bar in bars:
        for index in bar.lines:
            tokens = _counted_on(done[index].tokens, [mark for mark in bar.marks if mark.line == index], bar, length)
            if index == bar.lines[0]:
                tokens = (*(() if bar.marks else _as_counts(tokens[0], bar, length)), *tokens[bar.head :])
            done[index] = replace(done[index], tokens=tokens)
    return tuple(done)


def _as_counts(first: Token, bar: _Bar, length: int) -> tuple[Token, ...]:
    """Return the head of a bar without counts as the range of its counts in the dance."""
    ends = (str((bar.number - 1) * length + 1), "-", str(bar.number * length))
    return tuple(
        replace(
            first, kind="mark" if text == "-" else "number", text=text, low=text, column=first.column + at, glued=at > 0
        )
        for at, text in enumerate(ends)
    )


def _bars(lines: Sequence[Line], length: int) -> list[_Bar]:
    """Return the bars that lines open with their number, each with the lines that go on right below."""
    bars: list[_Bar] = []
    for index, line in enumerate(lines):
        head = bar_mark(line.tokens, length)
        if head is not None and len(head.places) == length and head.last < len(line.tokens):
            bars.append(_Bar((head.start.number or 0) // length + 1, head.last, [index]))
        elif head is None and bars and bars[-1].lines[-1] == index - 1 and _goes_on(lines[index - 1], line):
            bars[-1].lines.append(index)
            head = None
        else:
            continue
        bars[-1].marks += [
            mark
            for mark in marks_in(line.tokens, index)
            if mark.first >= (head.last if head else 0) and (mark.strength >= _SURE or mark.closed)
        ]
    return bars


def _goes_on(above: Line, line: Line) -> bool:
    """Whether a line stands right below another and goes on in the middle of its sentence."""
    below = line.number == above.tokens[-1].line + 1
    return below and (line.tokens[0].text[0].islower() or above.tokens[-1].text not in (".", "!", ")"))


def _counted_on(tokens: tuple[Token, ...], marks: Sequence[Mark], bar: _Bar, length: int) -> tuple[Token, ...]:
    """Return the words of a bar's line with its counts as they stand in the whole dance."""
    done = list(tokens)
    for mark in marks:
        wholes = iter(place.number for place in mark.places if place.number and not place.sub)
        ends = (mark.start.number, mark.end.number)
        for at in range(mark.first, mark.last):
            number = _number(done[at])
            if number is not None and (number in ends or number == next(wholes, None)):
                told = str((bar.number - 1) * length + number)
                done[at] = replace(done[at], kind="number", text=told, low=told)
    return tuple(done)


_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4}


def _number(token: Token) -> int | None:
    return int(token.text) if token.text.isdecimal() else _WORDS.get(token.low)
