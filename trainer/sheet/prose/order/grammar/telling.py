"""The values of reading the order: what is known of the dance before, and what its sentences tell.

Counts are those of the dance, or of the part in a phrased one, from 1; facings are those of the room.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from trainer.problems import Problem
from trainer.routine import OrderLine, PlayItem
from trainer.sheet.prose.words import Token
from trainer.terms import ExtraKind, Weight


def _unknown(words: tuple[Token, ...]) -> frozenset[int]:
    return frozenset()


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the dance when the order is read."""

    phrase: int
    """Counts after which the labels start again: 8, in a waltz 6."""
    sections: tuple[tuple[str, int, str], ...]
    """Name, counts and heading words of the main dance's sections in order; in a phrased dance named "A1"."""
    parts: tuple[tuple[str, int], ...] = ()
    """Name and counts of the parts of a phrased dance; empty otherwise."""
    extras: tuple[tuple[ExtraKind, str, int | None, tuple[Token, ...]], ...] = ()
    """Kind, name, counts and heading of the extras found as blocks; 0 where the length is open, None without steps."""
    begins: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    """Name of an extra to the number that its first count has: 7 where it carries on those of its section."""
    walls: int | None = None
    ends: Mapping[int, int] = field(default_factory=lambda: MappingProxyType({}))
    """The sheet's line on which counts end, to the counts danced by then; for a marker that stands at its place."""
    spots: tuple[tuple[int, int, int, bool], ...] = ()
    """Of each item the line and the column where it begins, the counts danced by its end, whether that is a half."""
    net: Fraction | None = None
    """The turn of the whole dance, where it is known: finds "the third time you face 9 o'clock"."""
    turned: Mapping[str, tuple[Fraction, ...]] = field(default_factory=lambda: MappingProxyType({}))
    """By part the turn made after so many counts, none of them first; empty where the steps were not read."""
    turned_on: Mapping[str, tuple[Fraction, ...]] = field(default_factory=lambda: MappingProxyType({}))
    """The same with the e, & or a after each count."""
    stands: Mapping[str, tuple[Weight, ...]] = field(default_factory=lambda: MappingProxyType({}))
    """By part the weight after so many counts, none of them first; empty where the steps were not read."""
    anded: Mapping[str, frozenset[int]] = field(default_factory=lambda: MappingProxyType({}))
    """By part the counts, none that ends a section, that are followed by an e, & or a."""
    steps: tuple[tuple[str, int, int, tuple[str, ...]], ...] = ()
    """Of each item in order its part, the counts danced before and after it, its words: finds "after the sailors"."""
    lasts: Callable[[tuple[Token, ...]], frozenset[int]] = field(default=_unknown, compare=False)
    """Returns how many counts the words of some steps may last; none where they fill no counts well."""


@dataclass(frozen=True, slots=True)
class Inline:
    """An extra whose steps stand inside an order sentence."""

    kind: ExtraKind
    name: str
    counts: int | None
    """Its length where the sentence states it."""
    body: tuple[Token, ...]
    first: int = 0
    """Of a change: the first count of the wall that is replaced."""
    last: int = 0
    """Of a change: the last count of the wall that is replaced."""
    part: str = ""
    """Of a change in a phrased dance: the part."""
    called: int = 0
    """The count of the wall that its first count is called as, where it carries on the wall's; 0: called from 1."""
    again: tuple[int, int] | None = None
    """First and last of the counts of the dance that it repeats; its words only name them."""
    unturned: bool = False
    """Whether these are danced without their turns."""


@dataclass(frozen=True, slots=True)
class Partial:
    """An extra that is no more than some counts of another."""

    kind: ExtraKind
    name: str
    whole: str
    """The name of the other."""
    first: int = 1
    last: int = 0
    """Its last count of the other; 0: that in the middle of it; below 0: so many before the end."""
    from_end: bool = False
    """Whether these are counted from the other's end: the second half, the last `last` counts."""

    def counts_of(self, length: int) -> tuple[int, int]:
        """Return the first and the last count of an extra of such a length."""
        last = self.last or length // 2
        if last < 0:
            return self.first, max(length + last, self.first)
        return (length - last + 1, length) if self.from_end else (self.first, min(last, length))


@dataclass(frozen=True, slots=True)
class Told:
    """What the sentences about the order tell."""

    order: tuple[OrderLine, ...]
    play: tuple[PlayItem, ...]
    repeats: bool
    inlines: tuple[Inline, ...]
    problems: tuple[Problem, ...]
    intro_starts: Fraction | None = None
    """The facing in the room that a danced intro starts with, where its heading says so."""
    partial: tuple[Partial, ...] = ()
