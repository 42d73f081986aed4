"""The values that pass between the stages of reading prose: tokens, slots, items, drafts, readings.

A stage takes the values of the stage before it and returns its own; each can be printed and tested by itself. Lines and
columns count from 1.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from trainer.routine import Span
from trainer.terms import Direction, Foot, Label, Move, Weight

TokenKind = Literal["word", "number", "fraction", "clock", "facing", "amp", "mark"]


@dataclass(frozen=True, slots=True)
class Token:
    """A word, number, fraction (a turn's amount), clock time, stated facing, & or mark of a sheet."""

    kind: TokenKind
    text: str
    low: str
    """The text in small letters, straight quotes; of a fraction or facing as written."""
    line: int
    column: int
    glued: bool = False
    """No blank stands between it and the token before."""
    value: Fraction | None = None
    """Of a fraction the part of a whole turn; of a clock and of a facing the facing in [0, 1)."""

    def __hash__(self) -> int:
        # Tokens are hashed far more often than compared; their place tells almost all of them apart.
        return hash((self.text, self.line, self.column))

    @property
    def span(self) -> Span:
        """Where it stands."""
        return Span(self.line, self.column, len(self.text))


@dataclass(frozen=True, slots=True)
class Slot:
    """A count that an item must fill."""

    label: Label
    beat: Fraction
    """From the first count of the block."""


@dataclass(frozen=True, slots=True)
class Item:
    """Some counts with the words that belong to them: the unit that is read at once."""

    slots: tuple[Slot, ...]
    """Empty where the sheet gives words without counts: the words decide how many."""
    text: tuple[Token, ...]
    """The words without their count marks; stated facings stand among them as tokens of kind facing."""
    span: Span
    """The count mark, or the first word where there is none."""


@dataclass(frozen=True, slots=True)
class Draft:
    """One event as a clause suggests it, with what the words leave open."""

    moves: tuple[Move, ...]
    """The move; more than one where the words fit more, the likeliest first."""
    foot: Foot | None
    """None: not said; the free foot, or whatever the search finds."""
    direction: Direction | None = None
    turns: tuple[Fraction, ...] = (Fraction(0),)
    """The turn; both signs where no side is said."""
    then: Fraction = Fraction(0)
    """The part of the turn that is made on the standing foot after the step, of the first of `turns`."""
    weight: Weight | None = None
    """A weight that the words state after the event."""
    facing: Fraction | None = None
    """A facing that the words state after the event."""
    facing_span: Span | None = None
    figure: str = ""
    """The figure's key in figures.toml, or the words of one that the sheet spells out."""
    figure_start: bool = False
    """The first event of its figure."""
    also: tuple[tuple[Foot | None, Move, Direction | None], ...] = ()
    asides: tuple[str, ...] = ()
    other_foot_than_last: bool = False
    """A pivot: takes weight on the foot that did not step last, and turns away from the one that did."""
    mirror_of_start: tuple[Foot, ...] = field(default=())
    """Of a figure whose starting foot is not said: the acting foot if it starts on R; or the mirror."""
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to fill an item's slots: a draft for each slot, None where nothing fills it."""

    drafts: tuple[Draft | None, ...]
    breaches: float = 0.0
    """Laws broken by the words alone: a clause not understood, a slot empty, a step left over."""
    preference: float = 0.0
    """Small costs of an unlikely but lawful understanding."""
    unread: tuple[Span, ...] = ()
    """The words that could not be understood."""
    leaves: Fraction = Fraction(0)
    """A turn said at the item's end that falls on the next event."""


Fill = Callable[[Sequence[Token], int], float]
"""How badly words fill so many counts, 0 where they do well: what the stages before the reading ask of the steps."""
