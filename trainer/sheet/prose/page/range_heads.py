"""Headings that name counts, bars or lines, over lines that count inside them: "Bars 3 and 4: Two twinkles".

Such a heading is known by what it stands over: a unit noun and numbers open the line, no count of
its own goes with its words, and the lines under it count from 1, or from its first number, as far as it reaches. One
alone may be chance; from two of a make on they head the sections of the sheet.
"""

import statistics
from collections.abc import Container, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS, Scan
from trainer.sheet.prose.page.wrapping import wraps
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_COUNTED = {"count", "counts", "ct", "cts", "cnt", "cnts", "beat", "beats", "step", "steps"}
"""Nouns whose numbers are counts of the dance."""
_GROUPED = {
    "bar", "bars", "measure", "measures", "line", "lines", "row", "rows", "figure", "figures", "fig", "figs", "section",
    "sections", "sec", "phrase", "phrases", "set", "sets", "pattern", "patterns", "block", "blocks", "group", "groups",
}  # fmt: skip
"""Nouns whose numbers number groups of counts."""
_LEADING = {"(", "[", "{", "<", "*", "-", "#", ">", "•", "=", "~", "|", BREAK, "the", "for"}
_BETWEEN = {"no", "nos", "number", "numbers", "nr", ".", "#", ":"}
_SURE = 1.0
"""The strength of a mark that is no number among words."""
_BAR = (3, 4)
"""Counts of a bar."""
_OWN = 1.4
"""The strength of a mark that counts the words beside it."""


@dataclass(frozen=True, slots=True)
class _Opening:
    """The numbers that open a line, and what they number."""

    index: int
    noun: str
    first: int
    last: int
    rest: int
    """The token after them."""


