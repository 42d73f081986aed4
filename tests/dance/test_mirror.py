"""A routine in the mirror."""

from fractions import Fraction

from tests.dance.making import after, dance, extra, option, section, steps, tag, wall
from trainer.dance.mirror import mirror, mirror_event
from trainer.dance.proof import proofread
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.routine import Routine
from trainer.terms import Direction


def full() -> Routine:
    """A dance that has everything a mirror must turn round."""
    first = section("1", "1 R +1/4 @3:00 |L_sweep, 2 L, 3 R sway, 4 L touch, 5 L, 6 R jump >B, 7 R, 8 L -1/2 @9:00")
    bell = extra("tag", "Bell", "1 R sway, 2 L sway +1/2 @3:00")
    intro = extra("intro", "", "1 R, 2 L -1/4 @12:00", starts="3:00")
    easy = option(1, 2, "1 R +1/4, 2 L", section="1")
    order = (wall(2, after(8, tag("Bell"), facing=Fraction(1, 2)), starts=Fraction(3, 4), squared=Fraction(1, 8)),)
    return dance(first, extras=(bell, intro), options=(easy,), order=order, squares=Fraction(-1, 8))


def test_feet_turns_facings_and_directions_are_swapped() -> None:
    event = steps("1 R +1/4 @3:00 |L_sweep")[0].but(direction=Direction.FORWARD_RIGHT, then=Fraction(1, 8))
    event = event.but(other=steps("1 L touch >R")[0], words="step right")
    seen = mirror_event(event)
    assert (seen.foot, seen.weight, seen.turn, seen.then) == ("L", "L", Fraction(-1, 4), Fraction(-1, 8))
    assert (seen.direction, seen.facing, seen.also[0].foot) == ("forward left", Fraction(3, 4), "R")
    assert seen.other is not None
    assert (seen.other.foot, seen.other.weight) == ("R", "L")
    assert seen.words == "step right"


def test_the_whole_dance_is_danced_in_the_mirror() -> None:
    routine = full()
    here, there = list(unroll(routine, 3).danced()), list(unroll(mirror(routine), 3).danced())
    assert [(-one.facing % 1, -one.turn, one.beat) for one in here] == [
        (one.facing, one.turn, one.beat) for one in there
    ]
    assert [one.foot and one.foot.mirrored for one in here] == [one.foot for one in there]


def test_what_is_sound_is_sound_in_the_mirror() -> None:
    routine = full()
    assert [(one.kind, one.line) for one in loud(proofread(mirror(routine)))] == [
        (one.kind, one.line) for one in loud(proofread(routine))
    ]


def test_twice_is_the_same() -> None:
    assert mirror(mirror(full())) == full()
    assert mirror(full()) != full()
