"""A clause that is one step, or a row of feet: its move, foot, way and turn, and over how many counts it may go."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.dance.figures import foot_weight
from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.carrying import OF_BODY
from trainer.sheet.prose.steps.clauses import GESTURES, Clause
from trainer.sheet.prose.steps.feet import diagonal_of
from trainer.sheet.prose.steps.lasting import GOING, events_of
from trainer.sheet.prose.steps.moves_said import moves_of
from trainer.sheet.prose.steps.restating import restating
from trainer.sheet.prose.steps.roles import NO_TURN, Named, Role, other, shared
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_STILL = {
    Move.HOLD,
    Move.CLAP,
    Move.SNAP,
    Move.TURN,
    Move.BOUNCE,
    Move.SHIMMY,
    Move.BEND,
    Move.KNEE_POP,
    Move.BODY_ROLL,
    Move.HIP_ROLL,
    Move.UNWIND,
}
"""Moves of no foot, whatever is said."""

_BOTH = {Move.JUMP}
"""Moves of both feet, where none is said."""


_STAYS = {"stay", "rest", "stand still"}

_PLACED = {Move.TOUCH, Move.POINT, Move.TAP}
"""Gestures that touch the floor: they share a count only where the words say so."""

_OF_PARTS = {Move.HEEL, Move.TOE}


def direction_of(clause: Clause, foot: Foot | None) -> Direction | None:
    """Return where a step goes."""
    way = clause.way
    behind = any(ref.way is Direction.BEHIND for ref in clause.refs)
    if way is Direction.CROSS and behind:
        # "Cross left behind right" goes behind: the reference tells more than the verb.
        return Direction.BEHIND
    if isinstance(way, Direction):
        return way
    if way is not None:
        return diagonal_of(way, foot)
    if clause.refs:
        return clause.refs[0].way
    if clause.to is not None:
        if foot is not None and foot is not clause.to and clause.to in (Foot.RIGHT, Foot.LEFT):
            return (
                Direction.TOGETHER
                if not clause.moves or clause.moves[0].value in (Move.DRAG, Move.SLIDE)
                else _SIDES[clause.to]
            )
        return Direction.SIDE if foot is clause.to else _SIDES.get(clause.to)
    return None


_SIDES = {Foot.RIGHT: Direction.RIGHT, Foot.LEFT: Direction.LEFT}


_BACK_ON = {Move.RECOVER, Move.REPLACE}


def feet_of(clause: Clause) -> list[tuple[Foot | None, float]]:
    """Return the feet that may act in a step clause, with what each costs; None: the free one."""
    if clause.feet:
        return [(clause.feet[0], 0.0)]
    ref = clause.refs[0] if clause.refs else None
    if ref is not None and ref.foot in (Foot.RIGHT, Foot.LEFT):
        if ref.way is Direction.TOGETHER and any(lex.value in _BACK_ON for lex in clause.moves):
            # "Replace weight to the left foot".
            return [(ref.foot, 0.0)]
        if ref.sure:
            return [(other(ref.foot), 0.03)]
        if clause.ref_first and not clause.moves:
            return [(ref.foot, 0.03), (other(ref.foot), 0.12)]
        return [(other(ref.foot), 0.05), (ref.foot, 0.08)]
    if clause.to in (Foot.RIGHT, Foot.LEFT):
        return [(clause.to, 0.03), (None, 0.1)]
    return [(None, 0.0)]


def step_roles(clause: Clause) -> Iterator[Role]:
    said, names = moves_of(clause)
    move = said[0]
    if clause.run:
        yield from _run_roles(clause, said)
        return
    if move in _STILL or (move_rows()[move].footless and not clause.feet and clause.to is None):
        options: list[tuple[Foot | None, float]] = [(_still_foot(move, clause), 0.0)]
    else:
        options = feet_of(clause)
    for foot, cost in options:
        draft = _draft(clause, said, foot)
        only_parts = bool(clause.moves) and all(lex.kind == "part" for lex in clause.moves)
        yield from _with_gestures(clause, draft, cost, bare=not names or only_parts)
    if _may_lower(clause):
        # "Right toe, heel": a strut where the foot could not touch again.
        yield Role("events", (Draft((Move.DROP,), None, span=clause.span),), preference=_LOWERED, lowers=True)
    yield from _swaps(clause, said, options)
    counted = move in GOING or (clause.times > 1 and bool(clause.moves) and clause.moves[0].low.startswith("step"))
    if counted and not clause.feet and clause.introduces != ":":
        turns = clause.turning.turns if clause.turning else NO_TURN
        yield Role("summary", preference=0.25, value=Named("", 0, None, turns, (), move=move))
    if len(clause.moves) > 1 and clause.moves[0].value == "ball":
        yield from _ball_roles(clause, said)
    yield from restating(clause)
    if clause.introduces == ":":
        turns = clause.turning.turns if clause.turning else NO_TURN
        going = move if move in (GOING | OF_BODY) and not clause.feet else None
        name = "" if going else clause.words
        yield Role("summary", preference=0.12, value=Named(name, 0, options[0][0], turns, (), move=going))


_LOWERED = 0.15


def _may_lower(clause: Clause) -> bool:
    """Whether a clause is no more than a heel or toe, behind a comma."""
    bare = not (clause.feet or clause.ways or clause.refs or clause.run or clause.typos or clause.turning)
    return bare and not clause.joined and [lex.value for lex in clause.moves] in (["heel"], ["toe"])


def _swaps(clause: Clause, said: tuple[Move, ...], options: Sequence[tuple[Foot | None, float]]) -> Iterator[Role]:
    """Yield that a clause takes the place of the step before it."""
    if clause.finish:
        for foot, cost in options:
            yield Role("swap", (_draft(clause, said, foot),), preference=cost + 0.02)
    if clause.moves and clause.moves[0].low.startswith("grind") and not clause.feet:
        # "Touch right heel forward and grind it ¼ right": one event.
        ground = _draft(clause, said, None)
        turns = clause.turning.turns if clause.turning else NO_TURN
        yield Role("swap", (replace(ground, turns=turns),), preference=0.1)


def _ball_roles(clause: Clause, said: tuple[Move, ...]) -> Iterator[Role]:
    """Yield "ball step" as two events: the foot said is that of the ball, or of the step."""
    foot = clause.feet[0] if clause.feet else None
    for first, second, cost in ((None, foot, -0.02), (foot, None, 0.02)):
        ball = Draft((Move.BALL,), first, Direction.TOGETHER, span=clause.span)
        yield Role("events", (ball, _draft(clause, said, second)), preference=0.05 + cost)


def _still_foot(move: Move, clause: Clause) -> Foot | None:
    if move in _BOTH:
        return Foot.BOTH
    if move in (Move.SWAY, Move.FAN):
        return None
    return Foot.NONE


def _draft(clause: Clause, said: tuple[Move, ...], foot: Foot | None) -> Draft:
    direction = direction_of(clause, foot)
    if direction is None and clause.way is None:
        direction = next((lex.way for lex in clause.moves if lex.way is not None), None)
    body = said[0] in (Move.BUMP, Move.HIP_ROLL, Move.SWIVEL, Move.TWIST)
    if body and direction is None and clause.feet:
        direction = _SIDES.get(clause.feet[0])
    if said[0] in (Move.SWIVEL, Move.TWIST, Move.SPLIT):
        foot = Foot.NONE
    return Draft(said, foot, direction, span=clause.span)


def _with_gestures(clause: Clause, draft: Draft, cost: float, *, bare: bool) -> Iterator[Role]:
    move = draft.moves[0]
    gesture = move in GESTURES and bool(clause.moves)
    turning = clause.turning
    if (gesture or move in _OF_PARTS) and clause.ways and not clause.refs and clause.times == 1 and clause.counts == 0:
        yield from _two_in_one(clause, draft, cost)
    if move is Move.HOLD and clause.ing:
        yield Role("nothing", preference=0.05)
    if (
        move is Move.HOLD
        and clause.moves
        and clause.moves[0].low in _STAYS
        and clause.counts == 0
        and "there" not in clause.words
        and (clause.joined or clause.moves[0].low != "rest")
    ):
        # "Left forward and stay" has no count of its own where there is none for it; "stay there" is a pose, "rest"
        # behind a comma a beat.
        yield Role("nothing", preference=0.35)
    if gesture and (clause.ing or move not in _PLACED):
        yield Role("also", (draft,), preference=cost + _also_cost(clause, move))
    event_cost = cost + (0.2 if gesture and (clause.ing or clause.aside) else 0.0)
    if move is Move.BUMP and draft.foot in (Foot.RIGHT, Foot.LEFT):
        # Hips take the weight with them, or they do not; the next step tells.
        for weighted in (replace(draft, weight=foot_weight(draft.foot)), replace(draft, foot=Foot.NONE)):
            yield from events_of(clause, weighted, event_cost + (0.4 if weighted.foot is Foot.NONE else 0.0), bare=bare)
        return
    if turning is None:
        yield from events_of(clause, draft, event_cost, bare=bare)
        return
    turned = replace(draft, turns=turning.turns)
    yield from events_of(clause, turned, event_cost, bare=bare)
    if move in (Move.STEP, Move.WALK, Move.ROCK, Move.TOUCH, Move.PRESS):
        pivot = Draft((Move.PIVOT,), None, turns=turning.turns, other_foot_than_last=True, span=clause.span)
        if clause.times == 1:
            yield Role("events", (draft, pivot), preference=event_cost + 0.15)
        elif move is Move.STEP:
            # "Step half turn twice".
            yield Role("events", (draft, pivot) * clause.times, preference=event_cost + 0.15)


def _two_in_one(clause: Clause, draft: Draft, cost: float) -> Iterator[Role]:
    """Yield "cross point" as a step and a gesture of the other foot, "heel cross" as a gesture and a step of one."""
    step = replace(draft, moves=(Move.STEP,))
    gesture = replace(draft, direction=None)
    if all(lex.kind == "part" for lex in clause.moves):
        yield Role("events", (gesture, replace(step, foot=None)), preference=cost + 0.3)
        return
    # "R side drag" names a long step and what follows it.
    drags = any(f" side {move} " in f" {clause.words} " for move in ("drag", "slide"))
    yield Role("events", (step, replace(gesture, foot=None)), preference=cost + (0.0 if drags else 0.35))
    if clause.way in (Direction.OUT, Direction.CROSS) and not clause.feet:
        yield Role(
            "events",
            (gesture, replace(step, foot=None)),
            preference=cost + (0.34 if clause.way is Direction.OUT else 0.36),
        )
    if draft.foot is not None:
        yield Role("events", (replace(step, foot=None), gesture), preference=cost + 0.38)


def _also_cost(clause: Clause, move: Move) -> float:
    """Return what it costs that a gesture shares the count before it."""
    if move in _PLACED:
        return 0.1
    if clause.ing or clause.aside:
        return 0.0
    return 0.35


_SHARING = {Move.SWAY, Move.BUMP, Move.HIP_ROLL}
"""Moves of the body that a step may begin: "step right to the side and sway right, left"."""


def _run_roles(clause: Clause, said: tuple[Move, ...]) -> Iterator[Role]:
    """Yield a row of feet: one event each, and the turn said shared among them."""
    move = said[0]
    if clause.aside and not clause.moves and not clause.ways:
        yield Role("feet", value=clause.run)
    body = move in (Move.SWIVEL, Move.TWIST)
    drafts: list[Draft] = []
    if move is Move.JUMP or (move is Move.HOP and len(set(clause.run)) > 1):
        said = (Move.LEAP, Move.STEP)
    for foot in clause.run:
        draft = Draft(said, foot, direction_of(replace(clause, run=(), feet=(foot,)), foot), span=clause.span)
        if body or move is Move.HIP_ROLL:
            draft = replace(draft, foot=Foot.NONE, direction=_SIDES.get(foot))
        elif move is Move.BUMP:
            again = bool(drafts) and drafts[-1].direction is _SIDES.get(foot)
            draft = replace(draft, direction=_SIDES.get(foot), weight=None if again else foot_weight(foot))
            draft = replace(draft, foot=Foot.NONE) if again else draft
        drafts.append(draft)
    if clause.turning is not None:
        drafts = list(shared(drafts, clause.turning.turns))
    bare = not any(lex.kind == "move" for lex in clause.moves)
    if move is Move.ROCK and len(drafts) == 2:
        drafts[1] = replace(drafts[1], moves=(Move.RECOVER, Move.ROCK), direction=None)
    yield Role("events", tuple(drafts), bare=bare)
    if move is Move.BUMP:
        still = tuple(replace(one, foot=Foot.NONE, weight=None) for one in drafts)
        yield Role("events", still, preference=0.25 * len(drafts))
    if move in GESTURES and len(drafts) > 1 and (clause.joined or move in _SHARING):
        yield Role("events", tuple(drafts[1:]), preference=0.05 if clause.joined else 0.3, shared=drafts[0])
    if clause.times > 1:
        doubled = move is Move.BUMP and "double" in clause.words
        several = tuple(one for draft in drafts for one in (draft,) * clause.times) if doubled else ()
        yield Role("events", several or tuple(drafts) * clause.times, preference=0.02, bare=bare)
    if clause.introduces == ":":
        yield Role("summary", preference=0.3, value=Named(clause.words, 0, clause.run[0], NO_TURN, ()))
