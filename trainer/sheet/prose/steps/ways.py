"""Ways: which two words of direction belong to one step."""

from collections.abc import Mapping, Sequence
from functools import cache

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.wording import wording
from trainer.terms import Direction, Move


@cache
def _same_ways() -> Mapping[tuple[Direction, Direction], Direction]:
    return {
        (Direction(first), Direction(second)): Direction(way)
        for way, pairs in wording()["one_step"].items()
        for first, second in pairs
    }


def joined_way(first: Direction | str, second: Direction | str) -> Direction | str | None:
    """Return the way of one step that has both, or None where they are two steps."""
    if isinstance(first, Direction) and isinstance(second, Direction):
        if first in _DIAGONAL_WAYS or second in _DIAGONAL_WAYS:
            return first if first in _DIAGONAL_WAYS else second
        return _same_ways().get((first, second))
    return second if not isinstance(second, Direction) else first


_DIAGONAL_WAYS = {Direction.FORWARD_RIGHT, Direction.FORWARD_LEFT, Direction.BACK_RIGHT, Direction.BACK_LEFT}

_OPEN = {(one, other) for one in (Direction.FORWARD, Direction.BACK) for other in (Direction.OUT, Direction.IN)}
_OF_ONE_STEP = _OPEN | {(other, one) for one, other in _OPEN}


def with_ways_of_one_step(lexes: Sequence[Lex]) -> Sequence[Lex]:
    """Return the lexemes without the "and" between two ways of one foot: "step right forward and out".

    Two feet may "jump back and out".
    """
    if any(lex.value is Move.JUMP for lex in lexes):
        return lexes
    return [lex for at, lex in enumerate(lexes) if not (is_task(lex, "and") and _of_one_step(lexes, at))]


def _of_one_step(lexes: Sequence[Lex], at: int) -> bool:
    """Whether the word at a place stands between two ways that a foot can only go at once."""
    before, after = lexes[max(at - 2, 0) : at], lexes[at + 1 : at + 3]
    if not before or not after or after[0].kind != "way":
        return False
    if before[-1].kind in ("side", "foot"):
        # "Forward right and out", but not "forward right and out left".
        return before[0].kind == "way" and _at_once(before[0], after[0]) and after[-1].kind not in ("side", "foot")
    return before[-1].kind == "way" and _at_once(before[-1], after[0])


def _at_once(one: Lex, other: Lex) -> bool:
    return (one.value, other.value) in _OF_ONE_STEP
