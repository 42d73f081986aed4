"""Slips of the pen: the word of the trade that a word no table knows was meant to be.

One letter wrong, missing, too much, or two swapped; in long words two of these. The first letter is taken to be
right. Words of everyday speech are never taken for a slip.
"""

from collections.abc import Mapping
from functools import cache

from trainer.sheet.prose.steps.wording import wording

Trade = Mapping[str, tuple[str, ...]]
"""Words of the trade by their first letter."""


@cache
def _everyday() -> frozenset[str]:
    return frozenset(wording()["everyday"]["words"].split())


def slip_of(word: str, trade: Trade) -> str | None:
    """Return the word of the trade that a slip of the pen would turn into this one, or None."""
    if len(word) < 4 or word in _everyday() or not word.isalpha():
        return None
    far = 2 if len(word) > 8 else 1
    found = [one for one in trade.get(word[0], ()) if abs(len(one) - len(word)) <= far and _near(word, one, far)]
    return min(found, key=lambda one: (abs(len(one) - len(word)), one)) if found else None


def glued_foot(text: str, trade: Trade) -> str:
    """Return "r step" for "Rstep": a capital R or L that a blank should part from a word of the trade; else nothing."""
    rest = text[1:]
    known = len(rest) > 2 and text[0] in "RL" and rest.islower() and rest in trade.get(rest[0], ())
    return f"{text[0].lower()} {rest}" if known else ""


def _near(word: str, other: str, far: int) -> bool:
    """Whether two words differ by at most `far` letters put in, left out, changed or swapped with their neighbour."""
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(word, 1):
        older, before, row = before, row, [i]
        for j, wanted in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and word[i - 2] == wanted:
                cost = min(cost, older[j - 2] + 1)
            row.append(cost)
    return row[-1] <= far
