"""Ranges that only number sections, before counts from 1 on: "[9-16] 1 R behind & L side 2 ...", told as "section 2:".

Known by their order alone: such ranges open lines, are whole phrases, and each begins again at 1 or goes on from the
one above it; in each line the counts behind it go from 1 to the end of a phrase. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.text.layout import BREAK, Line

_RANGE = re.compile(
    r"^(?:[^\w ]+ )*(?:(?:counts?|cts?|beats?|steps?) )?(?P<first>\d{1,2}) (?:-|to) (?P<last>\d{1,2})"
    r"(?: (?:counts?|cts?|beats?))?(?: [\])}:.>-])*(?: \|)?(?= (?:\[ |\( )?1 )"
)
_PHRASES = (8, 6)
_FEWEST = 3


class _Range(NamedTuple):
    first: int
    last: int
    end: int
    """The token after it."""


def with_ranges_over_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such ranges told as the numbers of their sections."""
    heads = {at: found for at, line in enumerate(lines) if (found := _range(line)) is not None}
    beyond = any(head.first > 1 for head in heads.values())
    if len(heads) < _FEWEST or not beyond or not _are_in_turn(list(heads.values())):
        return tuple(lines)
    return tuple(_numbered(line, heads[at]) if at in heads else line for at, line in enumerate(lines))


def _range(line: Line) -> _Range | None:
    match = _RANGE.match(line.words)
    if match is None:
        return None
    first, last = int(match["first"]), int(match["last"])
    phrase = last - first + 1
    end = match.group().count(" ") + 1
    numbers = [int(token.text) for token in line.tokens[end:] if token.kind == "number" and token.text.isdecimal()]
    told = [number for number in numbers if number <= phrase]
    counted = [number for at, number in enumerate(told) if number == len(set(told[:at])) + 1]
    if phrase not in _PHRASES or first % phrase != 1 or counted != list(range(1, phrase + 1)):
        return None
    return _Range(first, last, end)


def _are_in_turn(heads: Sequence[_Range]) -> bool:
    """Whether each range begins anew or goes on from the one above it."""
    above = 0
    for head in heads:
        if head.first not in (1, above + 1):
            return False
        above = head.last
    return True


def _numbered(line: Line, head: _Range) -> Line:
    place = line.tokens[0]
    word = replace(place, kind="word", text="Section", low="section", glued=False, value=None)
    text = str(head.first // (head.last - head.first + 1) + 1)
    number = replace(word, kind="number", text=text, low=text)
    colon = replace(word, kind="mark", text=":", low=":", glued=True)
    rest = line.tokens[head.end :]
    rest = rest[1:] if rest[:1] and rest[0].text == BREAK else rest
    return replace(line, tokens=(word, number, colon, *rest), source="")
