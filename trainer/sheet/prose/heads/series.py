"""Headings in a series: D after C, "SET 3" after "SET 2", III. after II. One that goes on with it heads a section.

A line in between that names an extra only says that it comes there: "+ wall 6: ending" above "E   Side; chasse".
"""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, ROMAN
from trainer.sheet.prose.words import Token

_NEAR = 4
"""Tokens of a heading among which its place in the series stands."""

_RANGED = ("-", "to")
_PASSES = {"wall", "walls", "time", "times", "round", "rotation", "rotations", "pass", "go"}


@dataclass(frozen=True, slots=True)
class Place:
    """A place in a series; a range of counts is more than one."""

    before: str
    """The words before it."""
    written: str
    """In what: figures, letters, words."""
    first: int
    last: int


def places_of(tokens: Sequence[Token]) -> list[Place]:
    """Return the places in a series that a heading may give: "SET 3", "C", "iv", "Third eight", "B2", "[9-16]"."""
    found: list[Place] = []
    words: list[str] = []
    for at, token in enumerate(tokens[:_NEAR]):
        before = " ".join(words)
        if token.kind == "number" and token.text.isdecimal():
            return [*found, Place(before, "number", int(token.text), _range_end(tokens, at))]
        if token.kind == "word":
            closed = at + 1 == len(tokens) or tokens[at + 1].kind == "mark"
            found += [Place(before, how, value, value) for how, value in _values(token.low, alone=closed or not words)]
            words.append(token.low)
    return found


def _range_end(tokens: Sequence[Token], at: int) -> int:
    """Return the last number of the range that a number begins: 16 of "9-16"; else the number."""
    ranged = at + 2 < len(tokens) and tokens[at + 1].low in _RANGED and tokens[at + 2].text.isdecimal()
    return int(tokens[at + 2 if ranged else at].text)


def _values(word: str, *, alone: bool) -> list[tuple[str, int]]:
    found = [
        (written, table[word])
        for written, table in (("roman", ROMAN), ("ordinal", ORDINALS), ("spelled", NUMBERS))
        if word in table
    ]
    if len(word) == 1 and "a" <= word <= "h" and alone:
        found.append(("letter", ord(word) - ord("a") + 1))
    return found


def goes_on(tokens: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a heading is the next in its series after another one.

    "The fifth time" is not, after "The fourth eight".
    """
    if any(token.low in _PASSES for token in tokens[:_NEAR]) > any(token.low in _PASSES for token in after[:_NEAR]):
        return False
    ends = {(place.before, place.written, place.last + 1) for place in places_of(after)}
    return any((place.before, place.written, place.first) in ends for place in places_of(tokens))
