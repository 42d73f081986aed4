"""The play of a phrased dance told by its parts' headings alone.

"Part A, 16 counts. Danced first, third and sixth." Where the places that the headings give come to each number from
one on, once each, they are told as a line of the play. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_HEAD = re.compile(rf"^(?:[^\w ]+ )*(?:(?:part|the) )*(?P<name>[a-h]|{'|'.join(SONG_PARTS)})\b")
_DANCED = re.compile(
    r"^(?:[^\w ]+ )*(?:(?:this|it|the|part|[a-h]|we|you|always|only|is|are) )*"
    r"(?:danced?|comes?|done|do|used|played|heard|appears|stands|goes|occurs|taken)\b"
)
_PLACE = re.compile(rf"\b({'|'.join(ORDINALS)})\b|\b(\d{{1,2}}) (?:st|nd|rd|th)\b")
_NUMBERS = re.compile(r"\b(?:parts?|numbers?|nos?|places?)(?: \.)? ((?:\d{1,2}(?: ?(?:,|and|&|, and) )?)+)(?!\S)")
_WALLS = re.compile(r"\b(?:walls?|counts?|verse of|time through)\b")
_ENDS = {".", "!", ";"}
_FEWEST = 2
"""Parts."""
_SHORTEST = 3
"""Places of a play."""


class _Told(NamedTuple):
    """What a heading tells of the play: its part, at which places, and in which of its tokens."""

    name: Token
    places: tuple[int, ...]
    first: int
    last: int


def with_play_in_heads(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a play told as one above the first of the headings."""
    told = {at: one for at, line in enumerate(lines) if (one := _told(line)) is not None}
    order = sorted((place, at) for at, one in told.items() for place in one.places)
    names = {one.name.low for one in told.values()}
    counted = [place for place, _ in order] == list(range(1, len(order) + 1))
    if len(names) < _FEWEST or len(names) < len(told) or len(order) < _SHORTEST or not counted:
        return tuple(lines)
    first = min(told)
    begin = lines[first].tokens[told[first].first]
    play = [word_like(begin, "sequence"), mark_like(begin, ":")]
    for _, at in order:
        play += [told[at].name, mark_like(begin, ",")]
    done: list[Line] = []
    for at, line in enumerate(lines):
        if at == first:
            done.append(replace(line, tokens=tuple(play[:-1]), source=""))
        done.append(_without(line, told[at]) if at in told else line)
    return tuple(done)


def _without(line: Line, told: _Told) -> Line:
    return replace(line, tokens=(*line.tokens[: told.first], *line.tokens[told.last :]), source="")


def _told(line: Line) -> _Told | None:
    """Return what a heading tells of the play, in a sentence of its own."""
    head = _HEAD.match(line.words)
    if head is None:
        return None
    name = next((token for token in line.tokens if token.low == head["name"]), None)
    if name is None:
        return None
    first = 0
    for at, token in enumerate(line.tokens):
        last = at == len(line.tokens) - 1
        if not (token.text in _ENDS or last):
            continue
        if first and (places := _places(line.tokens[first : at + 1])):
            closing = at + 1 if token.text in _ENDS or token.kind != "mark" else at
            return _Told(name, places, first, closing)
        first = at + 1
    return None


def _places(tokens: Sequence[Token]) -> tuple[int, ...]:
    """Return the places that a sentence gives to a part; none where it tells anything else."""
    words = " ".join(token.low for token in tokens)
    if not _DANCED.match(words) or _WALLS.search(words):
        return ()
    found = [ORDINALS[one[1]] if one[1] else int(one[2]) for one in _PLACE.finditer(words)]
    found += [int(number) for listed in _NUMBERS.finditer(words) for number in re.findall(r"\d+", listed[1])]
    return tuple(sorted(set(found)))
