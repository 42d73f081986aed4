"""Ranges of which only some counts are told again in their line: "1-4 R fwd, L fwd, shuffle fwd (3&4)".

The range counts the line, and what is told again only adds the halves: such a line counts 1 2 3 & 4. Where the marks
within give all counts of the range one by one it only sums them up, and is left to `chain.py`.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.text.layout import Line

_LEAST = 3
"""A range of fewer counts has no part that is worth telling again."""


def with_parts(texts: Sequence[Line], marks: Sequence[Mark], phrase: int) -> tuple[list[Line], list[Mark]]:
    """Return lines and marks; a range has the halves that its line tells, and marks that told them are gone."""
    lines = list(texts)
    marks = _counted_on(marks, phrase)
    kept = list(marks)
    for outer in marks:
        if not outer.spread or len(outer.places) < _LEAST or any(place.sub for place in outer.places):
            continue
        at = next((index for index, mark in enumerate(kept) if mark is outer), None)
        parts = _parts(kept, at) if at is not None else []
        if at is None or not parts:
            continue
        kept[at] = replace(outer, places=_refined(outer, parts), spread=False)
        for part in reversed(parts):
            line = lines[part.line]
            lines[part.line] = replace(line, tokens=line.tokens[: part.first] + line.tokens[part.last :])
            kept = [_moved(mark, part) for mark in kept if mark is not part]
    return lines, kept


def _counted_on(marks: Sequence[Mark], phrase: int) -> list[Mark]:
    """Return marks, halves that the line of a later range tells from 1 on as those of it: "9-16 ..., shuffle (3&4)"."""
    done = list(marks)
    for at, outer in enumerate(marks):
        first = outer.start.number or 0
        if not outer.spread or len(outer.places) < _LEAST or first <= phrase:
            continue
        beside = [index for index, mark in enumerate(marks) if mark.line == outer.line and index > at]
        told = [marks[index] for index in beside]
        base = (first - 1) // phrase * phrase
        halves = all(any(place.sub for place in mark.places) and len(mark.places) > 1 for mark in told)
        low = all(place.number and place.number <= phrase for mark in told for place in mark.places)
        if halves and low:
            for index in beside:
                places = tuple(Place(base + (place.number or 0), place.sub) for place in marks[index].places)
                done[index] = replace(marks[index], places=places)
    return done


def _parts(marks: Sequence[Mark], at: int) -> list[Mark]:
    """Return the marks that tell a part of a range with halves; none where its line or the next tells it all."""
    outer = marks[at]
    numbers = {place.number for place in outer.places}
    within: list[Mark] = []
    for mark in marks[at + 1 :]:
        if not {place.number for place in mark.places} <= numbers:
            break
        if mark.line != outer.line:
            return []
        within.append(mark)
    told = [place.number for mark in within for place in mark.places if not place.sub]
    rises = told == sorted(set(told), key=lambda number: number or 0)
    if not rises or set(told) >= numbers:
        return []
    return [mark for mark in within if any(place.sub for place in mark.places) and len(mark.places) > 1]


def _refined(outer: Mark, parts: Sequence[Mark]) -> tuple[Place, ...]:
    """Return the counts of a range with those that its parts tell in the place of its own."""
    places = list(outer.places)
    for part in parts:
        numbers = {place.number for place in part.places}
        first = next(index for index, place in enumerate(places) if place.number in numbers)
        rest = [place for place in places[first:] if place.number not in numbers]
        places = [*places[:first], *part.places, *rest]
    return tuple(places)


def _moved(mark: Mark, gone: Mark) -> Mark:
    """Return a mark with its place in a line from which another is gone."""
    if mark.line != gone.line or mark.first < gone.last:
        return mark
    width = gone.last - gone.first
    return replace(mark, first=mark.first - width, last=mark.last - width)