def with_range_heads(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those that head lines which count inside them marked so."""
    openings = [opening for index, line in enumerate(lines) if (opening := _opening(line, index)) is not None]
    over: list[_Opening] = []
    after: list[int] = []
    for place, opening in enumerate(openings):
        later = (one.index for one in openings[place + 1 :] if one.noun == opening.noun and not _lies_in(one, opening))
        end = next(later, len(lines))
        if _counts_inside(lines, opening, end, after):
            over.append(opening)
        after = [number + 1 for number in _numbers(lines[opening.index + 1 : end])]
    makes = [opening.noun for opening in over]
    heads = {opening.index for opening in over if makes.count(opening.noun) > 1} | _numbered_eights(lines)
    bars = {
        noun for noun in makes if makes.count(noun) > 1 and _are_bars([one for one in over if one.noun == noun], lines)
    }
    return tuple(
        replace(line, heads=index in heads, tokens=_as_bars(line.tokens, bars)) for index, line in enumerate(lines)
    )


def _lies_in(inner: _Opening, outer: _Opening) -> bool:
    """Whether numbers count inside those of a heading: "Counts 1 to 4 are ..." under "Counts 1 to 8."."""
    inside = outer.first <= inner.first and inner.last <= outer.last
    return inside and inner.last - inner.first < outer.last - outer.first


def _numbered_eights(lines: Sequence[Line]) -> set[int]:
    """Return the lines that are no more than "8 one", "8 #2", "eight no. 3", numbered from one on."""
    found: list[int] = []
    alone = {index: line.tokens[0].low for index, line in enumerate(lines) if len(line.tokens) == 1}
    eights = [index for index, word in alone.items() if word in ("8", "eight")]
    if len(eights) > 1 and not any(word.isdecimal() and word != "8" for word in alone.values()):
        return set(eights)
    for index, line in enumerate(lines):
        words = [token.low for token in line.tokens if token.low not in _BETWEEN and token.text not in _LEADING]
        if len(words) != 2 or words[0] not in ("8", "eight", "6", "six"):
            continue
        if (NUMBERS.get(words[1]) or (int(words[1]) if words[1].isdecimal() else 0)) == len(found) + 1:
            found.append(index)
    return set(found) if len(found) > 1 else set()


def _are_bars(openings: Sequence[_Opening], lines: Sequence[Line]) -> bool:
    """Whether what headings number by twos or more is as long as a bar: "Lines 3 and 4" over eight counts."""
    if openings[0].noun in ("bar", "measure", *_COUNTED):
        return False
    lengths = []
    for opening, after in pairwise(openings):
        units = opening.last - opening.first + 1
        marks = [mark for line in lines[opening.index + 1 : after.index] for mark in marks_in(line.tokens, 0)]
        counts = sum(len(mark.places) for mark in marks if mark.strength >= _SURE)
        lengths.append(counts / units if units > 1 else 0)
    return bool(lengths) and statistics.median_low(lengths) in _BAR


def _as_bars(tokens: tuple[Token, ...], nouns: Container[str]) -> tuple[Token, ...]:
    """Return tokens with a noun that numbers bars read as bar, before a number: "after line 4"."""
    if not nouns:
        return tokens
    return tuple(
        replace(token, low="bars" if token.low.endswith("s") else "bar")
        if token.low.rstrip("s") in nouns and (after.kind == "number" or after.low in NUMBERS)
        else token
        for token, after in zip(tokens, (*tokens[1:], tokens[-1]), strict=True)
    )


def opens_with_range(tokens: Sequence[Token]) -> bool:
    """Whether words begin with a unit noun and its numbers: "Bars 15 and 16: the finish"."""
    return _opening(Line(0, tuple(tokens), 0), 0) is not None


def _opening(line: Line, index: int) -> _Opening | None:
    """Return the numbers that open a line."""
    at = 0
    while at < len(line.tokens) and line.tokens[at].low in _LEADING:
        at += 1
    if at >= len(line.tokens) or line.tokens[at].low not in _COUNTED | _GROUPED:
        return None
    noun, at = line.tokens[at].low.rstrip("s"), at + 1
    while at < len(line.tokens) and line.tokens[at].low in _BETWEEN:
        at += 1
    scan = Scan(line.tokens, at, in_bracket=True)
    scan.run()
    numbers = [place.number for place in scan.places if place.number is not None]
    if not numbers or any(place.sub and not scan.other for place in scan.places):
        return None
    return _Opening(index, noun, numbers[0], numbers[-1], scan.at)


def _counts_inside(lines: Sequence[Line], opening: _Opening, end: int, after: Sequence[int]) -> bool:
    """Whether the lines under a heading, up to the next of its make, count inside it, and its own words have none.

    `after` holds the count that would go on from the lines under the heading before.
    """
    line = lines[opening.index]
    rest = line.tokens[opening.rest :]
    if any(mark.strength >= _OWN and not (mark.closed and mark.spread) for mark in marks_in(rest, 0)):
        return False
    if opening.index + 1 == end or wraps(line, lines):
        return False
    begins = {1, opening.first} if opening.noun not in _GROUPED else {1, *_first_of_range(rest), *after}
    reach: list[int] = []
    for index in range(opening.index + 1, end):
        for mark in marks_in(lines[index].tokens, index):
            number = mark.start.number
            if mark.strength < _SURE or number is None:
                continue
            if not reach and number not in begins:
                return False
            if reach and number not in (reach[-1], reach[-1] + 1):
                return len(reach) > 1
            reach += [place.number for place in mark.places if place.number is not None]
            if reach[-1] in (opening.last, opening.last - opening.first + 1) and len(reach) > 1:
                return True
    return len(reach) > 1


def _first_of_range(rest: Sequence[Token]) -> list[int]:
    """The first count of a range in brackets: "FIGURE 2 (counts 13-24)"."""
    return [mark.start.number for mark in marks_in(rest, 0) if mark.closed and mark.spread and mark.start.number]


def _numbers(lines: Sequence[Line]) -> list[int]:
    """The last counts of the marks of some lines."""
    ends = [mark.end.number for line in lines for mark in marks_in(line.tokens, 0) if mark.strength >= _SURE]
    return [number for number in ends if number is not None]
