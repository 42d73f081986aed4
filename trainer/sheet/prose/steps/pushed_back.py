"""A push after a lunge, a rock or a step: the other foot takes the weight back, "lunge right, push back".

A push of the foot that is free then presses the floor, as in a paddle turn, and takes no weight; this one pushes the
body home from the foot that stepped last. Common practice, no source.
"""

from dataclasses import replace

from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Move

_GIVING = {Move.LUNGE, Move.ROCK}
"""Steps from which one comes back."""
_STEPPED = _GIVING | {Move.STEP, Move.STOMP}
_HOME = {Direction.BACK, Direction.IN_PLACE, Direction.TOGETHER}


def pushed_back(draft: Draft, before: Draft) -> Draft:
    """Return a push of the other foot than the one that stepped before as the weight that comes back to it."""
    home = draft.direction in _HOME or before.moves[0] in _GIVING
    other = draft.foot is None or before.foot is None or draft.foot is not before.foot
    if draft.moves[0] is not Move.PUSH or before.moves[0] not in _STEPPED or not (home and other):
        return draft
    return replace(draft, moves=(Move.RECOVER, *draft.moves), direction=None)
