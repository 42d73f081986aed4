"""What a card says, ready to be written down: plain texts, and facings as fractions of a whole turn.

Facings of sections are as on wall 1 (of a part, as if it began at 12:00), those of extras as where they are first
danced, those of the wall order in the room. No text has a control character or a mark that turns the way of writing.
"""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CardStep:
    """What one foot does on one count, or a figure by its name."""

    foot: str
    """R, L or B; empty where no foot acts, or it could not be read."""
    text: str
    name: str = ""
    """The name of a figure that is spelled out from this step on; empty for none."""
    unsure: bool = False
    """The sheet may mean another step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRow:
    """The counts of one line, what is danced on them, and the facing after them."""

    counts: str
    """As written: "1&2", "5–6"."""
    steps: tuple[CardStep, ...]
    facing: Fraction | None
    """None: nothing in the row turns."""
    styling: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardBlock:
    """A section, an extra or an option."""

    kind: str
    """section, intro, tag, bridge, change, ending or option."""
    part: str
    """The part that a section is the first of, in a phrased dance; else empty."""
    name: str
    title: str
    length: str
    """As "8 counts"; empty of a section that has the counts of every other."""
    starts: Fraction
    rows: tuple[CardRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardThen:
    """What a wall does besides the plain dance."""

    text: str
    """As "after 16: restart"."""
    facing: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CardWall:
    """One wall of the order, or several plain ones in a row."""

    name: str
    """Its number, "5–8" for several; "intro" for the danced intro."""
    part: str
    starts: tuple[Fraction, ...]
    """The facing that each begins with."""
    danced: str
    """How much of the dance: "all", "1–16"; of an intro its counts."""
    then: tuple[CardThen, ...]
    cue: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A whole card."""

    title: str
    facts: tuple[str, ...]
    """Short ones, in the order that a dancer asks for them: "32 counts", "4 walls", "weight on L"."""
    credits: tuple[str, ...]
    """The tune and whose dance it is."""
    blocks: tuple[CardBlock, ...]
    walls: tuple[CardWall, ...]
    goes_on: str
    """How the order goes on after the last wall shown; empty where the dance ends with it."""
    notes: tuple[str, ...]
    key: str
    """How facings and marks are to be read."""
