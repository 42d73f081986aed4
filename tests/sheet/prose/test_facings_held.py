"""A stated facing that no count takes is a check all the same; so is the one at which the dance starts again."""

from pathlib import Path

import pytest

from trainer.problems import Problem, loud
from trainer.sheet.opening import opened

SHEET = """\
Lamp and Ladder
16 counts, 4 walls
Start with the weight on the left

Section 1
1-4 Walk forward right, left, right, touch left beside right
5-8 Walk back left, right, left, touch right beside left

Section 2
1-2 Step right to the side, touch left beside right
3-4 {turn}
5-8 Walk forward right, left, right, left

{closing}
"""
TURN = "Turn a quarter left stepping left forward, touch right beside left"
CLOSING = "Start again from the top"


def found(turn: str = TURN, closing: str = CLOSING) -> list[Problem]:
    return loud(opened(Path("lamp.txt"), SHEET.format(turn=turn, closing=closing)).problems)


@pytest.mark.parametrize(
    "closing",
    [
        "Start again facing {}",
        "That is all! Begin again facing {}. No tags, no restarts.",
        "Now ur facing {} so go again",
        "You are now facing {}, and there the whole thing starts over.",
        "Start over, facing {} o'clock.",
        "Begin anew facing {}!",
    ],
)
def test_the_facing_of_the_next_start_is_held_against_the_end(closing: str) -> None:
    assert not found(closing=closing.format(9))
    wrong = found(closing=closing.format(3))
    assert [(one.kind, one.line) for one in wrong] == [("facing", 14)]


@pytest.mark.parametrize(
    "closing",
    [
        "On wall 3 start again facing 3",
        "There is a restart.\nAfter it start again facing 3",
        "After the 4th wall begin again facing 12",
    ],
)
def test_what_is_told_of_one_wall_is_not_held_against_each(closing: str) -> None:
    assert not [one for one in found(closing=closing) if "start again at" in one.message]


@pytest.mark.parametrize("wall", ["the wall that was on your {}", "the wall which was to your {}"])
def test_a_wall_told_by_where_it_was_is_seen_from_before(wall: str) -> None:
    words = f"{TURN} - now you see {wall}"
    assert not found(words.format("left"))
    assert [(one.kind, one.line) for one in found(words.format("right"))] == [("facing", 11)]


@pytest.mark.parametrize(("bracket", "right"), [("(FACE LEFT)", True), ("(FACE RIGHT)", False)])
def test_sides_are_walls_where_the_sheet_names_walls_so(bracket: str, right: bool) -> None:
    sheet = SHEET.replace("touch left beside right\n5", "touch left beside right (FACE FRONT)\n5")
    text = sheet.format(turn=f"Turn a quarter left stepping left forward {bracket}, touch right", closing=CLOSING)
    wrong = loud(opened(Path("lamp.txt"), text).problems)
    assert [(one.kind, one.line) for one in wrong] == ([] if right else [("facing", 11)])


@pytest.mark.parametrize(("wall", "right"), [("L wall", True), ("R wall", False), ("L-hand wall", True)])
def test_a_letter_is_a_side_before_a_wall_that_one_faces(wall: str, right: bool) -> None:
    wrong = found(f"{TURN}. Fcg {wall}.")
    assert [(one.kind, one.line) for one in wrong] == ([] if right else [("facing", 11)])


@pytest.mark.parametrize(
    "ends",
    [
        "End of section {section}: facing {hour}:00",
        "Section {section} ends facing {hour}:00",
        "At the end of section {section} you face {hour} o'clock",
        "By the end of this section you are facing {hour}:00",
    ],
)
def test_what_a_section_is_said_to_end_with_is_held_against_its_turns(ends: str) -> None:
    sheet = SHEET.replace("\n\nSection 2", f"\n{ends.format(section=1, hour=12)}\n\nSection 2").format(
        turn=TURN, closing="{}\n\nStart again"
    )
    assert not loud(opened(Path("lamp.txt"), sheet.format(ends.format(section=2, hour=9))).problems)
    wrong = loud(opened(Path("lamp.txt"), sheet.format(ends.format(section=2, hour=3))).problems)
    assert [one.kind for one in wrong] == ["facing"]
