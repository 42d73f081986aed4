"""Rocks told behind where they go: "R to side and rock, back on L" is a rock of the right foot, and one step."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Move

_ENDS = ("break", "open", "close")
_RUNS_TO = {"side", "foot", "way", "prep", "ref", "to", "glue", "part", "move"}


def with_rocks_first(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes, each such rock at the head of its clause."""
    done: list[Lex] = []
    for at, lex in enumerate(lexes):
        rocks = lex.kind == "move" and lex.value is Move.ROCK and not lex.ing
        ends = at + 1 == len(lexes) or lexes[at + 1].kind in _ENDS
        first = _clause_before(done) if rocks and ends and done and is_task(done[-1], "and") else None
        if first is None:
            done.append(lex)
            continue
        told = [one for one in done[first:-1] if one.kind != "move"]
        done[first:] = [lex, *told]
    return done


def _clause_before(done: Sequence[Lex]) -> int | None:
    """Return where the clause begins that ends with an "and", if it is no more than a step of one foot somewhere."""
    first = len(done) - 1
    while first > 0 and done[first - 1].kind not in _ENDS and not is_task(done[first - 1], "and", "then"):
        first -= 1
    clause = done[first:-1]
    moves = [lex.value for lex in clause if lex.kind == "move"]
    acts = any(lex.kind in ("side", "foot") for lex in clause) and any(lex.kind in ("way", "prep") for lex in clause)
    plain = all(lex.kind in _RUNS_TO for lex in clause)
    return first if acts and plain and set(moves) <= {Move.STEP} else None
