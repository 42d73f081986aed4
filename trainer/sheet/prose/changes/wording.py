"""Tokens as one text of plain words, in which phrases are sought; what is found leads back to its tokens.

Words for numbers are numbers, "second" is "2 nd": one pattern finds "the second wall", "wall two" and "the 2nd wall".
"""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.words import Token

_HOURS = 12
_ROMAN = {"ii": "2", "iii": "3", "iv": "4", "vi": "6", "vii": "7", "viii": "8"}
_SHORT = {"thru": "to", "through": "to", "till": "to", "until": "to", "'n'": "and", "n": "and"}


@dataclass(frozen=True, slots=True)
class Words:
    """Some tokens, and their text: the plain words parted by blanks."""

    tokens: tuple[Token, ...]
    text: str
    starts: tuple[int, ...]
    """Where each token begins in the text."""

    def between(self, first: int, last: int) -> tuple[Token, ...]:
        """Return the tokens that begin in a stretch of the text."""
        return self.tokens[bisect_left(self.starts, first) : bisect_left(self.starts, last)]

    def place(self, at: int) -> int:
        """Return the index of the token that a place of the text lies in."""
        return max(bisect_right(self.starts, at) - 1, 0)

    def cut(self, first: int, last: int) -> "Words":
        """Return a stretch of the text by itself."""
        return words_of(self.between(first, last))


def words_of(tokens: Sequence[Token]) -> Words:
    """Return tokens as a text of plain words."""
    starts: list[int] = []
    text = ""
    for token in tokens:
        starts.append(len(text))
        text += _plain(token) + " "
    return Words(tuple(tokens), text, tuple(starts))


def _plain(token: Token) -> str:
    if token.low in ORDINALS and token.kind == "word":
        return f"{ORDINALS[token.low]} th"
    if token.low in NUMBERS and token.kind == "word":
        return str(NUMBERS[token.low])
    if token.low in ("st", "nd", "rd"):
        return "th"
    if token.kind == "amp":
        return "&"
    return _SHORT.get(token.low, _ROMAN.get(token.low, token.low))


def numbers_in(text: str) -> list[int]:
    """Return the numbers of a text."""
    return [int(one) for one in re.findall(r"\b\d+\b", text)]


def faced_in(words: Words, first: int = 0) -> Fraction | None:
    """Return the first facing that is told behind a place of a text: "facing 6:00", "begins at 3 o'clock"."""
    for at, token in enumerate(words.tokens):
        if words.starts[at] < first:
            continue
        if token.kind in ("clock", "facing") and token.value is not None:
            return token.value
        after = words.tokens[at + 1].low if at + 1 < len(words.tokens) else ""
        hour = int(token.text) if token.kind == "number" and len(token.text) < 3 else 0
        if 0 < hour <= _HOURS and after in ("o'clock", "oclock", "o"):
            return Fraction(hour % _HOURS, _HOURS)
    return None
