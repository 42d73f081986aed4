"""The laws of weight, one event at a time."""

import pytest

from tests.dance.making import steps
from trainer.dance.footing import breach, leaves_weight, may_act, weights_after
from trainer.routine import Event
from trainer.terms import Foot, Move, Weight


def event(text: str) -> Event:
    return steps(text)[0]


LAWFUL = [
    # event, the foot that carries before it, why
    ("1 R >R", "L", "the free foot steps"),
    ("1 R >R", "B", "after weight on both, either foot may step"),
    ("1 L >L", "B", "after weight on both, either foot may step"),
    ("1 R >R", None, "the weight is not known"),
    ("1 R >B", "L", "out, out, with the weight on both"),
    ("1 L recover >L", "R", "recover puts the weight back on the other foot"),
    ("1 L replace >L", "R", "so does replace"),
    ("1 R touch >L", "L", "a touch takes no weight"),
    ("1 R point >L", "L", "nor a point"),
    ("1 R heel >L", "L", "nor a heel"),
    ("1 R kick >L", "B", "after weight on both, a gesture of R means that L carries"),
    ("1 L kick >R", "B", "and the other way round"),
    ("1 L touch >R", None, "a gesture of L means that R carries"),
    ("1 R hop >R", "R", "a hop lands on the foot that carries"),
    ("1 L scoot >L", "L", "so does a scoot"),
    ("1 - hop >R", "R", "a hop that names no foot"),
    ("1 R hop >R", "B", "from both feet a hop lands on the one it names"),
    ("1 B jump >B", "R", "a jump apart"),
    ("1 B jump >L", "B", "a jump together may land on one"),
    ("1 R stomp >R", "L", "a stomp may take the weight"),
    ("1 R stomp >L", "L", "or leave it"),
    ("1 R stomp >R", "R", "the foot that carries may stomp"),
    ("1 R sway >R", "R", "or sway"),
    ("1 - bump >B", "R", "bumps may end on both"),
    ("1 L hip_roll >L", "L", "hip rolls are open"),
    ("1 - body_roll >L", "R", "body rolls are open"),
    ("1 - swivel >R", "L", "swivels are open"),
    ("1 - bounce >L", "L", "bounces are open"),
    ("1 - unwind >R", "L", "an unwind may change the weight"),
    ("1 - unwind >L", "L", "or not"),
    ("1 - hold >R", "R", "a hold leaves it"),
    ("1 - hold >B", "B", "also on both"),
    ("1 - hold >L", "B", "and from both feet it may settle"),
    ("1 R fan >R", "R", "a fan is made by any foot"),
    ("1 - turn >L", "L", "a turn on the standing foot"),
    ("1 R >R |L_sweep", "L", "the foot left behind sweeps"),
    ("1 - hop >L |R_hitch", "L", "the free foot hitches on a hop"),
    ("1 R >R |-_clap", "L", "hands carry nothing"),
    ("1 R touch >L |L_bounce", "L", "the standing heel bounces"),
]


@pytest.mark.parametrize(("text", "before", "why"), LAWFUL)
def test_no_breach(text: str, before: Weight | None, why: str) -> None:
    assert breach(event(text), before) is None, why


BREACHES = [
    # event, the foot that carries before it, what is said
    ("7 R >R", "R", "count 7 asks R to step, but R has the weight since count 6"),
    ("7 L recover >L", "L", "count 7 asks L to step, but L has the weight since count 6"),
    ("7 R ball >R", "R", "count 7 asks R to step, but R has the weight since count 6"),
    ("7 R touch >R", "R", "count 7 asks R for a touch, but R has the weight since count 6"),
    ("7 L heel >L", "L", "count 7 asks L for a heel touch, but L has the weight since count 6"),
    ("7 R toe >R", "R", "count 7 asks R for a toe touch, but R has the weight since count 6"),
    (
        "7 R hop >R",
        "L",
        "count 7 asks for a hop on R, but L has the weight since count 6 and it lands on the foot that carries",
    ),
    ("7 R touch >R", "L", "count 7 leaves the weight on R, but a touch leaves it on L"),
    ("7 R kick >R", "B", "count 7 leaves the weight on R, but a kick by R is made on the other foot"),
    ("7 R kick >B", "B", "count 7 leaves the weight on both feet, but a kick by R is made on the other foot"),
    ("7 R >L", "L", "count 7 leaves the weight on L, but a step by R takes it on R"),
    ("7 - hold >R", "L", "count 7 leaves the weight on R, but a hold leaves it on L"),
    ("7 - hop >R", "L", "count 7 leaves the weight on R, but a hop leaves it on L"),
    ("7 - turn >B", "L", "count 7 leaves the weight on both feet, but a turn leaves it on L"),
    ("7 R >R |R_sweep", "L", "count 7 asks R for a sweep, but R carries the weight there"),
    ("7 - hold >L |L_kick", "L", "count 7 asks L for a kick, but L carries the weight there"),
]


@pytest.mark.parametrize(("text", "before", "said"), BREACHES)
def test_a_breach_is_said_as_a_teacher_would(text: str, before: Weight, said: str) -> None:
    assert breach(event(text), before, since="since count 6") == said


def test_an_unread_event_breaks_no_law() -> None:
    assert breach(event("1 R >R").but(move=None, foot=None, weight=None), "R") is None
    assert breach(event("1 R >R").but(foot=None), "R") is None
    assert breach(event("1 R touch >R").but(weight=None), "L") is None


@pytest.mark.parametrize("move", list(Move))
@pytest.mark.parametrize("before", ["R", "L", "B", None])
def test_every_move_of_every_foot_can_be_followed(move: Move, before: Weight | None) -> None:
    for foot in Foot:
        after = weights_after(move, foot, before)
        assert after
        if leaves_weight(move) and before in ("R", "L"):
            assert after == {before}
        assert may_act(move, foot, "B")
        assert may_act(move, foot, None)


@pytest.mark.parametrize("move", list(Move))
def test_the_law_is_the_same_in_the_mirror(move: Move) -> None:
    swapped: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}
    for foot in Foot:
        for before in swapped:
            assert may_act(move, foot, before) == may_act(move, foot.mirrored, swapped[before])
            mirrored = {swapped[weight] for weight in weights_after(move, foot, before)}
            assert mirrored == weights_after(move, foot.mirrored, swapped[before])
