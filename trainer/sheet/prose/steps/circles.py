"""Steps that turn a little each and go round together: "a full circle left, R L R L, a quarter on each step".

What each of them turns goes the way of the circle, and may be told before their feet.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.steps.clauses import Clause
from trainer.terms import Foot

_HALF = Fraction(1, 2)
"""So far at least they turn together."""
_ROUND = "walk around"


def with_sides_of_circles(clauses: Sequence[Clause]) -> tuple[Clause, ...]:
    """Return the clauses, a turn on each step with the side of the turn before it, behind the row of those steps."""
    done: list[Clause] = []
    side: Foot | None = None
    for clause in clauses:
        turning = clause.turning
        if turning is not None and clause.each and turning.side is None and side is not None:
            done.append(replace(clause, turning=turning._replace(side=side)))
            continue
        side = _side(clause) or side
        done.append(clause)
    for at, (before, clause) in enumerate(pairwise(done)):
        row = len(clause.run) > 1 and clause.turning is None
        if before.kind == "turn" and before.each and row and not (at and done[at - 1].run):
            done[at : at + 2] = [clause, before]
    return tuple(done)


def _side(clause: Clause) -> Foot | None:
    """Return the way that the steps of a clause go round together."""
    turning = clause.turning
    if turning is not None and turning.side is not None and (turning.amount is None or turning.amount >= _HALF):
        return turning.side
    return clause.feet[0] if clause.figure == _ROUND and clause.side_after and clause.feet else None
