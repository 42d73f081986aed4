"""Over how many counts a step may go: as many as are said, as it lasts by nature, or as often as it is done."""

from collections.abc import Iterator
from dataclasses import replace

from trainer.dance.figures import foot_weight
from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import NO_TURN, Role, other, shared
from trainer.sheet.prose.words import Draft
from trainer.terms import Foot, Move

_LASTING = {
    Move.HOLD, Move.DRAG, Move.SLIDE, Move.SWEEP, Move.RONDE, Move.UNWIND, Move.BOUNCE, Move.SHIMMY, Move.HIP_ROLL,
    Move.BODY_ROLL, Move.POSE, Move.BEND, Move.KNEE_POP, Move.SWIVEL, Move.TWIST,
}  # fmt: skip
"""Moves that go on over further counts by nature."""

GOING = {Move.WALK, Move.RUN, Move.SKATE, Move.SWAY, Move.STOMP, Move.BUMP, Move.CLAP, Move.SNAP}
"""Moves that are done several times where one clause has several counts."""


def events_of(clause: Clause, draft: Draft, cost: float, *, bare: bool) -> Iterator[Role]:
    """Yield a draft as one event, or as several where a number, a length or the move itself says so."""
    move = draft.moves[0]
    late = draft.turns != NO_TURN
    still = replace(draft, turns=NO_TURN)
    if move is Move.HOLD:
        most = max(clause.counts, clause.times)
        if most > 1:
            yield Role("events", (draft,) * most, preference=cost)
        yield Role(
            "events", (draft,), preference=cost + (0.4 if most > 1 else 0.0), pad=draft, pad_cost=0.03, pad_most=15
        )
        return
    if clause.times > 1:
        pad = still if move in _LASTING else None
        several = _several(draft, clause.times)
        yield Role("events", several, preference=cost, pad=pad, pad_cost=0.06, pad_most=6, bare=bare)
        yield Role("events", (draft,), preference=cost + 0.3, bare=bare)
        return
    if clause.counts > 1 and move in _WALKING:
        # "Walk a full circle in four steps".
        yield Role("events", _walked(draft, clause.counts), preference=cost, bare=bare)
        return
    lasting = move in _LASTING or (clause.counts > 1 and move_rows()[move].weight == "none")
    rest = still if lasting else Draft((Move.HOLD,), Foot.NONE, span=clause.span)
    if clause.counts > 1:
        more = (rest,) * (clause.counts - 1)
        yield Role("events", (*more, draft) if late and lasting else (draft, *more), preference=cost)
        yield Role("events", (draft,), preference=cost + 0.3)
        return
    pad, pad_cost, most = _padding(clause, draft, rest)
    yield Role(
        "events",
        (draft,),
        preference=cost,
        pad=pad,
        pad_cost=pad_cost,
        pad_most=most,
        late=late and lasting,
        spread=late and move in (Move.WALK, Move.RUN),
        bare=bare,
        alone=pad_cost == _SLOW,
    )
    if move is Move.ROCK and draft.foot is not Foot.BOTH:
        recover = Draft((Move.RECOVER,), other(draft.foot) if draft.foot else None, span=clause.span)
        yield Role("events", (draft, recover), preference=cost + 0.1, implied=True)


_WALKING = {Move.WALK, Move.RUN}


def _walked(draft: Draft, counts: int) -> tuple[Draft, ...]:
    """Return so many walks from a foot on, the turn shared among them."""
    plain = replace(draft, turns=NO_TURN)
    steps = _several(plain, counts) if draft.foot in (Foot.RIGHT, Foot.LEFT) else (plain,) * counts
    return tuple(shared(steps, draft.turns)) if draft.turns != NO_TURN else steps


_SLOW = 0.7
"""What it costs that a plain step takes two counts."""


def _padding(clause: Clause, draft: Draft, rest: Draft) -> tuple[Draft, float, int]:
    """Return what may fill further counts after a step, what each costs, and how many."""
    move = draft.moves[0]
    if move in _LASTING:
        return rest, 0.06, 7
    if clause.slow and move in _WALKING:
        # "Slow walk right".
        return rest, 0.1, 1
    if move in GOING:
        named = draft.foot in (Foot.RIGHT, Foot.LEFT)
        going = replace(
            draft, foot=None if draft.foot is not Foot.NONE and not named else draft.foot, turns=NO_TURN, weight=None
        )
        if named and move in (Move.WALK, Move.RUN, Move.SKATE):
            going = replace(going, foot=None)
        return going, 0.3 if named else 0.12, 7
    if clause.slow:
        return rest, 0.2, 3
    return rest, _SLOW, 1


def _several(draft: Draft, times: int) -> tuple[Draft, ...]:
    """Return a draft several times: feet that take weight alternate, gestures stay on theirs."""
    late = replace(draft, turns=NO_TURN)
    row = move_rows()[draft.moves[0]]
    turned = draft.turns != NO_TURN
    if row.weight == "takes" and draft.foot in (Foot.RIGHT, Foot.LEFT):
        feet = [draft.foot if index % 2 == 0 else other(draft.foot) for index in range(times)]
        return tuple(
            replace(draft if not turned or index == times - 1 else late, foot=foot) for index, foot in enumerate(feet)
        )
    if draft.moves[0] is Move.BUMP and draft.foot in (Foot.RIGHT, Foot.LEFT):
        return (draft, *(replace(late, foot=Foot.NONE, weight=None) for _ in range(times - 1)))
    if draft.moves[0] is Move.STOMP and draft.foot in (Foot.RIGHT, Foot.LEFT):
        # All but the last leave the foot free for the next.
        up = replace(late, weight=foot_weight(other(draft.foot)))
        return (*(up,) * (times - 1), draft)
    if not turned:
        return (draft,) * times
    return (*(late,) * (times - 1), draft)
