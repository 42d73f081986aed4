"""Where a take can be left without a stop, and for which place."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sound.scenes import eight, lantern, plain, waltz
from trainer.dance.unroll import unroll
from trainer.practice.going import left_at, without_stop
from trainer.practice.take import Place, Take, events_of, joins, resume_beat, whole

LANTERN = unroll(lantern(), 5)
WALTZ = unroll(waltz(), 3)
PICKED_UP = plain(
    [eight("1", "1 2 3 4 5 6 7 8 &"), eight("2"), eight("3", "1 2 3 4 5 6 7"), eight("4", "& 1 2 3 4 5 6 7 8")]
)

LEAVES = [
    (whole(LANTERN), "17", 0, 24, "the next eight"),
    (whole(LANTERN), "22", 0, 24, "two counts before it is early enough"),
    (whole(LANTERN), "45/2", 0, 32, "one and a half is not"),
    (whole(LANTERN), "16", 3, 24, "in the count-in the first eight is danced"),
    (Take(LANTERN, Fraction(16), Fraction(20), None, 4), "17", 0, 20, "a short loop is left at its end"),
    (Take(LANTERN, Fraction(16), Fraction(20), None, 4), "19", 0, None, "which may be too near"),
    (whole(WALTZ), "3", 0, 6, "a waltz goes by sixes"),
    (whole(LANTERN), "18", 0, 24, "and so on"),
]


@pytest.mark.parametrize(("take", "beat", "before", "leaves", "why"), LEAVES, ids=[row[-1] for row in LEAVES])
def test_a_take_is_left_at_the_next_eight(take: Take, beat: str, before: int, leaves: int | None, why: str) -> None:
    assert left_at(take, Place(0, Fraction(beat), Fraction(before))) == leaves, why


def test_a_pick_up_that_falls_on_what_is_still_danced_is_not_clean() -> None:
    dance = whole(PICKED_UP)
    there = replace(dance, entry=Fraction(24))
    assert joins(replace(dance, last=Fraction(8)), replace(dance, first=Fraction(24))).fits
    assert without_stop(dance, Place(0, Fraction(2), Fraction(0)), there) is None, "both lie on the same &"
    assert without_stop(dance, Place(0, Fraction(18), Fraction(0)), there) is not None, "as it is danced anyway"
    assert without_stop(dance, Place(0, Fraction(10), Fraction(0)), there) is None, "the weight is on the wrong foot"


@given(st.integers(16, 160), st.integers(16, 170))
def test_without_a_stop_facing_and_weight_fit_and_counts_are_told_before(at: int, target: int) -> None:
    dance = whole(LANTERN)
    rest = without_stop(dance, Place(0, Fraction(at), Fraction(0)), replace(dance, entry=Fraction(target)))
    if rest is None:
        return
    assert rest.last >= at + 2
    assert rest.last == resume_beat(LANTERN, rest.last) or rest.last == dance.last
    before = events_of(rest)[-1]
    following = events_of(replace(dance, first=Fraction(target)))[0]
    assert (following.facing - following.turn) % 1 == before.facing
