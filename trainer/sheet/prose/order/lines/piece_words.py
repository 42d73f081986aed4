"""The words of one piece of what a wall dances: a section's name, numbers and the words about them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

OWN = frozenset({"line", "lines", "row", "rows", "group", "groups", "sixes", "strip", "strips", "box", "boxes", "part"})
"""Words for sections that are no such elsewhere."""
SECTIONS = OWN | {
    "section", "sections", "sect", "sects", "sec", "secs", "s", "set", "sets", "block", "blocks", "parts", "eight",
    "eights", "phrase", "phrases", "six",
}  # fmt: skip
TO = frozenset({"-", "to", "through", "thru", "till", "until"})
LISTED = frozenset({",", "and", "&", "+", "/", "then"})
COUNTS = frozenset({"count", "counts", "ct", "cts", "beat", "beats", "steps"})
_BARS = frozenset({"bar", "bars", "measure", "measures"})
"""Behind a number these make it no count and no section: "the first six bars"."""
_SIXES = frozenset({"six", "eight"})
_COUNTED_BY_SIXES = SECTIONS | {"figures", "sections", "units", "patterns"}
_MANY = 26
_FEET = ("L", "R")
_SIZES = frozenset({"half", "quarter", "full", "big", "long", "small", "slow", "last", "final", "single", "little"})


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece as read."""

    last: int
    """Index after it."""
    counts: int
    """Counts danced by its end."""
    named: bool = True
    """It says more than a plain number or range of counts."""
    read: bool = False
    """It is read as it stands, alone: "sections 1 to 2"."""
    sections: bool = False
    """It tells sections, so that a bare number after it may be one too."""


class PieceWords:
    """Finds words in the tokens of one row."""

    def __init__(self, tokens: Sequence[Token], ends: Sequence[int], *, celled: bool) -> None:
        self._tokens = tokens
        self._lows = [token.low for token in tokens]
        self._ends = ends
        self._celled = celled
        """The row's cell is all that is read, so that bare numbers may be sections."""

    def _low(self, at: int) -> str:
        return self._lows[at] if at < len(self._lows) else ""

    def _after(self, at: int, *groups: tuple[str, ...]) -> int:
        """Return the index after the first of the groups of words that stands at an index, else the index."""
        for words in groups:
            if tuple(self._lows[at : at + len(words)]) == words:
                return at + len(words)
        return at

    def _number(self, at: int) -> tuple[int, int, bool]:
        """Return a number, the index after it, and whether it is a place; none where bars are so many."""
        found = number_at(self._tokens, at) if at < len(self._tokens) else (0, at, False)
        return found if self._low(found[1]) not in _BARS else (0, at, False)

    def _ref(self, at: int, *, bare: bool) -> Iterator[tuple[int, int]]:
        """Yield a section's place, from 1, and the index after its name; a bare number only where it may be one."""
        at = self._after(at, ("the",))
        worded = self._low(at) in SECTIONS
        place = at + worded
        value, last, ordinal = self._number(place)
        if last > place and not ordinal and (worded or bare) and 0 < value < len(self._ends):
            yield value, last
        named = self._low(last) in SECTIONS and self._low(last + 1) not in _BARS
        # "The first six figures" are six.
        named = named and not (self._low(last) in _SIXES and self._low(last + 1) in _COUNTED_BY_SIXES)
        if last > place and ordinal and 0 < value < len(self._ends) and named:
            yield value, last + 1
        if place < len(self._tokens):
            text = self._tokens[place].text
            letter = ord(text[0]) - ord("A") + 1 if len(text) == 1 else 0
            if letter == 1 and not worded and self._low(place + 1) in STEP_WORDS | _SIZES:
                # "A quarter turn right" is a step.
                return
            if 0 < letter < len(self._ends) and self._tokens[place].kind == "word" and letter <= _MANY:
                yield letter, place + 1

    def lists_on(self, first: int, at: int) -> bool:
        """Whether sections listed by numbers go on with another that is none of the dance: "sets 1, 2 and 7"."""
        worded = any(self._low(place) in SECTIONS for place in range(first, at))
        numbered = self._number(at - 1)[1] == at
        place = at
        while self._low(place) in LISTED:
            place += 1
        _, last, ordinal = self._number(place)
        listed = place > at and last > place and not ordinal and self._low(last) not in COUNTS
        return worded and numbered and listed

    def go_on(self, at: int) -> bool:
        """Whether words go on with another piece than may stand there: "A, C", "lines 1 to 9" of eight."""
        if self._low(at) in TO and self._number(at + 1)[1] > at + 1:
            return True
        while self._low(at) in LISTED:
            at += 1
        if at >= len(self._tokens):
            return False
        _, last, _ = self._number(at + 1)
        text = self._tokens[at].text
        if len(text) == 1 and "A" <= text <= "Z" and text not in _FEET:
            return True
        if self._low(at) in SECTIONS and last > at + 1:
            return True
        _, last, _ = self._number(at)
        return last > at and self._low(last) in TO and self._number(last + 1)[1] > last + 1
