"""A pivot named with its turn and then spelled out without: "pivot 1/4 L x2: step, turn, step, turn"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.turns import Turning

_STEPS = {"move", "part", "way", "foot", "side", "run", "ref", "to", "figure", "break", "close", "facing"}


def with_turns_spelled(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with the turn that opens an item given to each that is told after it without an amount."""
    end = next((at for at, lex in enumerate(lexes) if lex.value == ":" or lex.kind == "open"), 0)
    heads = [lex.value for lex in lexes[:end] if lex.kind == "turning"]
    if len(heads) != 1 or heads[0].amount is None or any(map(_is_a_step, lexes[:end])):
        return list(lexes)
    rest = list(lexes[end + 1 :])
    told = [lex.value for lex in rest if lex.kind == "turning"]
    if not told or not all(_is_that(one, heads[0]) for one in told) or not any(lex.kind == "move" for lex in rest):
        return list(lexes)
    if lexes[end].kind == "open" and rest[-1].kind == "close":
        rest.pop()
    return [lex._replace(value=heads[0]) if lex.kind == "turning" else lex for lex in rest]


def _is_a_step(lex: Lex) -> bool:
    return lex.kind in _STEPS and lex.value != ","


def _is_that(turning: Turning, head: Turning) -> bool:
    """Whether a turn without an amount may be the one that was named."""
    return turning.amount is None and turning.side in (None, head.side)
