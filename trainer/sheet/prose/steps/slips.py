"""Slips of the pen and short forms: the word of the trade that a word no table knows was meant to be.

A slip is one letter wrong, missing, too much, or two swapped; in long words two of these. The first letter is taken to
be right. A short form leaves letters out, above all vowels, and keeps the first and the last: "bkwd", "swp", "frt".
Words of everyday speech are never taken for a slip.
"""

from collections.abc import Mapping
from functools import cache

from trainer.sheet.prose.steps.wording import wording

Trade = Mapping[str, tuple[str, ...]]
"""Words of the trade by their first letter."""


@cache
def everyday() -> frozenset[str]:
    """Return words of everyday speech, which are no words of the trade gone wrong."""
    return frozenset(wording()["everyday"]["words"].split())


def slip_of(word: str, trade: Trade) -> str | None:
    """Return the word of the trade that a slip of the pen would turn into this one, or None."""
    if len(word) < 4 or word in everyday() or not word.isalpha():
        return None
    far = 2 if len(word) > 8 else 1
    found = [one for one in trade.get(word[0], ()) if abs(len(one) - len(word)) <= far and _near(word, one, far)]
    return min(found, key=lambda one: (abs(len(one) - len(word)), one)) if found else None


def short_of(word: str, trade: Trade) -> str | None:
    """Return the word of the trade that a word without vowels stands for: some of its letters, in order; or None."""
    if len(word) < _SHORTEST or not word.isalpha() or set(word[1:]) & _VOWELS:
        return None
    found = [one for one in trade.get(word[0], ()) if one.rstrip("aeiouy")[-1:] == word[-1] and _holds(one, word)]
    return min(found, key=lambda one: (_consonants(one) - len(word), len(one), one)) if found else None


_SHORTEST = 3
_VOWELS = frozenset("aeiouy")
_MOST_LEFT_OUT = 2
"""Consonants; none in a short form of three letters."""


def _consonants(word: str) -> int:
    return sum(letter not in _VOWELS for letter in word)


def _holds(word: str, short: str) -> bool:
    """Whether a word has all letters of a short form in their order, and few consonants more."""
    letters = iter(word)
    most = _MOST_LEFT_OUT if len(short) > _SHORTEST else 0
    return all(letter in letters for letter in short) and _consonants(word) - _consonants(short) <= most


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
