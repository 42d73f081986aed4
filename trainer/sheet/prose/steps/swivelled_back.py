"""Heels or toes that swivel out and come back: "swivel both heels to the right, and back" are two swivels."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.steps.clauses import Clause
from trainer.terms import Direction, Move

_OUT = {Move.SWIVEL, Move.TWIST}
_BROUGHT = ("return them", "bring them")
_BACK = {"back", "back again", "and back", "back there"}


def with_swivels_back(clauses: Sequence[Clause]) -> tuple[Clause, ...]:
    """Return the clauses, a bare "back" behind a swivel as a swivel to the middle."""
    done = list(clauses)
    for at, (before, clause) in enumerate(pairwise(clauses), 1):
        swivels = before.kind == "step" and bool(before.moves) and before.moves[0].value in _OUT
        bare = clause.ways == (Direction.BACK,) and clause.words in _BACK and not clause.moves
        brought = clause.words.startswith(_BROUGHT) and "foot" not in clause.words
        told = clause.feet or clause.run or clause.refs or clause.turning or clause.follows
        if swivels and clause.kind == "step" and (bare or brought) and not told:
            done[at] = replace(clause, moves=before.moves, ways=(Direction.IN_PLACE,), unknown=())
    return tuple(done)
