"""Which foot may act, and at what price: the laws of the feet as the search over readings pays them."""

from fractions import Fraction

from trainer.sheet.prose.search.footings import LOADED, footings
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move


def test_a_step_by_the_foot_that_carries_is_dear() -> None:
    assert footings(Move.STEP, Draft((Move.STEP,), Foot.LEFT), "L") == [(Foot.LEFT, "L", (LOADED, 0.0))]


def test_a_stomp_by_the_foot_that_carries_is_dear_too() -> None:
    stomp = Draft((Move.STOMP,), Foot.RIGHT)
    assert min(price[0] for _, _, price in footings(Move.STOMP, stomp, "R")) == LOADED
    assert min(price[0] for _, _, price in footings(Move.STOMP, stomp, "L")) == 0


def test_a_gesture_beside_a_step_is_made_by_the_other_foot() -> None:
    step = Draft((Move.STEP,), Foot.RIGHT, also=((Foot.RIGHT, Move.SWEEP, Direction.BACK),))
    assert footings(Move.STEP, step, "L")[0][2][0] == LOADED
    body = Draft((Move.STEP,), Foot.RIGHT, also=((Foot.RIGHT, Move.SWAY, None),))
    assert footings(Move.STEP, body, "L")[0][2][0] == 0


def test_an_unwind_that_moves_the_weight_is_made_by_the_foot_that_takes_it() -> None:
    unwind = Draft((Move.UNWIND,), Foot.NONE, turns=(Fraction(1, 2),), weight="L")
    likeliest = min(footings(Move.UNWIND, unwind, "R"), key=lambda one: one[2])
    assert likeliest[:2] == (Foot.LEFT, "L")
    assert footings(Move.UNWIND, unwind, "L")[0][:2] == (Foot.NONE, "L")


def test_a_hold_stays_a_hold_whatever_is_noted() -> None:
    hold = Draft((Move.HOLD,), Foot.NONE, weight="R")
    assert all(foot is Foot.NONE for foot, _, _ in footings(Move.HOLD, hold, "L"))
