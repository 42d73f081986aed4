"""A dance as danced by who follows somebody who faces them, and by a teacher who faces the class."""

from fractions import Fraction

import pytest
from hypothesis import given

from tests.dance.strategies import sound
from tests.dance.test_mirror import full
from trainer.dance.facing import clock
from trainer.dance.mirror import mirror
from trainer.dance.opposite import facing_the_class, following
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.resources import folder
from trainer.routine import Routine
from trainer.sheet.opening import open_sheet

CLOCKS = {
    "12:00": "6:00",
    "6:00": "12:00",
    "1:30": "4:30",
    "4:30": "1:30",
    "10:30": "7:30",
    "7:30": "10:30",
    "3:00": "3:00",
    "9:00": "9:00",
}
"""What the class faces, and what the teacher faces who faces the class."""


def events(timeline: Timeline) -> list[tuple[object, ...]]:
    return [(one.wall, one.beat, one.label, one.foot, one.weight, one.turn, one.facing) for one in timeline.danced()]


@given(sound())
def test_following_is_dancing_the_routine_in_the_mirror(routine: Routine) -> None:
    timeline = unroll(routine, 6)
    assert events(following(timeline)) == events(unroll(mirror(routine), 6))


@given(sound())
def test_twice_opposite_is_the_dance_itself(routine: Routine) -> None:
    timeline = unroll(routine, 6)
    assert following(following(timeline)) == timeline
    assert facing_the_class(facing_the_class(timeline)) == timeline


@pytest.mark.parametrize("path", sorted(folder("routines").glob("*.sheet")), ids=lambda path: path.stem)
def test_a_teacher_dances_on_the_other_foot_and_faces_the_class_back(path) -> None:
    timeline = unroll(open_sheet(path).routine)
    seen = facing_the_class(timeline)
    assert seen.ends == timeline.ends
    for theirs, own in zip(timeline.danced(), seen.danced(), strict=True):
        assert (own.beat, own.label, own.section) == (theirs.beat, theirs.label, theirs.section)
        assert own.foot == (theirs.foot and theirs.foot.mirrored)
        assert own.turn == -theirs.turn
        assert clock(own.facing) == CLOCKS[clock(theirs.facing)]


def test_what_is_shared_stays_shared_and_keeps_its_lines() -> None:
    timeline = unroll(full(), 4)
    here = [stretch.block for one in timeline.passes for stretch in one.stretches]
    there = [stretch.block for one in following(timeline).passes for stretch in one.stretches]
    assert len({id(block) for block in there}) == len({id(block) for block in here}) < len(here)
    assert [row.event.span for block in there for row in block.rows] == [
        row.event.span for block in here for row in block.rows
    ]


def test_the_squaring_up_of_a_wall_goes_the_other_way() -> None:
    timeline = unroll(full(), 4)
    turns = [one.squared for one in timeline.passes]
    assert any(turns)
    assert [one.squared for one in facing_the_class(timeline).passes] == [-turn for turn in turns]
    assert [one.end_facing for one in facing_the_class(timeline).passes] == [
        (Fraction(1, 2) - one.end_facing) % 1 for one in timeline.passes
    ]
