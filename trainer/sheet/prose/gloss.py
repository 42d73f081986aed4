"""The sheet's own vocabulary: short forms and names that the teacher explains."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from trainer.sheet.prose.words import Token


@dataclass(frozen=True)
class Gloss:
    """Short forms with the words that they stand for."""

    entries: tuple[tuple[tuple[str, ...], tuple[Token, ...]], ...] = ()
    short: Mapping[tuple[str, ...], tuple[Token, ...]] = field(default_factory=dict, compare=False)
    """The same, for looking up."""


def gloss_of(lines: Sequence[Sequence[Token]]) -> Gloss:
    """Return the vocabulary that the lines of a sheet explain."""
    return Gloss()
