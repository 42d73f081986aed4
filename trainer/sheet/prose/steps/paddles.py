"""A paddle turn: some pivots after a step, or pushes of the free foot round the standing one."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import Role
from trainer.sheet.prose.steps.turns import Turning
from trainer.sheet.prose.words import Draft
from trainer.terms import Move


def paddles(clause: Clause) -> Iterator[Role]:
    """Yield a paddle turn of one count: a pivot after a step, or a push of the free foot that takes no weight."""
    turning = clause.turning or Turning(Fraction(1, 4), None, "")
    foot = clause.run[0] if clause.run else clause.feet[0] if clause.feet else None
    if clause.side_after and not clause.sure and turning.side is None:
        turning, foot = turning._replace(side=foot), None
    own = Draft((Move.PIVOT,), None, turns=turning.turns, figure="paddle turn", span=clause.span)
    pivot = replace(own, other_foot_than_last=True)
    push = replace(own, moves=(Move.PUSH, Move.TOUCH), foot=foot, figure_start=True)
    if clause.times == 1:
        yield Role("events", (pivot,), preference=0.05)
        yield Role("events", (push,), preference=0.15 if foot is None else 0.05)
        return
    yield Role("events", (push,) * clause.times, preference=0.1)
    yield Role("events", (pivot,), preference=0.1, repeats=clause.times)
