"""Eights of a part headed by their counts, over steps that count themselves: "A, counts 9-16: walk right, left (1-2)".

Such rows are known by their order: a part's letter and a whole eight, or six, open each, and each is the next of its
part or the first of another. They are told as "A2: walk right, left (1-2)".
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import Line

_HEAD = re.compile(
    r"^(?:part )?(?P<letter>[a-h])(?: [,:(.\-|/])?(?: (?:counts?|cts?|beats?|steps?))? "
    r"(?P<first>\d{1,2}) (?:-|to|till|until|through) (?P<last>\d{1,2})(?: (?:counts?|cts?|beats?))?"
    r"(?: \))?(?: (?:[:.|=>]|-(?! \d)))?(?= |$)"
)
_PHRASES = (8, 6)
_FEWEST = 2
"""Parts that are headed so."""
_SURE = 1.0
"""The strength of a mark that is no number among words."""


class _Range(NamedTuple):
    letter: str
    first: int
    last: int
    end: int
    """The token after it."""


def with_part_ranges(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rows told by the number of their eight."""
    heads = {at: found for at, line in enumerate(lines) if (found := _range(lines, at)) is not None}
    for phrase in _PHRASES:
        if _are_in_order(list(heads.values()), phrase):
            return tuple(_numbered(line, heads[at], phrase) if at in heads else line for at, line in enumerate(lines))
    return tuple(lines)


def _range(lines: Sequence[Line], at: int) -> _Range | None:
    """Return the range that opens a line, if steps with counts of their own follow, in the line or below it."""
    line = lines[at]
    match = _HEAD.match(line.words)
    if match is None or not any(token.text == match["letter"].upper() for token in line.tokens[:2]):
        return None
    if re.search(rf"\b(?:counts?|cts?|beats?) {int(match['last']) + 1} (?:-|to|till|until|through) \d", line.words):
        # The line goes on with the next eight of its part.
        return None
    end = match.group().count(" ") + 1
    rest = line.tokens[end:] or (lines[at + 1].tokens if at + 1 < len(lines) else ())
    counted = any(mark.strength >= _SURE for mark in marks_in(rest, 0))
    return _Range(match["letter"].upper(), int(match["first"]), int(match["last"]), end) if counted else None


def _are_in_order(ranges: Sequence[_Range], phrase: int) -> bool:
    """Whether ranges are whole phrases, each the next of its part or the first of another."""
    if len({one.letter for one in ranges}) < _FEWEST or ranges[0].first != 1:
        return False
    whole = all(one.first % phrase == 1 and one.last == one.first + phrase - 1 for one in ranges)
    return whole and all(
        after.first == (before.last + 1 if after.letter == before.letter else 1) for before, after in pairwise(ranges)
    )


def _numbered(line: Line, head: _Range, phrase: int) -> Line:
    # No gap may seem to stand where only the counts stood: "A2: side".
    last = line.tokens[head.end - 1]
    first = replace(line.tokens[0], kind="word", text=head.letter, low=head.letter.lower(), value=None)
    text = str(head.first // phrase + 1)
    number = replace(last, kind="number", text=text, low=text, glued=True, value=None)
    colon = replace(number, kind="mark", text=":", low=":", glued=True)
    return replace(line, tokens=(first, number, colon, *line.tokens[head.end :]))
