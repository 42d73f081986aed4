"""Parts whose facings are told as they are danced first, and not as if each began at 12:00.

Part B of a table headed "facing at first go" may begin at 9:00. Such a frame was meant where at least two facings are
stated, it makes all of them right, and it breaks less than beginning at home does.
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.dance.facing import turned
from trainer.sheet.prose.search.paths import DISBELIEVED, Goal, Path, State, cheapest
from trainer.sheet.prose.words import Item, Reading

_AGREE = 2
"""So many stated facings at least must agree."""
_QUARTERS = (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))


def in_its_frame(items: Sequence[Item], readings: Sequence[Sequence[Reading]], home: Path, goal: Goal) -> Path:
    """Return the path of a part from where its facings say that it begins; `home` is the one from 12:00."""
    stated = sum(token.kind == "facing" for item in items for token in item.text)
    if stated < _AGREE or home.cost[0] < DISBELIEVED or _all_right(home):
        return home
    starts = [(State(home.start.weight, facing), 0.0) for facing in _QUARTERS]
    framed = cheapest(items, readings, starts, goal)
    fits = framed.cost[0] <= home.cost[0] - DISBELIEVED and _all_right(framed)
    return framed if fits and sum(one.facing is not None for one in framed.said) >= _AGREE else home


def _all_right(path: Path) -> bool:
    """Whether the turns of a path lead to every facing that is stated."""
    facing = path.start.facing
    for one in path.said:
        facing = turned(facing, one.turn)
        if one.facing is not None and one.facing != facing:
            return False
        facing = turned(facing, one.then)
    return not any(problem.kind == "facing" for problem in path.problems)
