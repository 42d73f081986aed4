"""Lines that count the steps of a danced intro: no word of the order, whatever wall they say to come before."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.words import Token

_LEAVES = {"restart", "restarts", "tag", "tags", "bridge"}
_FEWEST = 2


def dances_an_intro(tokens: Sequence[Token]) -> bool:
    """Return whether a line counts the steps of an intro from 1 on: "Intro, before wall 1: sway right (1), ..."."""
    if extra_kind(tokens) != "intro" or {token.low for token in tokens} & _LEAVES:
        return False
    marks = marks_in(tokens, 0)
    first = next((at for at, mark in enumerate(marks) if mark.start.number == 1), len(marks))
    numbers = [mark.start.number or 0 for mark in marks[first:]]
    return len(numbers) > _FEWEST and all(a < b for a, b in pairwise(numbers))
