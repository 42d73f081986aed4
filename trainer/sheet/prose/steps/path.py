"""A way to take an item's clauses so far: the events, and what waits for the clauses after."""

from fractions import Fraction
from typing import NamedTuple

from trainer.routine import Span
from trainer.sheet.prose.steps.roles import Named, Waiting
from trainer.sheet.prose.words import Draft
from trainer.terms import Foot


class Placed(NamedTuple):
    """A turn that the words lay on certain counts of an item: "on 7"."""

    first: int
    """Index of the first draft that it may stand in."""
    last: int
    counts: tuple[int, ...]
    turns: tuple[Fraction, ...]
    """Empty: the turn that stands there already."""


class Path(NamedTuple):
    """A way to take the clauses so far."""

    breaches: float = 0.0
    preference: float = 0.0
    drafts: tuple[Draft | None, ...] = ()
    waiting: Waiting | None = None
    """A turn that waits for its step."""
    named: Named | None = None
    """The figure that is being spelled out."""
    named_from: int = 0
    unread: tuple[Span, ...] = ()
    implied: bool = False
    chatter: tuple[Span, ...] = ()
    clause_from: int = 0
    """Where the events of the last clause begin."""
    placed: tuple[Placed, ...] = ()
    starts: Foot | None = None
    """The foot that the first step after it starts with."""
    context: Draft | None = None
    """The last event of the item before."""

    @property
    def cost(self) -> tuple[float, float]:
        """Breaches, then preference."""
        return self.breaches, self.preference

    def with_last(self, draft: Draft) -> "Path":
        """Return the path with another last event."""
        return self._replace(drafts=(*self.drafts[:-1], draft))
