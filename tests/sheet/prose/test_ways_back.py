"""A way back to a facing behind counts is no step back; hours of a list are facings where o'clock is said once."""

import pytest

from tests.sheet.prose.tables_made import Event, danced
from trainer.sheet.reading import read

_PAGE = """hi all sheet for TIN PLUM, 16 counts 2 walls, weight on left.
1st eight - R forward and pivot half L (1 2), R forward and pivot half L (3 4) {words}, R side, L beside (5 6), R side, L beside (7 8)
2nd eight - R forward and pivot half L (1 2) thats 6 oclock, R shuffle forward (3&4), rock L forward recover R (5 6), L coaster (7&8)
"""  # noqa: E501  # as a teacher types a message
_TOLD = "1R12 2L6 3R6 4L12 5R12 6L12 7R12 8L12 1R12 2L6 3R6 &L6 4R6 5L6 6R6 7L6 &R6 8L6"
_WANT: list[Event] = [(told[0], told[1], told[1], f"{told[2:]}:00") for told in _TOLD.split()]


@pytest.mark.parametrize(
    "words",
    ["back to 12 oclock", "and back to 12 o'clock", "you are back at 12", "home again at 12:00", "back at 12:00"],
)
def test_a_way_back_is_no_step(words: str) -> None:
    assert danced(_PAGE.format(words=words)) == (_WANT, ())


@pytest.mark.parametrize(
    "words",
    [
        "walls 1 and 2 (12 and 6 oclock) are normal",
        "walls 1 and 2 (12 and 6) are normal",
        "Walls one and two, 12 and 6 o'clock, are as always",
        "walls 1 & 2 start at 12 and 6 o'clock, nothing special",
    ],
)
def test_hours_of_a_list(words: str) -> None:
    routine, _ = read(f"{_PAGE.format(words='thats 12 oclock')}\n{words}\n")
    assert [(line.passes, str(line.starts), line.departures) for line in routine.order] == [
        ((1,), "0", ()),
        ((2,), "1/2", ()),
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Only one thing to remember: wall two, the one begun at 6 o'clock, is short.\n"
        "Break off after count 8, when you will be facing the back, and start anew.",
        "Remember wall 2, which starts at 6 o'clock.\nStop after 8 counts and start again.",
        "Wall 2 is special (6 o'clock).\nIt ends after count 8, go back to the beginning.",
    ],
)
def test_a_wall_named_in_the_line_above(words: str) -> None:
    routine, _ = read(f"{_PAGE.format(words='thats 12 oclock')}\n{words}\n")
    told = [(line.passes, one.after, one.leave) for line in routine.order for one in line.departures]
    assert told == [((2,), 8, "restart")]
