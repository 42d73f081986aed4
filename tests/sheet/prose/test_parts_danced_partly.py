"""Parts that a play dances only from some count on, and a finding where it is not understood how much of one."""

from pathlib import Path

import pytest

from tests.sheet.prose.paragraphs import FOLDER, read
from trainer.problems import loud
from trainer.sheet.opening import opened
from trainer.sheet.prose.plays.extents import Measure, extent_at


def test_a_part_danced_from_some_count_on_is_a_part_of_its_own() -> None:
    routine = read("K4", "Sequence: A, B, last 8 of B, A without section A2")
    assert [item.name for item in routine.play] == ["A", "B", "B 9-16", "A 1-8+17-32"]
    assert [part.counts for part in routine.parts] == [32, 16, 8, 24]
    moves = [[[one.move for one in section.events] for section in part.sections] for part in routine.parts]
    assert moves[2] == moves[1][1:]
    assert moves[3] == [moves[0][0], *moves[0][2:]]


def test_where_parts_begin_to_face_cuts_none_of_them() -> None:
    measure = Measure(0, (8, 8, 8, 8))
    assert extent_at("begin at 12 , 6 , 6", measure) is None
    begun = extent_at("beginning at count 12", measure)
    assert begun is not None
    assert begun.stretches == ((12, 32),)


@pytest.mark.parametrize(
    "text",
    [
        "Sequence: A, B, A, last 40 of B, A",
        "Sequence: A, B, A from count 60, B, A",
        "Sequence: A, B, sections 6-7 of A, B, A",
        "Sequence: A, B, A*, B, A\n* without the wobbly bit at 12",
    ],
)
def test_how_much_is_danced_and_not_understood_is_found_at_its_line(text: str) -> None:
    dance = (FOLDER / "dances" / "K4.txt").read_text(encoding="utf-8").replace("@@", text)
    line = next(number for number, one in enumerate(dance.splitlines(), 1) if one.startswith("Sequence"))
    found = loud(opened(Path("sheet.txt"), dance).problems)
    assert line in [one.line for one in found if one.kind == "order"]
