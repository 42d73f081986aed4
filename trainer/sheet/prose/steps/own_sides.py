"""To which side a turn goes that tells none: a step opens to the side of its foot, a figure as it turns by nature.

"Vine to the left, turn a quarter on the last step" turns left, "side right with a quarter turn" right. The other side
stays possible: stated facings decide.
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.dance.figures import figures
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_OPENING = {
    Direction.SIDE, Direction.FORWARD, Direction.RIGHT, Direction.LEFT, Direction.FORWARD_RIGHT, Direction.FORWARD_LEFT,
}  # fmt: skip
_STEPS = {Move.STEP, Move.WALK}


def own_side_first(
    turns: tuple[Fraction, ...], figure: Sequence[Draft], step: Draft, named: tuple[Fraction, ...]
) -> tuple[Fraction, ...]:
    """Return signed turns with those first that go the way of the figure that ends in a step, or of the step itself.

    `named` are the turns of a figure's name that is spelled out: its side is told already.
    """
    if not any(turn > 0 for turn in turns) or not any(turn < 0 for turn in turns):
        return turns
    if len({turn > 0 for turn in named if turn}) == 1:
        return tuple(sorted(turns, key=lambda turn: (turn > 0) is not (named[0] > 0)))
    if figure and figure[0].figure in figures():
        foot, right = figure[0].foot, (figures()[figure[0].figure].turn or 1) > 0
    elif step.moves[0] in _STEPS and step.direction in _OPENING:
        foot, right = step.foot, True
    else:
        return turns
    if foot not in (Foot.RIGHT, Foot.LEFT):
        return turns
    return tuple(sorted(turns, key=lambda turn: (turn > 0) is not ((foot is Foot.RIGHT) == right)))
