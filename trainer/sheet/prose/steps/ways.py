"""Ways: which two words of direction belong to one step."""

from collections.abc import Mapping
from functools import cache

from trainer.sheet.prose.steps.wording import wording
from trainer.terms import Direction


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
