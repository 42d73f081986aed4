"""Where the first section of a sheet begins that heads its rows: what is said above it counts no steps.

"You start on 1 with the step to the side", "an 8&1 ends on the 1 of the next section" tell of counts as rows do.
Where the first section has a heading of its own, and rows under it that each open with their counts, as further
sections have, a line above that opens with no count only talks.
"""

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import BREAK, Line

_FIRST = re.compile(
    r"\W*(?:(?:sections?|sec|set|block|phrase|figure|part|group|pattern|s|verse|p|eight|number|no) ?\W{0,3})?"
    r"(?:1|i|a|one|first)(?: (?:st|section|eight|8|six|6|set|part|block|phrase|figure|pattern)\b)?(?![\w'&/])"
)
"""The name of a first section at a line's start."""
_OPENS = 1.4
"""The strength of a mark that is a count for sure."""
_ROWS = 2
"""Rows that a section has at least."""
_SECTIONS = 2
"""Sections with heading and rows at least."""
_NUMBERED = 3
"""So many headings that are only numbered are no counts."""
_NAME = 4
"""Tokens in which the name of an extra stands at a line's start."""
_TITLE = 24
"""Tokens of a heading, at most."""


def below_headings(texts: Sequence[Line], marks: Sequence[Mark]) -> list[Mark] | None:
    """Return the marks from the first heading on, where sections are told in rows; None where they are not.

    None too where a line above it opens with a count, or with the name of an extra: steps may be told there. Headings
    that are only numbered count nothing either.
    """
    opening = {mark.line: mark for mark in marks if _opens_its_line(texts, mark)}
    numbered = _numbered(texts, opening)
    numbered = numbered if len(numbered) >= _NUMBERED else []
    rows = {line: mark for line, mark in opening.items() if line not in numbered}
    heads = numbered or [at for at in range(len(texts) - _ROWS) if _heads_rows(texts, at, rows)]
    if len(heads) < _SECTIONS or not _FIRST.match(texts[heads[0]].words) or min(rows) < heads[0]:
        return None
    if any(extra_kind(line.tokens[:_NAME]) is not None for line in texts[1 : heads[0]]):
        return None
    return [mark for mark in marks if mark.line >= heads[0] and not (mark.line in numbered and mark.first == 0)]


def _numbered(texts: Sequence[Line], opening: Mapping[int, Mark]) -> list[int]:
    """Return the lines that are numbered 1, 2, 3 and each head rows that begin with the first count or the second."""
    heads: list[int] = []
    for at, mark in opening.items():
        due = mark.places == (Place(len(heads) + 1, ""),)
        below = opening.get(at + 1)
        begins = below is not None and below.start.number in (1, 2) and len(below.places) > 1
        if due and begins and _heads_rows(texts, at, {line: one for line, one in opening.items() if line != at}):
            heads.append(at)
    return heads


def _opens_its_line(texts: Sequence[Line], mark: Mark) -> bool:
    """Whether a line begins with a count, or has an empty cell before it."""
    before = texts[mark.line].tokens[: mark.first]
    return mark.strength >= _OPENS and all(token.text == BREAK for token in before)


def _heads_rows(texts: Sequence[Line], at: int, opening: Mapping[int, Mark]) -> bool:
    """Whether a line tells no count at its start, and rows stand right under it that go on from each other."""
    line = texts[at]
    below = range(at + 1, at + 1 + _ROWS)
    if at in opening or len(line.tokens) > _TITLE or not all(index in opening for index in below):
        return False
    rows = [line, *(texts[index] for index in below)]
    close = all(row.number <= before.tokens[-1].line + 1 + (before is line) for before, row in pairwise(rows))
    first, second = (opening[index] for index in below)
    return close and (first.end.number or 0) <= (second.start.number or first.end.number or 0)
