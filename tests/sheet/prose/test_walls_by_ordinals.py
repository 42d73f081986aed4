"""Walls told by ordinals alone under a heading that names them."""

import pytest

from trainer.sheet.reading import read

_PAGE = """Half a Plum, 16 counts, 4 walls, weight on left.

One
1-2 step R fwd, step L fwd
3&4 shuffle fwd R L R
5-6 rock L fwd, recover R
7&8 L coaster step

Two
1-2 step R fwd, pivot 1/4 left onto L
3&4 cross shuffle R L R
5-6 rock L side, recover R
7&8 L behind, R side, L across

Three
1-2 R side, touch L
3-4 L side, touch R
5-6 R side, touch L
7-8 L side, touch R

"""


@pytest.mark.parametrize(
    "walls",
    [
        "The walls\nfirst 12:00, second 9:00\nthird 6:00, only One, restart at 6:00\nfourth 6:00, fifth 3:00",
        "Walls\n1st 12:00\n2nd 9:00\n3rd 6:00, only One, then restart at 6:00\n4th 6:00\n5th 3:00",
        "How the walls go\nfirst (12:00) all, second (9:00) all, third (6:00) One then restart, fourth (6:00) all",
        "The walls\nfirst 12, second 9\nthird 6, only One, restart\nfourth 6, fifth 3",
        "The walls:\nfirst 12:00; second 9:00; third 6:00, stop after One and restart; fourth 6:00; fifth 3:00",
    ],
)
def test_a_list_of_walls_by_ordinals(walls: str) -> None:
    routine, problems = read(f"{_PAGE}{walls}\n")
    told = [(line.passes, one.after, one.leave) for line in routine.order for one in line.departures]
    assert told == [((3,), 8, "restart")]
    assert not [problem for problem in problems if problem.level != "note"]
