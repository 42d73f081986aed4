"""What follows a gesture without a verb: a way, or the other part of the foot.

"Touch the right toe forward, to the side, step ..." touches twice; "heel forward, together" steps down; "right toe,
right heel" may be a strut. The words leave it open: a draft names both moves, the likelier first, and the feet after
it decide.
"""

from dataclasses import replace

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_TOES = (Move.TOUCH, Move.POINT, Move.TAP, Move.TOE)
_FLOOR = (*_TOES, Move.HEEL, Move.DIG)
_AIR = (Move.KICK, Move.FLICK)

_SET_DOWN = {Direction.TOGETHER, Direction.IN_PLACE, Direction.BEHIND, Direction.CROSS}
"""Ways in which a foot that has gestured is rather set down."""
_IN_OUT = {Direction.IN, Direction.OUT}

_DOWN = {"down", "goes down", "comes down"}

_OTHER_PARTS = {
    Move.HEEL: _TOES,
    Move.TOE: (Move.HEEL,),
}  # fmt: skip
"""After which gestures the other part of the same foot may be lowered."""


def after_gesture(draft: Draft, before: Draft, clause: Clause, *, near: bool) -> Draft:
    """Return the step of a bare way, or a bare part of the foot, as what it may be after a gesture.

    `near`: the gesture stands in the same item.
    """
    gestures = tuple(move for move in before.moves if move in _FLOOR or move in _AIR)
    if not gestures or before.moves[0] not in gestures or before.figure or before.weight is not None:
        return draft
    if draft.foot not in (None, before.foot):
        return draft
    if draft.direction is None:
        lowered = draft.moves[0] in _OTHER_PARTS and before.moves[0] in _OTHER_PARTS[draft.moves[0]]
        lowered = lowered and draft.foot in (None, before.foot) and Move.DROP not in draft.moves
        return replace(draft, moves=(*draft.moves, Move.DROP), foot=before.foot) if lowered else draft
    if draft.moves != (Move.STEP,) or clause.feet or clause.refs:
        return draft
    if clause.words in _DOWN and before.moves[0] in _OTHER_PARTS:
        # "Right toe forward, down".
        return replace(draft, moves=(Move.DROP,), direction=None, foot=before.foot)
    if draft.direction in _IN_OUT:
        # "Touch right out, in, out", but "heel, in".
        again = before.moves[0] in _TOES
    else:
        again = near and before.foot in (Foot.RIGHT, Foot.LEFT) and _goes_on(draft, before)
    if not near and before.foot not in (Foot.RIGHT, Foot.LEFT):
        return draft
    foot = before.foot if near else draft.foot
    return replace(draft, moves=(*gestures, Move.STEP) if again else (Move.STEP, *gestures), foot=foot)


def _goes_on(draft: Draft, before: Draft) -> bool:
    """Whether a way is rather one more place of the same gesture than where the foot steps."""
    if draft.direction in _SET_DOWN or before.direction in (None, *_SET_DOWN - {Direction.CROSS}) or draft.turns[0]:
        return False
    # "Kick right forward, back, together" steps back.
    return draft.direction is not before.direction and not (
        draft.direction is Direction.BACK and before.moves[0] in (*_AIR, Move.HEEL)
    )
