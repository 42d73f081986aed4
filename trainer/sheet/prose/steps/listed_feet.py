"""Feet told behind a comma after a move without one: "step on the spot, right, left, right, left" is four steps."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.steps.clauses import Clause
from trainer.terms import Move

_OF_NO_FOOT = {Move.HOLD, Move.CLAP, Move.SNAP, Move.TURN, Move.SHIMMY, Move.POSE}
_LEAST = 2
"""Feet of a row."""


def with_feet_behind(clauses: Sequence[Clause]) -> tuple[Clause, ...]:
    """Return the clauses, each footless move joined with the row of feet behind it; nothing where there is none."""
    done: list[Clause] = []
    for clause in clauses:
        if done and _lists_feet(clause) and _has_none(done[-1]):
            before = done[-1]
            done[-1] = replace(before, run=clause.run, introduces="", words=f"{before.words} {clause.words}")
        else:
            done.append(clause)
    return tuple(done) if len(done) < len(clauses) else ()


def _lists_feet(clause: Clause) -> bool:
    """Whether a clause is a row of feet and nothing else."""
    more = clause.moves or clause.ways or clause.refs or clause.figure or clause.turning or clause.aside
    return clause.kind == "step" and len(clause.run) >= _LEAST and not more


def _has_none(clause: Clause) -> bool:
    """Whether a clause tells one move of the feet, and neither whose nor how often."""
    told = clause.feet or clause.run or clause.refs or clause.to or clause.start or clause.turning or clause.aside
    move = clause.moves[0].value if clause.moves else None
    return clause.kind == "step" and isinstance(move, Move) and move not in _OF_NO_FOOT and not told
