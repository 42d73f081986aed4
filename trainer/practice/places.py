"""Finding a place of the dance by what a dancer types: "wall 4", "w4 s3", "tag gate", "count 20", "wall 2 5-12".

A word is known by its beginning, a number belongs to the word before it; a number alone may be a wall, a section or a
count. Counts without a wall are those of the wall where the dancer is.
"""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.practice.chart import Chart
from trainer.practice.roadmap import (
    Stop,
    WallRow,
    beat_of,
    counts_stop,
    road_map,
    row_at,
    stops_of,
)

_TOKEN = re.compile(r"\d+\s*[-–]\s*\d+|\d+|[^\W\d_]+")
_RANGE = re.compile(r"(\d+)\s*[-–]\s*(\d+)")
_ALIASES = {"brg": "bridge", "rst": "restart", "chg": "change"}

Pair = tuple[str, str]
"""A word and the number or name that stands with it; either may be empty."""


def asked(text: str) -> tuple[Pair, ...]:
    """Return what was typed as words with their numbers, in plain small letters."""
    pairs: list[Pair] = []
    for token in _TOKEN.findall(text.casefold()):
        if token[0].isdigit() and pairs and pairs[-1][0] and not pairs[-1][1]:
            pairs[-1] = (pairs[-1][0], token)
        elif token[0].isdigit():
            pairs.append(("", token))
        else:
            pairs.append((_ALIASES.get(token, token), ""))
    return tuple(pairs)


def found(chart: Chart, text: str, at: Fraction) -> tuple[Stop, ...]:
    """Return the places that a text means, the likeliest first; every wall for an empty one.

    `at` is the beat where the dancer is.
    """
    rows = road_map(chart)
    pairs = asked(text)
    here = row_at(rows, at)
    if not pairs:
        return tuple(_wall(row) for row in rows)
    ranges = list(_counts(chart, rows, here, pairs))
    named = [stop for row in rows for stop, keys in _named(chart, row) if all(_has(keys, pair) for pair in pairs)]
    named.sort(key=lambda stop: (stop.kind != "wall", stop.wall != here.number, stop.first))
    walls = [stop for stop in named if stop.kind == "wall"]
    others = [stop for stop in named if stop.kind != "wall"]
    return tuple(dict.fromkeys((*walls, *(ranges if walls else ()), *others, *ranges)))


def _wall(row: WallRow) -> Stop:
    return Stop(row.number, row.part, "wall", "", row.first, row.last, "")


def _named(chart: Chart, row: WallRow) -> Iterator[tuple[Stop, tuple[Pair, ...]]]:
    """Yield a wall, its sections and extras, and where it is left, each with the words that it is known by."""
    own: tuple[Pair, ...] = (("wall", str(row.number)),)
    if row.part:
        own += (("part", row.part.casefold()),)
    yield _wall(row), own
    for stop in stops_of(chart, row):
        words = [stop.kind, *stop.name.casefold().split()]
        names: tuple[Pair, ...] = tuple((word, "") for word in words)
        yield stop, (*own, *names, (stop.kind, stop.name.casefold()))
    for mark in row.marks:
        if mark.kind in ("RESTART", "END") and not mark.counts:
            last = mark.beat
            title = f"{mark.kind.lower()} after {mark.after}"
            stop = Stop(row.number, row.part, mark.kind.lower(), "", last - 1, last, title)
            yield stop, (*own, (mark.kind.lower(), str(mark.after)), ("after", str(mark.after)))


def _has(keys: Sequence[Pair], pair: Pair) -> bool:
    """Whether a place has a word that begins as typed, with the number typed behind it."""
    word, value = pair
    if not word:
        return any(value == number for _, number in keys)
    if not value:
        return any(name.startswith(word) for name, _ in keys)
    return any(name.startswith(word) and number == value for name, number in keys)


def _counts(chart: Chart, rows: Sequence[WallRow], here: WallRow, pairs: Sequence[Pair]) -> Iterator[Stop]:
    """Yield the counts that were typed, on the wall that was typed or else where the dancer is."""
    wall, count = "", ""
    for word, value in pairs:
        if word and "wall".startswith(word) and value.isdigit():
            wall = value
        elif value and (not word or "counts".startswith(word)):
            count = value
        else:
            return
    row = next((row for row in rows if str(row.number) == wall), None) if wall else here
    if row is None or not count:
        return
    between = _RANGE.fullmatch(count)
    numbers = (int(between[1]), int(between[2])) if between else (int(count), int(count))
    first, last = beat_of(chart, row, numbers[0]), beat_of(chart, row, numbers[1])
    if first is not None and last is not None and first <= last:
        yield counts_stop(chart, first, last + 1)
