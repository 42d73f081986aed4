"""A row that numbers the walls tells nothing by itself; a note beside it is no step."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened

_EIGHT = "[1 2]  walk R, walk L\n[3 4]  R forward, L touch\n[5 6]  L back, R touch\n[7 8]  R side, L together"
_STEPS = f"ONE (walks)\n{_EIGHT}\n\nTWO (walks once more)\n{_EIGHT}"


@pytest.mark.parametrize(
    "row", ["Four walls:  1  2  3*  4", "Walls: 1, 2, 3*, 4", "The walls: 1 - 2 - 3 * - 4", "Rounds:  1  2  (3)*  4"]
)
@pytest.mark.parametrize("where", ["foot of the page", "on the other page", "end of the sheet"])
def test_walls_in_a_row_are_numbered_only(row: str, where: str) -> None:
    text = (
        f"PAPER LANTERN\n16 counts, 1 wall, weight on L\n\n{row}\n* wall 3 takes the bridge after count 8 ({where})\n\n"
        f"{_STEPS}\n\nBRIDGE, wall 3 only, 2 counts\n[1 2]  hold, clap\n"
    )
    sheet = opened(Path("lantern.txt"), text)
    assert loud(sheet.problems) == []
    assert [(line.passes, line.departures[0].after) for line in sheet.routine.order] == [((3,), 8)]
    assert [len(extra.events) for extra in sheet.routine.extras] == [2]
