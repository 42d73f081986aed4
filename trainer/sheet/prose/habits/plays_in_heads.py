"""The play of a phrased dance told by the headings of its parts and extras alone.

"Part A, 16 counts. Danced first, third and sixth", "Tag (danced 4th)": where the places of all headings together are
those from the first on, once each, the play is told as one line above them. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_HEAD = re.compile(
    r"^(?:[^\w ]+ )*(?:(?:part|the) )*(?P<name>"
    rf"[a-h]|{'|'.join(SONG_PARTS)}|(?:tag|bridge)(?: \d(?! (?:st|nd|rd|th)))?)(?!\w)"
)
_DANCED = {"danced", "dance", "done", "comes", "come", "used", "played", "goes", "occurs", "appears"}
_BEFORE = {"this", "it", "is", "are", "to", "be", "we", "you", "always", "only", "part", "the"}
_BESIDE = {
    "and", "&", ",", "as", "the", "again", "also", "once", "twice", "only", "part", "parts", "place", "places", "one",
    "number", "numbers", "no", "nos", "item", "then", "both",
}  # fmt: skip
"""Words that a place of the play is told with; others tell something else: "danced after the first B"."""
_NUMBERED = {"part", "parts", "place", "places", "number", "numbers", "no", "nos", "item"}
_ENDINGS = {"st", "nd", "rd", "th"}
_OPENS = {"(", "[", ",", ":", "-", BREAK}
_LENGTHS = {"counts", "count", "cts", "beats"}
_ENDS = {".", "!", ";", "(", ")", "[", "]"}
_FEWEST = 2
"""Headings."""
_SHORTEST = 3
"""Places of a play."""


class _Told(NamedTuple):
    """What a heading tells of the play: what is danced, at which places, and in which of its tokens it does so."""

    name: tuple[Token, ...]
    places: tuple[int, ...]
    first: int
    last: int


def with_play_in_heads(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a play told as one above the first of the headings, which lose what they say of it."""
    told = {at: one for at, line in enumerate(lines) if (one := _told(line)) is not None}
    order = sorted((place, at) for at, one in told.items() for place in one.places)
    counted = [place for place, _ in order] == list(range(1, len(order) + 1))
    if len(told) < _FEWEST or len(order) < _SHORTEST or not counted:
        return tuple(lines)
    first = min(told)
    above = max((line.number for line in lines[:first]), default=0)
    number = max(above, lines[first].number - 1)
    near = replace(lines[first].tokens[0], line=number)
    play = [word_like(near, "Order"), mark_like(near, ":")]
    for _, at in order:
        play += [*(word_like(near, token.text) for token in told[at].name), mark_like(near, ",")]
    done = [_without(line, told[at]) if at in told else line for at, line in enumerate(lines)]
    return (*done[:first], replace(lines[first], number=number, tokens=tuple(play[:-1]), source=""), *done[first:])


def _without(line: Line, told: _Told) -> Line:
    return replace(line, tokens=(*line.tokens[: told.first], *line.tokens[told.last :]), source="")


def _told(line: Line) -> _Told | None:
    """Return what a heading tells of the play."""
    head = _HEAD.match(line.words)
    if head is None:
        return None
    named = len(line.words[: head.end()].split())
    name = line.tokens[named - len(head["name"].split()) : named]
    for first, last in _clauses(line.tokens):
        verb = next((at for at in range(max(first, named), last) if line.tokens[at].low in _DANCED), None)
        if verb is None:
            continue
        begin = verb
        while begin > max(first, named) and line.tokens[begin - 1].low in _BEFORE:
            begin -= 1
        opens = begin > named and line.tokens[begin - 1].text in _OPENS
        if not (opens or begin in (first, named) or line.tokens[begin - 1].low in _LENGTHS):
            continue
        if places := _places(line.tokens[verb + 1 : last]):
            closing = last < len(line.tokens) and line.tokens[last].text in _ENDS - {"(", "["}
            return _Told(tuple(name), places, begin - opens, last + closing)
    return None


def _clauses(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Yield where the sentences and brackets of a line begin and end."""
    first = 0
    for at, token in enumerate(tokens):
        if token.text in _ENDS:
            yield first, at
            first = at + 1
    yield first, len(tokens)


def _places(tokens: Sequence[Token]) -> tuple[int, ...]:
    """Return the places that are told behind "danced"; none where anything else is told with them."""
    found: list[int] = []
    numbered = any(token.low in _NUMBERED for token in tokens)
    for at, token in enumerate(tokens):
        if token.low in ORDINALS:
            found.append(ORDINALS[token.low])
        elif token.text.isdecimal() and (numbered or any(one.low in _ENDINGS for one in tokens[at + 1 : at + 2])):
            found.append(int(token.text))
        elif token.low not in _BESIDE | _ENDINGS and token.kind != "mark":
            return ()
    return tuple(sorted(set(found)))
