"""A word or phrase of a sentence about the order with its kind, and the names that a sheet gives to its parts."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

CLOSING = "closing"
"""The text of words that close a dance, or no more than what is told: "and that's it"."""


@dataclass(frozen=True, slots=True)
class Lexeme:
    """A word or phrase of a sentence with its kind."""

    kind: str
    """One letter, see `vocabulary.py`; a mark stands for itself."""
    first: int
    """Index of its first token in the sentence."""
    last: int
    """Index after its last token."""
    number: int = 0
    """Of a number its value; of a section's or part's name its place, from 1."""
    suffix: str = ""
    """&, e or a that follows a count straight."""
    facing: Fraction | None = None
    text: str = ""
    """Of a part or section its name as known; of a facing "wall" where it names a wall of the room."""


@dataclass(frozen=True, slots=True, eq=False)
class Names:
    """Names that a sheet gives to its parts and sections, in small letters; each is equal to itself only."""

    parts: Mapping[str, str]
    """Small letters to the part's name."""
    sections: Mapping[str, int]
    """Small letters to the section's place, from 1."""
    titles: Mapping[tuple[str, ...], str] = field(default_factory=dict)
    """Words of the sections' headings to the section's name."""
    labels: Mapping[str, str] = field(default_factory=dict)
    """Labels in capitals that number the sections to the section's name; empty where there is no such section."""
    bar: int = 4
    """Counts of a bar."""
    braces: str = ""
    """The mark that opens the number of each section where its heading is such: "{1}", "[2] Walks"."""
    phrases: frozenset[tuple[str, ...]] = frozenset()
    """Those of the titles that are only some of a heading's words: in small letters they are steps."""
