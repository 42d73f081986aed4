"""What a clause may be in its item: some events, a turn for the step before or after it, a name, a note, or nothing.

Every role is priced with two numbers: laws broken, and preference. The counts of the item decide between the roles
(`joining.py`).
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any, Literal, NamedTuple

from trainer.routine import Span
from trainer.sheet.prose.words import Draft
from trainer.terms import Foot, Move

Act = Literal[
    "events",
    "next",
    "last",
    "also",
    "summary",
    "again",
    "pad",
    "swap",
    "place",
    "start",
    "feet",
    "restate",
    "summed",
    "nothing",
]
"""events: fill counts. next, last: a turn of the step after, before it. also: a gesture on the count before. summary:
the name of what is spelled out after it. again: repeats what was. pad: the event before lasts. swap: replaces the
event before. place: says on which count a turn falls. restate: says the event before again. summed: says how far
the events before turned in all. nothing: no event."""

NO_TURN = (Fraction(0),)

UNREAD = 1.9
UNREAD_MORE = 0.6
GARBLED = 1.0
"""Words that nobody could read stand in a clause that otherwise says a step."""


class Role(NamedTuple):
    """One way to take a clause."""

    act: Act
    drafts: tuple[Draft | None, ...] = ()
    breaches: float = 0.0
    preference: float = 0.0
    value: Any = None
    """Of next: a `Waiting`; of last and place: signed turns. Of summary: a `Named`. Of again: how often, whether
    only the last clause, whether mirrored."""
    pad: Draft | None = None
    """What may fill further counts, each for `pad_cost`."""
    pad_cost: float = 0.2
    pad_most: int = 0
    alone: bool = False
    """It may only be filled so where it is all that the item says: "1-2 step right"."""
    spread: bool = False
    """Its turn is shared among all the counts filled: "walk a full circle"."""
    late: bool = False
    """A turn falls on the last of the counts filled."""
    implied: bool = False
    """It adds an event that the words only imply: a rock's recover."""
    chatter: bool = False
    """It passes over words that no table knows."""
    after_gesture: bool = False
    """Only after a gesture that takes no weight."""
    lowers: bool = False
    """Only after the toe or heel of a foot in the same item, which it sets down."""
    shared: Draft | None = None
    """A gesture that the event before its own shares: "step right bumping hips right, left, right"."""
    repeats: int = 1
    """All events so far are done so many times: "step, pivot ½, twice"."""
    bare: bool = False
    """A foot or a way without a move: it may be more of the move before."""


class Waiting(NamedTuple):
    """A turn that waits for its step."""

    turns: tuple[Fraction, ...]
    joined: bool
    """No punctuation parts it from what follows."""
    facing: Fraction | None = None
    """The facing that is stated with it, where it leads to: "turn ¼ left (9:00) stepping back"."""
    facing_span: Span | None = None


class Named(NamedTuple):
    """A figure's name before its own spelling-out."""

    name: str
    counts: int
    """How many events it has; 0: not known."""
    start: Foot | None
    turns: tuple[Fraction, ...]
    shares: tuple[Fraction, ...]
    """How its turn is shared, where the spelling-out does not say."""
    loose: bool = False
    """No colon or bracket says that it is only a name."""
    forms: tuple[tuple[Draft | None, ...], ...] = ()
    """Its events as the table has them, in all their forms."""
    move: Move | None = None
    """What the feet after it do: "hips: right, left"."""


def other(foot: Foot) -> Foot:
    """Return the other foot."""
    return foot.mirrored


def tells_other_feet(run: Sequence[Foot], drafts: Sequence[Draft]) -> bool:
    """Return whether a foot is told for each event, and one is another's: "balance forward left, right, left"."""
    if len(run) != len(drafts):
        return False
    return any(draft.foot not in (None, foot) for draft, foot in zip(drafts, run, strict=True))


def shared(drafts: Sequence[Draft], turns: tuple[Fraction, ...]) -> tuple[Draft, ...]:
    """Share a turn among steps: evenly where that gives eighths, a triple's on its first and last, else on the last."""
    n = len(drafts)
    if all((turn / n * 8).denominator == 1 for turn in turns):
        shares = [Fraction(1, n)] * n
    elif n > 3:
        shares = _in_eighths(turns[0], n)
    elif n == 3 and all(abs(turn) >= 1 for turn in turns):
        shares = [Fraction(1, 4), Fraction(1, 2), Fraction(1, 4)]
    elif n == 3:
        shares = [Fraction(1, 2), Fraction(0), Fraction(1, 2)]
    else:
        shares = [Fraction(0)] * (n - 1) + [Fraction(1)]
    return with_shares(drafts, turns, shares)


def _in_eighths(turn: Fraction, n: int) -> list[Fraction]:
    """Return shares as even as eighths of a whole turn let them be."""
    eighths = turn * 8
    reached = [round(eighths * step / n) for step in range(n + 1)]
    return [Fraction(after - before) / eighths for before, after in pairwise(reached)]


def with_shares(drafts: Sequence[Draft], turns: tuple[Fraction, ...], shares: Sequence[Fraction]) -> tuple[Draft, ...]:
    """Lay shares of a turn on drafts; a share of 0 leaves a draft as it is."""
    return tuple(
        replace(draft, turns=tuple(turn * share for turn in turns)) if share else draft
        for draft, share in zip(drafts, shares, strict=True)
    )
