"""Takes: where a beat is, where to go on, what a loop needs in its seam."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sound.scenes import eight, events, lantern, plain, rolling, waltz
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.practice.take import (
    Mend,
    Place,
    Take,
    counted_in,
    counts_before,
    events_of,
    fits,
    looped,
    number_called,
    onward,
    resume_beat,
    resumed,
    section_range,
    whole,
)
from trainer.routine import Extra, Part, Routine, Section

LANTERN = unroll(lantern(), 5)
WALTZ = unroll(waltz(), 2)

WAIT, WALL_2, WALL_3, WALL_4, WALL_5 = 16, 48, 96, 130, 150
"""Beats at which the walls begin: 16 of wait, 32, 32 and a bridge of 16, 32 and a hold of 2, 16 and a tag of 4."""


def test_the_walls_of_the_scene_begin_where_the_tables_below_have_them() -> None:
    assert [int(one.start) for one in LANTERN.passes] == [WAIT, WALL_2, WALL_3, WALL_4, WALL_5]


@pytest.mark.parametrize(
    ("beat", "section", "resume", "why"),
    [
        (WAIT, (16, 24), 16, "first count of the dance"),
        (Fraction(39, 2), (16, 24), 16, "inside section 1, on an &"),
        (0, (16, 24), 16, "in the wait: the first section"),
        (47, (40, 48), 40, "last count of wall 1"),
        (WALL_2, (48, 56), 48, "first count of wall 2"),
        (WALL_2 + 17, (64, 88), 64, "section 3 is cut by the bridge, which lies in its range"),
        (WALL_2 + 20, (68, 84), 68, "first count of the bridge: it has a range of its own"),
        (WALL_2 + 29, (68, 84), 76, "in the second eight of the bridge"),
        (WALL_2 + 36, (64, 88), 84, "section 3 after the bridge: the range is the section, the start just after it"),
        (WALL_2 + 40, (88, 96), 88, "section 4 after it"),
        (WALL_3 + 15, (104, 112), 104, "the change replaces counts of section 2"),
        (WALL_3 + 13, (104, 112), 104, "section 2 before the change"),
        (WALL_3 + 20, (112, 122), 112, "a hold belongs to the section it lies in"),
        (WALL_3 + 23, (112, 122), 112, "and so do the counts after it"),
        (WALL_3 + 25, (112, 122), 120, "past eight counts with the hold: the latest eight"),
        (WALL_4 + 17, (146, 150), 146, "the tag before the restart"),
        (WALL_4 + 12, (138, 146), 138, "section 2 before it"),
        (WALL_5 + 31, (174, 182), 174, "the last section"),
        (500, (174, 182), 174, "after the end: the last section"),
    ],
)
def test_where_a_section_lies_and_where_to_go_on(
    beat: Fraction | int, section: tuple[int, int], resume: int, why: str
) -> None:
    assert section_range(LANTERN, Fraction(beat)) == section, why
    assert resume_beat(LANTERN, Fraction(beat)) == resume, why


@pytest.mark.parametrize(("beat", "resume"), [(0, 0), (5, 0), (6, 6), (11, 6), (12, 12), (23, 18), (29, 24), (30, 30)])
def test_a_waltz_goes_on_at_its_latest_six(beat: int, resume: int) -> None:
    assert resume_beat(WALTZ, Fraction(beat)) == resume


@pytest.mark.parametrize(
    ("timeline", "beat", "called"),
    [
        (LANTERN, 16, (5, 6, 7, 8)),
        (LANTERN, 20, (1, 2, 3, 4)),
        (LANTERN, 18, (7, 8, 1, 2)),
        (LANTERN, WALL_2 + 36, (1, 2, 3, 4)),
        (WALTZ, 12, (4, 5, 6)),
        (WALTZ, 9, (1, 2, 3)),
    ],
)
def test_the_count_in_says_the_numbers_that_lead_to_the_first_count(
    timeline: Timeline, beat: int, called: tuple[int, ...]
) -> None:
    take = onward(timeline, Fraction(beat))
    assert take.count_in == len(called)
    assert counts_before(take, take.count_in) == called


def test_a_count_without_an_event_is_called_by_its_place_in_the_section() -> None:
    timeline = plain([Section(name="1", counts=8, events=events("1 2 & 3"))])
    assert [number_called(timeline, Fraction(beat)) for beat in range(8)] == [1, 2, 3, 4, 5, 6, 7, 8]


def test_the_whole_dance_leaves_out_the_wait_but_not_the_danced_intro() -> None:
    assert whole(LANTERN) == Take(LANTERN, Fraction(16), Fraction(182))
    intro = Extra(name="", kind="intro", counts=8, events=events("1 2 3 4 5 6 7 8"))
    timeline = unroll(lantern().but(extras=(*lantern().extras, intro)), 1)
    assert whole(timeline).first == 16
    assert timeline.passes[0].start == 24
    assert section_range(timeline, Fraction(17)) == (16, 24)


def test_nothing_to_dance_is_said_so() -> None:
    with pytest.raises(ValueError, match="a take begins before its end"):
        whole(unroll(Routine(title="Empty", parts=(Part(),))))


@pytest.mark.parametrize(
    "fields",
    [
        pytest.param({"first": Fraction(8), "last": Fraction(8)}, id="empty"),
        pytest.param({"entry": Fraction(40)}, id="entered outside"),
        pytest.param({"rounds": 0}, id="never danced"),
        pytest.param({"seam": -1}, id="a negative run-up"),
    ],
)
def test_an_impossible_take_is_refused(fields: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="a take"):
        replace(Take(LANTERN, Fraction(16), Fraction(24)), **fields)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("first", "last", "mend", "why"),
    [
        (16, 24, Mend(None, None), "eight steps end on the foot they began from, at 12:00"),
        (16, 48, Mend(Fraction(0), "L"), "section 4 turns a quarter and steps nine times"),
        (24, 32, Mend(None, None), "ten steps"),
        (40, 48, Mend(Fraction(0), "L"), "nine steps, a pick-up among them, and a quarter turn"),
    ],
)
def test_a_seam_is_mended_where_the_end_does_not_fit_the_start(first: int, last: int, mend: Mend, why: str) -> None:
    assert fits(Take(LANTERN, Fraction(first), Fraction(last))) == mend, why


def test_a_loop_that_does_not_fit_has_a_run_up_and_one_that_fits_has_none_unless_asked() -> None:
    assert looped(LANTERN, Fraction(16), Fraction(24)).seam == 0
    assert looped(LANTERN, Fraction(16), Fraction(24), run_up=True).seam == 4
    assert looped(LANTERN, Fraction(16), Fraction(48)).seam == 4
    assert looped(WALTZ, Fraction(0), Fraction(3)).seam == 3
    assert counted_in("2/4") == 4


def test_a_pick_up_belongs_to_the_round_it_leads_into() -> None:
    timeline = plain([eight("1"), eight("2", "& 1 2 3 4 5 6 7 8")], walls=2)
    own = events_of(Take(timeline, Fraction(8), Fraction(16)))
    before = events_of(Take(timeline, Fraction(0), Fraction(8)))
    assert [one.beat for one in own][:2] == [Fraction(15, 2), 8]
    assert [one.beat for one in before][-1] == 7


takes = st.builds(
    lambda first, length, rounds, seam, count_in, late: Take(
        LANTERN,
        Fraction(16 + first),
        Fraction(16 + first + length),
        rounds,
        seam,
        count_in,
        Fraction(16 + first + late % length),
    ),
    st.integers(0, 40),
    st.integers(1, 60),
    st.none() | st.integers(1, 5),
    st.integers(0, 4),
    st.integers(0, 8),
    st.integers(0, 60),
)


@given(takes, st.fractions(0, 1, max_denominator=48))
@settings(max_examples=60)
def test_a_beat_of_a_place_is_the_inverse_of_the_place_of_a_beat(take: Take, part: Fraction) -> None:
    end = take.ends if take.ends is not None else 3 * take.cycle
    for beat in (-take.count_in + part, part * end, end - 1 + part):
        if -take.count_in <= beat < end:
            assert take.beat_of(take.place(beat)) == beat


@given(takes)
@settings(max_examples=40)
def test_lengths_of_rounds_add_up(take: Take) -> None:
    if take.ends is not None and take.rounds is not None:
        left_out = take.enters - take.first
        assert take.ends == take.rounds * take.length + (take.rounds - 1) * take.seam - left_out


def test_the_places_of_a_loop_go_round_through_its_seam() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(24), None, seam=4)
    assert take.place(Fraction(-3)) == Place(0, Fraction(16), Fraction(3))
    assert take.place(Fraction(15, 2)) == Place(0, Fraction(47, 2), Fraction(0))
    assert take.place(Fraction(9)) == Place(1, Fraction(16), Fraction(3))
    assert take.place(Fraction(12)) == Place(1, Fraction(16), Fraction(0))


def test_after_its_last_count_a_take_stays_at_its_end() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(24), 2, seam=4)
    assert take.place(Fraction(20)) == take.place(Fraction(99)) == Place(1, Fraction(24), Fraction(0))


def test_going_on_enters_the_round_that_was_stopped_in_and_leaves_out_those_danced() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(48), 3)
    on = resumed(take, take.place(Fraction(32 + 21)))
    assert (on.rounds, on.enters, on.first, on.last) == (2, 32, 16, 48)
    assert on.place(Fraction(0)) == Place(0, Fraction(32), Fraction(0))
    assert on.place(Fraction(16)) == Place(1, Fraction(16), Fraction(0))
    assert on.ends == 48
    again = resumed(take, take.place(Fraction(-2)))
    assert again == take


def test_going_on_in_the_middle_of_a_section_keeps_to_the_range() -> None:
    take = Take(LANTERN, Fraction(20), Fraction(28))
    assert resumed(take, take.place(Fraction(1))).enters == 20
    assert resumed(take, take.place(Fraction(5))).enters == 24


def test_a_rolling_dance_has_its_subdivisions_in_thirds() -> None:
    beats = [one.beat for one in events_of(whole(unroll(rolling(), 1)))]
    assert beats[:4] == [0, Fraction(1, 3), Fraction(2, 3), 1]
