"""Which way a named figure turns: as its words say, as its foot brings it, or as it always does."""

from fractions import Fraction

from trainer.dance.figures import Figure
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import NO_TURN
from trainer.terms import Foot


def named_turns(clause: Clause, row: Figure) -> tuple[Fraction, ...]:
    """Return the turns of a figure that is spelled out next; without a side first those that its foot brings."""
    if clause.turning is None:
        return _usual_turn(clause, row) if clause.introduces == ":" else NO_TURN
    turns = clause.turning.turns
    foot = clause.run[0] if clause.run else clause.feet[0] if clause.feet else clause.to
    if clause.turning.side is not None or foot not in (Foot.RIGHT, Foot.LEFT):
        return turns
    if turns_that_way(clause, row):
        return tuple(sorted(turns, key=lambda turn: (turn > 0) is not (foot is Foot.RIGHT)))
    own = natural_side(row) * (-1 if foot is Foot.LEFT else 1)
    return tuple(sorted(turns, key=lambda turn: (turn > 0) is not (own > 0)))


def _usual_turn(clause: Clause, row: Figure) -> tuple[Fraction, ...]:
    """Return the turn of a figure that always turns, where a sheet tells none: "chase half turn left: R, L, R"."""
    if row.turn is None or not row.needs_foot:
        return NO_TURN
    foot = clause.run[0] if clause.run else clause.feet[0] if clause.feet else clause.to
    sign = natural_side(row) * (-1 if foot is Foot.LEFT else 1)
    if turns_that_way(clause, row):
        sign = 1 if foot is Foot.RIGHT else -1
    return (abs(row.turn) * sign,) if foot in (Foot.RIGHT, Foot.LEFT) else NO_TURN


def natural_side(row: Figure) -> int:
    """Return the way that a figure's turn goes which starts on the right foot: 1 right, -1 left."""
    return -1 if row.turn is not None and row.turn < 0 else 1


def turns_that_way(clause: Clause, row: Figure) -> bool:
    """Whether right or left after a figure's name is its turn's side: "paddle turn left" is pushed by the right."""
    return clause.side_after and not clause.sure and row.turn is not None and row.turn < 0 and not _sided(clause)


def _sided(clause: Clause) -> bool:
    return clause.turning is not None and clause.turning.side is not None
