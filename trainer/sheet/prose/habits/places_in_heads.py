"""Places of a play behind the names of its parts and extras: "Part A (danced 1st and 4th)", "Tag - done third".

Where the places of all heads together are those from the first on, each once, the play is told as one line over the
first of them, and the heads lose what they say of it.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like

_ORDINAL = rf"(?:\d\d? (?:st|nd|rd|th)|{'|'.join(ORDINALS)})"
_HEAD = re.compile(
    r"(?P<name>(?:part )?(?P<part>[a-h])|(?P<extra>(?:tag|bridge)(?: \d)?))\b(?P<facts>[^.;!]{0,40}?) ?[(,:|-]? ?"
    r"(?:is |this is |comes |to be )?(?:danced|done|played|comes|goes|used)(?: as)?(?: the)? "
    rf"(?P<places>{_ORDINAL}(?: ?(?:,|and|&|, and)(?: the)? {_ORDINAL})*) ?\)?[.:]?"
)
_FEWEST = 3
"""Places in a play."""


@dataclass(frozen=True, slots=True)
class _Head:
    """A head that tells where what it heads is danced."""

    at: int
    name: str
    places: tuple[int, ...]
    length: int
    """Its tokens without what it says of that."""


def with_plays_out_of_heads(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, a play that the heads of its parts tell told in one line."""
    heads = [head for at, line in enumerate(lines) if (head := _head(at, line)) is not None]
    play = {place: head.name for head in heads for place in head.places}
    told = sum(len(head.places) for head in heads)
    if told < _FEWEST or len(heads) < 2 or sorted(play) != list(range(1, told + 1)):
        return tuple(lines)
    done = list(lines)
    for head in heads:
        done[head.at] = replace(lines[head.at], tokens=lines[head.at].tokens[: head.length], source="")
    first = lines[heads[0].at]
    above = max((line.number for line in lines[: heads[0].at]), default=0)
    number = max(above, first.number - 1)
    near = replace(first.tokens[0], line=number)
    tokens = [word_like(near, "Order"), mark_like(near, ":")]
    for place in range(1, told + 1):
        tokens += [mark_like(near, ",")] * (place > 1)
        tokens += [word_like(near, word) for word in play[place].split()]
    return (*done[: heads[0].at], replace(first, number=number, tokens=tuple(tokens), source=""), *done[heads[0].at :])


def _head(at: int, line: Line) -> _Head | None:
    """Return what a head says of its places, None where a line is no such head."""
    found = _HEAD.fullmatch(line.words)
    if found is None:
        return None
    places = tuple(_place(word) for word in re.findall(_ORDINAL, found["places"]))
    name = found["part"].upper() if found["part"] else found["extra"].capitalize()
    kept = line.words[: found.end("facts")].rstrip()
    return _Head(at, name, places, len(kept.split()))


def _place(word: str) -> int:
    return ORDINALS[word] if word in ORDINALS else int(word.split()[0])
