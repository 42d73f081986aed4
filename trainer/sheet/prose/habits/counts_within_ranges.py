"""Counts told once more within the words of a range: "1-4 stomp R, hold 2, 3, 4", told as "1 stomp R 2-4 hold".

So a single row may be told on a page whose counts stand before their words: the numbers behind its words are those of
its range, from its first to its last, or the last of them. Where all of its counts stand behind their words in
brackets, "1-3 Step left (1), sweep right (2-3)", the range is told no more. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, number_like
from trainer.sheet.prose.words import Token

_RANGE = re.compile(
    r"^(?P<open>[\[(] )?(?:(?:counts?|beats?) )?(?P<first>\d{1,2}) - (?P<last>\d{1,2}) (?:[\])] )?(?:[:.|] )?"
)
_IN_WORDS = re.compile(rf"^(?:{'|'.join(NUMBERS)})(?: - (?:{'|'.join(NUMBERS)}))+(?= )")
_SPANNING = {"on", "over", "for", "during", "through", "counts"}
_WITHIN = re.compile(r"\b(?:on|over|for|during|through|counts) \d and \d\b")
_LEAST = 2
"""Counts of a range in which some may be told once more."""
_PHRASE = 8
_ON = {"on", "over", "for", "count", "counts", "beat", "beats"}
_JOINS = {",", "-", "and", "&"}
_TIMES = {"x", "times", "*"}
_OTHER = {"counts", "count", "beats", "times", "x", "steps", "o'clock", "hours", "walls", "wall", "more"}
"""Behind a number that is no count of the row."""


class _Group(NamedTuple):
    """Numbers behind some words: their tokens, and the first and the last of them."""

    begin: int
    end: int
    first: int
    last: int
    bare: bool
    """A single number, and nothing that makes it a count: as likely how often something is done."""


def with_counts_within_ranges(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each step of such rows told behind its own counts; where most rows are so, it is no slip."""
    lines = [_without_range(line) for line in _in_figures(lines)]
    ranges = sum(_RANGE.match(line.words) is not None for line in lines)
    told = {at: anew for at, line in enumerate(lines) if (anew := _told(line)) is not None}
    if 2 * len(told) > ranges:
        return tuple(lines)
    return tuple(told.get(at, line) for at, line in enumerate(lines))


def _in_figures(lines: Sequence[Line]) -> Sequence[Line]:
    """Return the lines, ranges in words in figures where some of their counts are told once more in words.

    "one-two-three  Left forward, sweep right on two and three" becomes "1-3  Left forward, sweep right on 2 and 3".
    """
    told = [_figured(line) for line in lines]
    again = any(_WITHIN.search(line.words) for line in told if _RANGE.match(line.words))
    return told if again else lines


def _figured(line: Line) -> Line:
    head = _IN_WORDS.match(line.words)
    numbers = [NUMBERS[word] for word in head[0].split() if word in NUMBERS] if head else []
    if not numbers or numbers != list(range(numbers[0], numbers[-1] + 1)):
        return line
    taken = len((head[0] if head else "").split())
    first = line.tokens[0]
    tokens = [number_like(first, numbers[0]), mark_like(first, "-"), number_like(first, numbers[-1])]
    rest = list(line.tokens[taken:])
    for at in range(len(rest) - 3):
        words = [token.low for token in rest[at : at + 4]]
        if words[0] in _SPANNING and words[2] == "and" and words[1] in NUMBERS and words[3] in NUMBERS:
            rest[at + 1] = number_like(rest[at + 1], NUMBERS[words[1]])
            rest[at + 3] = number_like(rest[at + 3], NUMBERS[words[3]])
    return replace(line, tokens=(*tokens, *rest), source="")


