"""A whole turn that is told behind its steps and a comma: "three steps to the left, thereby a full turn left".

It is theirs, as it is without the comma: "three steps to the left with a full turn left". Common practice, no source.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Move

_STEPS = {Move.STEP, Move.WALK}
_SEVERAL = range(2, 5)
"""Steps over which a whole turn is spread."""


def with_turns_of_steps(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the comma between so many steps and the whole turn that they make."""
    done: list[Lex] = []
    for at, lex in enumerate(lexes):
        if lex.kind == "break" and lex.value == "," and _are_steps(_row_before(lexes, at)) and _is_turn(lexes, at + 1):
            continue
        done.append(lex)
    return done


def _row_before(lexes: Sequence[Lex], at: int) -> Sequence[Lex]:
    first = at
    while first and lexes[first - 1].kind not in ("break", "open", "close"):
        first -= 1
    return lexes[first:at]


def _are_steps(row: Sequence[Lex]) -> bool:
    """Whether a row tells so many steps, and nothing of how they turn."""
    several = any(
        one.kind == "number" and one.value in _SEVERAL and after.kind == "move" and after.value in _STEPS
        for one, after in pairwise(row)
    )
    return several and not any(lex.kind in ("amount", "turn", "figure") for lex in row)


def _is_turn(lexes: Sequence[Lex], at: int) -> bool:
    """Whether nothing but a whole turn is told from a place on, up to the next mark."""
    end = at
    while end < len(lexes) and lexes[end].kind not in ("break", "open", "close"):
        end += 1
    told = [
        lex for lex in lexes[at:end] if lex.kind not in ("glue", "side") and not is_task(lex, "with", "and", "to", "in")
    ]
    plain = [lex for lex in told if not (lex.kind == "number" and lex.value == 1)]
    return [lex.kind for lex in plain] == ["amount", "turn"] and plain[0].value == Fraction(1)
