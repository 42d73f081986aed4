"""One thing that is danced otherwise, as it is told: steps that are danced, steps that are not, and where.

What is said of the place is kept as it is said, to be weighed against the dance.
"""

from dataclasses import dataclass
from fractions import Fraction

from trainer.sheet.prose.words import Token


@dataclass(frozen=True, slots=True)
class Otherwise:
    """One thing that is danced otherwise."""

    steps: tuple[Token, ...] = ()
    instead: tuple[tuple[Token, ...], ...] = ()
    """Steps that are not danced."""
    after: tuple[Token, ...] = ()
    """Steps straight after which it is danced."""
    section: int = 0
    """The section that is spoken of, from 1; -1 is the last, 0 none."""
    counts: tuple[int, int] | None = None
    """Counts that are spoken of, of the section or of the wall."""
    edge: str = ""
    """"last" or "first", of the section or the wall."""
    many: int = 0
    """So many counts at that edge."""
    drops: bool = False
    """The steps or counts are left out, and nothing stands for them."""
    unturned: bool = False
    """The steps are danced without their turn."""
    length: int = 0
    """It takes so many counts."""
    holds: int = 0
    """So many counts are held after it."""
    tag: tuple[Token, ...] = ()
    """Steps that follow it before the next wall."""
    leaves: bool = False
    """The wall ends with it."""
    upto: int = 0
    """The count straight after which it is danced."""
    past: bool = False
    """The section is danced as ever, and what is told comes after it."""
    carried: bool = False
    """The section was told in a sentence before."""
    rows: bool = False
    """The section is a line of steps."""
    again: bool = False
    """The counts are danced twice."""
    likewise: bool = False
    """It is what was told before, on the other foot."""
    faces: Fraction | None = None
    """The facing that is told with the end of the wall."""
    ends: bool = False
    """The dance ends with it."""
    line: int = 0

    @property
    def placed(self) -> bool:
        """Whether anything is said of its place."""
        return bool(self.instead or self.after or self.counts or self.edge or self.upto)
