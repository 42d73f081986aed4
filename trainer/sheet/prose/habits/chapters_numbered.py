"""Chapters of a sheet, numbered through: "1. General", "2. Lead-in", "3. Assembly 1" is "Assembly 1".

So it is where lines that are numbered on from 1 head what stands below them, and are no sections: two of them number
the sections themselves, or the first has the facts of the dance and no steps.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.heads.series import places_of
from trainer.sheet.prose.lexis.vocabulary import ROMAN
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 4
"""Fewer lines are no chapters."""
_LONGEST = 16
"""Tokens of a chapter's heading."""
_NUMBERED = 2
_LONG_NUMBER = 3
_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_OPENS = {"(", "[", "§", "#"}
_CLOSES = {".", ")", "]", ":", "-", "/", BREAK}
_CALLED = {"item", "chapter", "no", "nr", "point", "para", "paragraph", "article", "clause", "heading", "ch", "topic"}
"""Words before the number of a chapter."""
_SECTIONS = {"section", "sections", "sec", *_CALLED}
"""Words with which a chapter may be spoken of."""


class _Lead(NamedTuple):
    """The number that opens a line."""

    written: tuple[str, ...]
    """How: the words and marks around it, and whether it is a Roman one, or a letter."""
    number: int
    end: int
    """Index of the first token of the heading."""


def without_chapter_numbers(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without the numbers of chapters."""
    opened: dict[tuple[str, ...], dict[int, _Lead]] = defaultdict(dict)
    for at, line in enumerate(lines):
        for lead in _leads(line.tokens):
            opened[lead.written][at] = lead
    for leads in opened.values():
        places = list(leads)
        numbers = [leads[at].number for at in places]
        if len(places) < _LEAST or any(b != a + 1 for a, b in pairwise(numbers)):
            continue
        if any(b == a + 1 for a, b in pairwise(places)):
            continue
        plain = numbers[0] == 1 and "A" not in leads[places[0]].written
        if _number_sections(lines, leads) or (plain and _open_with_facts(lines, leads)):
            ends = {at: leads[at].end for at in places}
            return tuple(
                replace(line, tokens=line.tokens[ends[at] :], indent=line.tokens[ends[at]].column - 1)
                if at in ends
                else line
                for at, line in enumerate(lines)
            )
    return tuple(lines)


def _leads(tokens: Sequence[Token]) -> Iterator[_Lead]:
    """Yield the numbers that a heading may open with."""
    at = 0
    while at < min(len(tokens), _NUMBERED) and (tokens[at].text in _OPENS or tokens[at].low in _CALLED):
        at += 1
    if at >= len(tokens) or len(tokens) > _LONGEST:
        return
    end = at + 1
    while end < len(tokens) and tokens[end].text in _CLOSES:
        end += 1
    if end >= len(tokens) or tokens[end].kind != "word" or not (end > at + 1 or at or tokens[end].text[0].isupper()):
        return
    before, behind = [token.low for token in tokens[:at]], [token.text for token in tokens[at + 1 : end]]
    for kind, value in _values(tokens[at]):
        yield _Lead((*before, kind, *behind), value, end)


def _values(token: Token) -> Iterator[tuple[str, int]]:
    """Yield what a token may number: I is the first of Romans and the ninth of letters."""
    if token.kind == "number" and token.text.isdecimal() and len(token.text) < _LONG_NUMBER:
        yield "1", int(token.text)
    if token.text.isupper() and token.low in ROMAN:
        yield "I", ROMAN[token.low]
    if len(token.text) == 1 and "A" <= token.text <= "Z":
        yield "A", ord(token.text) - ord("A") + 1


def _number_sections(lines: Sequence[Line], leads: Mapping[int, _Lead]) -> bool:
    """Whether the headings number the sections on their own, "3. Assembly 1", "4. Assembly 2"."""
    told: dict[tuple[str, str], list[int]] = defaultdict(list)
    for at in leads:
        for place in places_of(lines[at].tokens[leads[at].end :])[:1]:
            if place.first == place.last != leads[at].number:
                told[place.before, place.written].append(place.first)
    return any(len(own) >= _NUMBERED and own == list(range(1, len(own) + 1)) for own in told.values())


def _open_with_facts(lines: Sequence[Line], leads: Mapping[int, _Lead]) -> bool:
    """Whether the first chapter states facts of the dance and no steps, others have steps, and none is spoken of."""
    places = list(leads)
    first, *others = _chapters(lines, places)
    facts = header_facts([line.tokens for line in first[1:]])
    stated = sum(one is not None for one in (facts.counts, facts.walls, facts.starts, facts.wait))
    spoken_of = any(
        one.low in _SECTIONS and two.text.isdecimal()
        for at, line in enumerate(lines)
        if at not in leads
        for one, two in zip(line.tokens, line.tokens[1:], strict=False)
    )
    named = any(extra_kind(lines[at].tokens[leads[at].end :]) for at in places[1:])
    return bool(
        stated and named and not spoken_of and not _has_rows(first) and sum(map(_has_rows, others)) >= _NUMBERED
    )


def _chapters(lines: Sequence[Line], places: Sequence[int]) -> Iterator[Sequence[Line]]:
    for first, after in zip(places, (*places[1:], len(lines)), strict=True):
        yield lines[first:after]


def _has_rows(chapter: Sequence[Line]) -> bool:
    """Whether a line below the heading opens with counts."""
    marks = (marks_in(line.tokens, 0)[:1] for line in chapter[1:])
    return any(mark.first == 0 and mark.strength >= _SURE for found in marks for mark in found)
