"""Where the first section of a sheet begins that heads its rows: what is said above it counts no steps.

"You start on 1 with the step to the side", "an 8&1 ends on the 1 of the next section" tell of counts as rows do.
Where the first section has a heading of its own, and rows under it that each open with their counts, as further
sections have, a line above that opens with no count only talks.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
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
_NAME = 4
"""Tokens in which the name of an extra stands at a line's start."""
_TITLE = 24
"""Tokens of a heading, at most."""


def first_headed(texts: Sequence[Line], marks: Sequence[Mark]) -> int | None:
    """Return the index of the heading of the first section, where sections are told in rows; None where they are not.

    None too where a line above it opens with a count, or with the name of an extra: steps may be told there.
    """
    opening = {mark.line: mark for mark in marks if _opens_its_line(texts, mark)}
    if not opening:
        return None
    heads = [at for at in range(len(texts) - _ROWS) if _heads_rows(texts, at, opening)]
    if len(heads) < _SECTIONS or not _FIRST.match(texts[heads[0]].words) or min(opening) < heads[0]:
        return None
    extras = any(extra_kind(line.tokens[:_NAME]) is not None for line in texts[1 : heads[0]])
    return None if extras else heads[0]


def _opens_its_line(texts: Sequence[Line], mark: Mark) -> bool:
    """Whether a line begins with a count, or has an empty cell before it."""
    before = texts[mark.line].tokens[: mark.first]
    return mark.strength >= _OPENS and all(token.text == BREAK for token in before)


def _heads_rows(texts: Sequence[Line], at: int, opening: dict[int, Mark]) -> bool:
    """Whether a line tells no count at its start, and rows stand right under it that go on from each other."""
    line = texts[at]
    below = range(at + 1, at + 1 + _ROWS)
    if at in opening or len(line.tokens) > _TITLE or not all(index in opening for index in below):
        return False
    rows = [line, *(texts[index] for index in below)]
    close = all(row.number <= before.tokens[-1].line + 1 + (before is line) for before, row in pairwise(rows))
    first, second = (opening[index] for index in below)
    return close and (first.end.number or 0) <= (second.start.number or first.end.number or 0)