def _without_range(line: Line) -> Line:
    """Return a line without the range that it opens with, where each of its counts is told in brackets."""
    head = _RANGE.match(line.words)
    if head is None:
        return line
    opened = head.group().count(" ")
    marks = marks_in(line.tokens[opened:], 0)
    closed = len(marks) > 1 and all(mark.closed and mark.first for mark in marks)
    told = [place.number for mark in marks for place in mark.places if place.number] if closed else []
    whole = list(range(int(head["first"]), int(head["last"]) + 1))
    spread = [number for mark in marks if mark.spread and len(mark.places) > 1 for number in _between(mark)]
    # A range of its own behind the words, in no brackets, is that of the next column.
    twice = closed and bool(whole) and sorted({*told, *spread}) == whole
    return replace(line, tokens=line.tokens[opened:], source="") if twice else line


def _between(mark: Mark) -> range:
    return range(mark.places[0].number or 0, (mark.places[-1].number or 0) + 1)


def _told(line: Line) -> Line | None:
    head = _RANGE.match(line.words)
    if head is None:
        return None
    first, last = int(head["first"]), int(head["last"])
    opened = head.group().count(" ")
    if any(token.text == "&" and token.glued for token in line.tokens[opened:]):
        # "3&4" has a half beat, which a range would lose.
        return None
    if not _LEAST <= last - first + 1 <= _PHRASE or opened >= len(line.tokens) or line.tokens[opened].kind != "word":
        return None
    groups = list(_groups(line.tokens, opened, first, last))
    if not groups or groups[-1].last != last or any(b.first <= a.last for a, b in pairwise(groups)):
        return None
    whole = groups[0].first == first and all(b.first == a.last + 1 for a, b in pairwise(groups))
    if (len(groups) == 1 and groups[0].first == groups[0].last) or (all(one.bare for one in groups) and not whole):
        return None
    tokens: list[Token] = []
    start, count = opened, first
    place = next(token for token in line.tokens if token.kind == "number")
    for group in groups:
        words = line.tokens[start : group.begin]
        own = max((at + 1 for at, token in enumerate(words[:-1]) if token.text in (",", ";")), default=0)
        if group.first > count:
            if not own:
                return None
            tokens += [*_counts(place, count, group.first - 1), *words[:own]]
            words = words[own:]
        tokens += [*_counts(place, group.first, group.last), *words]
        start, count = group.end, group.last + 1
    return replace(line, tokens=(*tokens, *line.tokens[start:]), source="")


def _groups(tokens: Sequence[Token], at: int, first: int, last: int) -> Iterator[_Group]:
    """Yield the numbers of a range that stand behind words."""
    while at < len(tokens):
        begin = at
        bracket = tokens[at].text == "("
        inside = at + bracket
        while inside < len(tokens) and tokens[inside].low in _ON and tokens[inside].low != "for":
            inside += 1
        numbers: list[int] = []
        end = inside
        while end < len(tokens) and (tokens[end].text.isdecimal() or (numbers and tokens[end].low in _JOINS)):
            if tokens[end].text.isdecimal():
                numbers.append(int(tokens[end].text))
            end += 1
        while numbers and tokens[end - 1].low in _JOINS:
            end -= 1
        if not numbers:
            at += 1
            continue
        spoken = tokens[end].low in _OTHER if end < len(tokens) else False
        closed = not bracket or (end < len(tokens) and tokens[end].text == ")")
        through = any(token.text == "-" for token in tokens[inside:end]) and len(numbers) == 2
        run = numbers == list(range(numbers[0], numbers[-1] + 1)) or through
        bare = len(numbers) == 1 and not bracket and inside == begin
        fits = first <= numbers[0] <= numbers[-1] <= last and run
        if fits and closed and not spoken and tokens[begin - 1].low not in _TIMES:
            yield _Group(begin, end + bracket, numbers[0], numbers[-1], bare)
        at = end + bracket


def _counts(place: Token, first: int, last: int) -> list[Token]:
    """Return the counts of some words as tokens: "3", "2-4"."""
    told = [replace(place, text=str(first), low=str(first), glued=False)]
    if last > first:
        told += [
            replace(place, kind="mark", text="-", low="-", glued=True),
            replace(place, text=str(last), low=str(last), glued=True),
        ]
    return told
