"""Bare feet and ways that are more of the move before them: "walk right, left", "touch right out, in, out"."""

from dataclasses import replace

from trainer.dance.figures import foot_weight
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

Drafts = tuple[Draft | None, ...]

_CARRIED = {
    Move.WALK, Move.RUN, Move.SKATE, Move.SWAY, Move.BUMP, Move.SWIVEL, Move.TWIST, Move.STOMP, Move.HIP_ROLL, Move.FAN,
    Move.SPLIT, Move.KNEE_POP,
}  # fmt: skip
"""Moves that a bare foot or way after them is more of: "walk right, left", "swivel left, right, centre"."""

_LANDINGS = {Direction.IN, Direction.OUT, Direction.TOGETHER}

_TRAVELLING = {Direction.SIDE, Direction.FORWARD, Direction.BACK, Direction.CROSS, Direction.BEHIND}
OF_BODY = {Move.SWIVEL, Move.TWIST, Move.HIP_ROLL, Move.FAN, Move.SPLIT, Move.KNEE_POP}
_WAYS = {Foot.RIGHT: Direction.RIGHT, Foot.LEFT: Direction.LEFT}


def carried_on(drafts: Drafts, before: Draft, clause: Clause) -> Drafts:
    """Return bare feet or ways as more of the move before them."""
    move = before.moves[0]
    first = drafts[0] if len(drafts) == 1 else None
    bare = first is not None and first.foot is None and first.moves[0] is Move.STEP
    if move is Move.JUMP and first is not None and bare and first.direction in _LANDINGS:
        # "Jump out, in".
        return (replace(first, moves=(Move.JUMP,), foot=Foot.BOTH),)
    if move not in _CARRIED or (before.figure and not (move in OF_BODY and _home(first))):
        return drafts
    if move is Move.BUMP and clause.times > 1 and drafts[0] is not None and drafts[0].foot in _WAYS:
        first = _carried(drafts[0], before)
        return (first, *(replace(first, foot=Foot.NONE, weight=None) for _ in drafts[1:]))
    return tuple(_carried(draft, before) if draft is not None else None for draft in drafts)


def _home(draft: Draft | None) -> bool:
    """Whether a bare way leads back to the middle: "applejack left, centre"."""
    return draft is not None and draft.foot is None and draft.direction in (Direction.IN_PLACE, Direction.IN)


def _carried(draft: Draft, before: Draft) -> Draft:
    move = before.moves[0]
    way = _WAYS.get(draft.foot or Foot.NONE)
    if move in OF_BODY and draft.direction in _TRAVELLING:
        # "Heels out, in, right side".
        return draft
    if move in OF_BODY:
        return replace(draft, moves=before.moves, foot=before.foot, direction=way or draft.direction)
    if way is None or draft.foot is None or draft.moves[0] not in (Move.STEP, Move.WALK):
        return draft
    if draft.direction is not None and move is not Move.BUMP:
        return draft
    if move is Move.BUMP:
        return replace(draft, moves=before.moves, direction=way, weight=foot_weight(draft.foot))
    return replace(draft, moves=before.moves, direction=draft.direction or before.direction)
