"""The values of the search over readings: events all settled, states between them, nodes of the search, paths."""

from dataclasses import dataclass
from fractions import Fraction

from trainer.problems import Problem
from trainer.sheet.prose.search.footings import Cost
from trainer.sheet.prose.words import Draft, Item, Reading, Slot
from trainer.terms import Foot, Move, Weight


@dataclass(frozen=True, slots=True)
class Said:
    """One event on the path, all settled."""

    slot: Slot
    draft: Draft | None
    """None: nothing fills the slot."""
    move: Move | None
    foot: Foot | None
    weight: Weight | None
    turn: Fraction
    then: Fraction
    facing: Fraction | None
    """The facing that the sheet states after it and that is left for the laws to check."""
    item: int
    other: "Said | None" = None
    """Another reading of the event that is as good."""


@dataclass(frozen=True, slots=True)
class State:
    """Where the dancer is between two events."""

    weight: Weight
    facing: Fraction
    pending: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Node:
    state: State
    cost: Cost
    said: tuple[Said, ...]
    problems: tuple[Problem, ...]
    before: "Node | None"
    reading: Reading | None


@dataclass(frozen=True, slots=True)
class Path:
    """The cheapest reading of a block."""

    said: tuple[Said, ...]
    problems: tuple[Problem, ...]
    cost: Cost
    start: State
    end: State
    readings: tuple[Reading, ...]
    items: tuple[Item, ...] = ()


@dataclass(frozen=True, slots=True)
class Goal:
    """What a block's end should be, for the dance to close."""

    weight: Weight | None = None
    facings: tuple[Fraction, ...] = ()
    """The facings at its end that agree with what is stated elsewhere; empty: any."""
