"""What teachers tell beside a dance, read on the same page each time: where a wall is left, what is put in there."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_TOLD = tomllib.loads((Path(__file__).parent / "told_beside.toml").read_text(encoding="utf-8"))["told"]
_DANCE = """HEMP AND LATCH
24 counts, 4 walls, rolling count, weight on the left

EIGHT ONE
On 1 step right to the side. On 2 rock left behind, on & recover right. On 3 step left to the side. On 4 rock right
behind, on & recover left. On 5 step right forward, on 6 step left forward, on 7 step right forward, on 8 step left
forward, on & step right forward, on a step left forward.
EIGHT TWO
On 1 walk right, on 2 walk left, on 3 walk right. On 4 & a run forward left, right, left. On 5 walk right, on 6 walk
left, on 7 rock right forward, on 8 recover left.
EIGHT THREE
On 1 step right back, on 2 step left back, on 3 step right back, on & close the left to it, on a step right forward. On
4 step left forward. On 5 rock right forward, on 6 recover left. On 7 walk right, on 8 turn a quarter to the left and
step left forward.

"""


@pytest.mark.parametrize("one", _TOLD, ids=lambda one: one["text"][:50])
def test_what_is_told(one: dict[str, Any]) -> None:
    routine, problems = read(_DANCE + one["text"] + "\n")
    assert not loud(problems)
    assert [len(section.events) for section in routine.parts[0].sections] == [12, 10, 10]
    departures = [(line.passes, departure) for line in routine.order for departure in line.departures]
    assert [passes for passes, _ in departures] == [(one["wall"],)]
    departure = departures[0][1]
    where = (departure.after, departure.before, departure.leave)
    assert where == (one["after"], one.get("before"), one.get("leave", "continue"))
    extras = [" ".join(f"{e.move}:{e.foot}/{e.weight}" for e in extra.events) for extra in routine.extras]
    assert extras == ([one["extra"]] if "extra" in one else [])
