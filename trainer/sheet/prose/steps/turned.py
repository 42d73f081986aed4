"""A phrase of turning by itself: a turn of the step before or after it, a pivot, a spin, two travelling steps."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import NO_TURN, UNREAD, Named, Role, Waiting
from trainer.sheet.prose.steps.turns import Turning
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_SUMMING = (
    "add up",
    "adds up",
    "adding up",
    "sum up",
    "all four",
    "all three",
    "all of them",
    "in all",
    "total",
    "all told",
    "altogether",
)
"""Words of a turn that some steps make together."""


def turn_roles(clause: Clause) -> Iterator[Role]:
    turning = clause.turning
    if turning is None:
        return
    if len(clause.unknown) > 1 and turning.word in ("", "turn"):
        yield Role("events", (None,), breaches=UNREAD, value=Waiting(turning.turns, joined=False))
        return
    turns = turning.turns
    if clause.at:
        yield Role("place", value=turns)
    if clause.aside and turning.amount is None:
        # "(no need to turn)" and the like.
        yield Role("nothing")
        return
    if clause.each:
        yield Role("nothing", preference=0.02)
    if turning.amount is not None and any(words in clause.words for words in _SUMMING):
        yield Role("summed", preference=0.05, value=turns)
    yield Role("next", preference=_next_cost(clause), value=Waiting(turns, clause.follows))
    if clause.times > 1 and clause.leads and turning.amount is not None:
        # "Two ½ turns stepping R, L": each step has one.
        yield Role("next", preference=-0.1, value=Waiting(tuple(turn * clause.times for turn in turns), clause.follows))
    yield Role("last", preference=_last_cost(clause), value=turns)
    if turning.word == "square":
        yield Role("nothing", preference=0.0 if clause.aside else 0.1)
        return
    yield from _turn_events(clause, turning, turns)
    if clause.times > 1 and turning.amount is not None and turning.amount < 1:
        yield from _several_pivots(clause, turning, turns)
    if turning.before is not None:
        sided = turning._replace(side=turning.before, before=None)
        foot = Draft((Move.STEP,), turning.before, turns=turns, span=clause.span)
        yield Role("events", (foot,), preference=0.15)
        yield Role("next", preference=_next_cost(clause), value=Waiting(sided.turns, clause.follows))
        yield from (
            role._replace(preference=role.preference + 0.05) for role in _turn_events(clause, sided, sided.turns)
        )
    whole = turning.amount is not None and turning.amount >= 1
    if clause.introduces == ":" or whole:
        # "A full turn to the left, half a turn stepping back, another half stepping forward."
        cost = 0.3 if clause.introduces == ":" else 0.45
        yield Role("summary", preference=cost, value=Named(clause.words, 0, None, turns, ()))


def _next_cost(clause: Clause) -> float:
    """Return what it costs to lay a turn on the step after it."""
    word = clause.turning.word if clause.turning else ""
    own = {"pivot": 0.6, "unwind": 1.5, "spiral": 0.9}.get(word, 0.0)
    if clause.weighted is not None and not clause.follows:
        return own + 0.4
    return own if clause.follows else own + 0.12


def _last_cost(clause: Clause) -> float:
    """Return what it costs to lay a turn on the step before it."""
    word = clause.turning.word if clause.turning else ""
    own = {"pivot": 0.6, "unwind": 1.5, "spiral": -0.1}.get(word, 0.0)
    if clause.ing and clause.opens and not clause.aside:
        # "Point right; turning half right, step right together": the turn is that of what follows.
        return max(own + 0.2, 0.0)
    if clause.ing or clause.aside:
        return max(own + (0.0 if clause.joined else 0.03), 0.0)
    return max(own + (0.03 if clause.joined else 0.2), 0.0)


def _turn_events(clause: Clause, turning: Turning, turns: tuple[Fraction, ...]) -> Iterator[Role]:
    """Yield a turn as events of its own: a pivot, an unwind, a spin on the standing foot, two travelling steps."""
    span = clause.span
    if clause.feet and turning.word == "turn":
        for move, cost in ((Move.PIVOT, 0.05), (Move.STEP, 0.15)):
            yield Role("events", (Draft((move,), clause.feet[0], turns=turns, span=span),), preference=cost)
    standing = Draft((Move.TURN,), Foot.NONE, turns=turns, span=span)
    if turning.word == "unwind":
        unwind = Draft((Move.UNWIND,), Foot.NONE, turns=turns, span=span)
        yield Role("events", (unwind,), pad=replace(unwind, turns=NO_TURN), pad_cost=0.02, pad_most=3, late=True)
        return
    if turning.word == "spiral":
        spiral = replace(standing, figure="spiral")
        yield Role("events", (spiral,), preference=0.1, pad=replace(spiral, turns=NO_TURN), pad_cost=0.1, pad_most=1)
        step = Draft(
            (Move.STEP,), None, Direction.FORWARD, turns, then=turns[0], figure="spiral", figure_start=True, span=span
        )
        yield Role("events", (step,), preference=0.2)
        return
    if clause.leads and turning.word == "turn":
        return
    whole = turning.amount is not None and turning.amount >= 1
    if whole or (turning.word == "turn" and turning.amount is not None and turning.amount > Fraction(1, 2)):
        yield from _travelling(clause, turns)
    if not whole:
        pivot = Draft((Move.PIVOT,), None, turns=turns, other_foot_than_last=True, span=span)
        cost = 0.0 if turning.word == "pivot" else 0.5 if clause.follows else 0.1
        if clause.ing:
            cost += 0.1
        yield Role("events", (pivot,), preference=cost)
        if turning.word in ("pivot", "turn"):
            # A slow one: the weight follows on the second count.
            yield Role("events", (standing, replace(pivot, turns=NO_TURN)), preference=cost + 0.3)
        step = Draft((Move.STEP,), None, Direction.FORWARD, span=span, figure="pivot turn", figure_start=True)
        yield Role("events", (step, replace(pivot, figure="pivot turn")), preference=cost + 0.25, implied=True)
    if clause.weighted is not None and clause.weighted.moved:
        # "A quarter turn onto the left" is no turn on the standing foot.
        return
    yield Role(
        "events",
        (standing,),
        preference=0.35 if not whole else 0.2,
        pad=replace(standing, turns=NO_TURN),
        pad_cost=0.2,
        pad_most=1,
    )


def _several_pivots(clause: Clause, turning: Turning, turns: tuple[Fraction, ...]) -> Iterator[Role]:
    """Yield "pivot ½ twice": each with its step, which is said before or not."""
    pivot = Draft((Move.PIVOT,), None, turns=turns, other_foot_than_last=True, span=clause.span)
    step = Draft((Move.STEP,), None, Direction.FORWARD, span=clause.span)
    own = 0.0 if turning.word == "pivot" else 0.1
    yield Role("events", (pivot,), preference=own, repeats=clause.times)
    yield Role("events", (step, pivot) * clause.times, preference=own + 0.1)


def _travelling(clause: Clause, turns: tuple[Fraction, ...]) -> Iterator[Role]:
    """Yield a full turn as two steps or as three."""
    for n, shares, cost in ((2, (1, 1), 0.05), (3, (1, 2, 1), 0.1), (4, (1, 1, 1, 1), 0.3)):
        whole = sum(shares)
        drafts = tuple(
            Draft(
                (Move.STEP,),
                None,
                turns=tuple(turn * share / whole for turn in turns),
                figure="full turn" if n == 2 else "triple full turn",
                figure_start=index == 0,
                span=clause.span,
            )
            for index, share in enumerate(shares)
        )
        unsaid = 0.5 if clause.counts not in (0, n) else 0.0
        yield Role("events", drafts, preference=0.0 if clause.counts == n else cost + unsaid)
        if len(turns) > 1 and not clause.counts:
            break
