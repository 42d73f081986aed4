"""Lines of a sheet that nothing danced was read from stay with the routine as remarks, and one note names them."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.fair import fair
from trainer.sheet.opening import opened
from trainer.sheet.reading import read

_STEPS = """PUDDLE LANE
16 counts, 2 walls, weight on left
{above}
Section 1
1-4   Step right to side, touch left beside right, step left to side, touch right beside left{beside}
5-8   Walk forward right, left, right, touch left
{between}
Section 2
1-4   Walk back left, right, left, touch right
5-8   Step right forward, pivot half left, stomp right, stomp left
{below}
"""


def _read(**told: str) -> tuple[tuple[str, ...], list[tuple[int, str]]]:
    text = _STEPS.format(**{**dict.fromkeys(("above", "beside", "between", "below"), ""), **told})
    sheet = opened(Path("puddle.txt"), text)
    assert not loud(sheet.problems)
    assert sum(section.counts for part in sheet.routine.parts for section in part.sections) == 16
    notes = [(one.line, one.message) for one in sheet.problems if "danced was read" in one.message]
    return sheet.routine.notes, notes


@pytest.mark.parametrize(
    ("place", "told", "kept", "why"),
    [
        ("below", "Bring water, the hall is hot.", ("Bring water, the hall is hot.",), "news below the dance"),
        ("above", "Dear all, here is what we did.", ("Dear all, here is what we did.",), "a greeting above it"),
        (
            "below",
            "(Take care, the floor is freshly waxed.)",
            ("(Take care, the floor is freshly waxed.)",),
            "advice in brackets",
        ),
        ("above", "Level: improver. Starts after 16 counts.", (), "the head of a sheet states facts"),
        ("above", "All the steps", (), "words that may only head others"),
        ("above", "RF = right foot, LF = left foot, tog = together, tch = touch", (), "short forms explained"),
        ("beside", ",\n      keeping your knees soft and your head high all the time", (), "it wraps a step's words"),
    ],
)
def test_what_is_kept(place: str, told: str, kept: tuple[str, ...], why: str) -> None:
    remarks, notes = _read(**{place: told})
    assert remarks == kept, why
    assert len(notes) == bool(kept)


def test_one_note_names_all_lines() -> None:
    remarks, ((line, message),) = _read(above="Dear all, here it is in writing.", below="See you on Tuesday, Wyn.")
    assert remarks == ("Dear all, here it is in writing.", "See you on Tuesday, Wyn.")
    assert line == 3
    assert message == "Nothing that is danced was read from lines 3 and 11; they are kept as remarks."


def test_remarks_come_back_from_the_fair_copy() -> None:
    routine = read(
        _STEPS.format(above="", beside="", between="", below="Bring water; it is # hot.\nLove to all from Wyn xx")
    )[0]
    assert routine.notes == ("Bring water; it is # hot.", "Love to all from Wyn xx")
    assert read(fair(routine))[0].notes == routine.notes


def test_a_line_that_tells_the_order_is_no_remark() -> None:
    below = "Restart in wall 3 after 12 counts.\nWall 3: restart (facing 12:00)\nSee you on Tuesday, Wyn."
    remarks, notes = _read(below=below)
    assert remarks == ("See you on Tuesday, Wyn.",)
    assert len(notes) == 1
