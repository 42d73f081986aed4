"""What a row of a list of walls says: how much is danced, what is put in where, and how the wall is left."""

from dataclasses import dataclass, field
from typing import Literal

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

Tokens = tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Put:
    """An extra as a row names it."""

    name: Tokens = ()
    """The words by which it is told below the list; of a plain one "tag 2"."""
    hold: int = 0
    """It only is so many counts of waiting."""
    steps: Tokens = ()
    """Its steps, told in the row."""
    ends: bool = False
    """It is danced to end the dance."""
    section: int = 0
    """It comes inside, after so many sections; 0: at the end of what is danced."""

    @property
    def key(self) -> tuple[str, ...]:
        """Its name in small letters, without an article."""
        lows = tuple(token.low for token in self.name)
        return lows[1:] if len(lows) > 1 and lows[0] in ("the", "a") else lows


@dataclass(slots=True)
class ToldRow:
    """A wall of the list."""

    number: int
    line: Line
    """The line that it stands on."""
    words: Tokens
    """The words after its wall's name."""
    facing: Token | None = None
    left: Token | None = None
    """The facing told behind what the wall is left for: "restart @6:00"."""
    whole: bool = False
    counts: int = 0
    """Counts danced, where they are told; 0: not told."""
    sections: int = 0
    """Sections danced, where they are told so."""
    half: bool = False
    """Half the dance."""
    below: bool = False
    """What is danced is told below the list."""
    but: Tokens = ()
    """Words for all but so many counts."""
    puts: list[Put] = field(default_factory=list)
    changes: list[tuple[str, ...]] = field(default_factory=list)
    """The names of changes that are told below the list."""
    raw: Tokens = ()
    """Its words where they are to be told as they stand."""
    leave: Literal["", "restart", "end"] = ""
    rest: bool = False
    """It goes on behind what is put in after its counts."""

    @property
    def tells(self) -> bool:
        """Whether it is said how much is danced."""
        return self.whole or bool(self.counts or self.sections or self.half or self.but)
