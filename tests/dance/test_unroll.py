"""The order of walls, as danced: every form of departure, cuts, extras, the play of a phrased dance, the end."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import (
    EIGHT,
    QUARTER,
    WALK,
    after,
    changed,
    dance,
    extra,
    hold,
    section,
    tag,
    wall,
)
from trainer.dance.facing import clock
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import MOST_PASSES, MOST_UNASKED, unroll
from trainer.routine import Section

LANTERN = extra("tag", "Lantern", "1 R sway, 2 L sway +1/2, 3 R sway, 4 L sway")
BOW = extra("ending", "Bow", "1 R, 2 L touch")


def told(timeline: Timeline, number: int) -> str:
    """One pass in short: the labels, an extra with its name before them, a change of block shown by a bar."""
    words: list[str] = []
    place = None
    for one in timeline.danced(number - 1, number):
        if place != one.stretch:
            words += ["|"] * (place is not None) + ([f"{one.extra or one.extra_kind}:"] if one.extra_kind else [])
            place = one.stretch
        words.append(one.label)
    return " ".join(words)


def starts(timeline: Timeline) -> list[str]:
    return [clock(one.facing) for one in timeline.passes]


def beats(timeline: Timeline) -> list[str]:
    return [str(one.beat) for one in timeline.danced()]


CUTS = [
    # departure, how the wall is danced, counts danced of the part, where the next wall starts, why
    (after(8, leave="restart"), "1 & 2 3 4 5 6 7 8 &", 8, 8, "at a section's end with its closing &"),
    (after(8, leave="restart", before="&"), "1 & 2 3 4 5 6 7 8", 8, 8, "`before &` leaves the closing & out"),
    (after(1, leave="restart"), "1", 1, 1, "inside a section straight after the number"),
    (after(1, leave="restart", before="2"), "1 &", Fraction(3, 2), 1, "`before 2` dances 1&"),
    (after(11, leave="restart"), "1 & 2 3 4 5 6 7 8 & & 1 2 3", 11, 11, "the leading & of section 2 is its own"),
    (after(11, leave="restart", before="a"), "1 & 2 3 4 5 6 7 8 & & 1 2 3 &", Fraction(23, 2), 11, "dances 3&"),
    (after(0, tag("Lantern")), "Lantern: 1 2 3 4 | 1 & 2 3 4 5 6 7 8 & & 1 2 3 & a 4", 12, 16, "before count 1"),
    (after(12, tag("Lantern"), leave="restart"), "1 & 2 3 4 5 6 7 8 & & 1 2 3 & a 4 | Lantern: 1 2 3 4", 12, 16, ""),
    (after(13, leave="restart"), "1 & 2 3 4 5 6 7 8 & & 1 2 3 & a 4", 12, 12, "no count 13: passed over"),
    (after(-1, leave="restart"), "1 & 2 3 4 5 6 7 8 & & 1 2 3 & a 4", 12, 12, "no count -1: passed over"),
    (after(2, leave="restart", before="e"), "1 & 2", 2, 2, "no e after 2: straight after the number"),
    (after(4, tag("Gone")), "1 & 2 3 4 | 5 6 7 8 & & 1 2 3 & a 4", 12, 12, "an extra that is not there"),
]


@pytest.mark.parametrize(("departure", "danced", "counts", "next_start", "why"), CUTS)
def test_where_a_wall_is_cut(departure: Any, danced: str, counts: Fraction, next_start: int, why: str) -> None:
    first = section("1", "1 R, & L, 2 R, 3 L, 4 R, 5 L, 6 R, 7 L, 8 R, & L")
    second = Section(name="2", counts=4, events=section("", "& R touch, 1 R, 2 L, 3 R, & L, a R, 4 L").events)
    # The & that opens section 2 would meet the closing one: both stand there to show which cut takes which.
    timeline = unroll(dance(first, second, extras=(LANTERN,), order=(wall(1, departure),)), 2)
    assert told(timeline, 1) == danced, why
    assert timeline.passes[0].danced == counts
    assert timeline.passes[1].start == next_start


def test_an_extra_begins_on_the_beat_after_n_and_what_was_cut_off_follows_it_at_its_old_offset() -> None:
    routine = dance(
        section("1", "1 R, 2 L, & R, a L, 3 R, 4 L"),
        extras=(extra("bridge", "Wait", "1 R, 2 L"),),
        order=(wall(1, after(2, tag("Wait", "bridge"))),),
    )
    danced = [(one.label, str(one.beat)) for one in unroll(routine, 1).danced()]
    assert danced == [
        *(("1", "0"), ("2", "1")),
        *(("1", "2"), ("2", "3")),
        *(("&", "7/2"), ("a", "15/4"), ("3", "4"), ("4", "5")),
    ]


def test_a_closing_and_is_danced_before_the_extra() -> None:
    routine = dance(
        section("1", "1 R, 2 L, & R"), section("2", "1 L, 2 R"), extras=(LANTERN,), order=(wall(1, after(2, hold(1))),)
    )
    danced = [(one.label, str(one.beat)) for one in unroll(routine, 1).danced()]
    assert danced == [("1", "0"), ("2", "1"), ("&", "3/2"), ("1", "2"), ("1", "3"), ("2", "4")]


def test_an_and_that_opens_the_dance_or_an_extra_is_a_pick_up() -> None:
    routine = dance(
        section("1", "& L touch, 1 L, 2 R"),
        extras=(extra("tag", "Bell", "& R touch, 1 L"),),
        order=(wall(1, after(2, tag("Bell"))),),
        starts="R",
    )
    assert beats(unroll(routine, 2)) == ["-1/2", "0", "1", "3/2", "2", "5/2", "3", "4"]
    assert beats(unroll(routine.but(wait=16), 1))[:2] == ["31/2", "16"]


def test_several_departures_in_one_wall_are_danced_by_their_counts() -> None:
    order = (wall(1, after(12, hold(2)), after(4, tag("Lantern")), after(16, tag("Lantern"), hold(1))),)
    timeline = unroll(dance(extras=(LANTERN,), order=order), 1)
    assert told(timeline, 1) == (
        "1 2 3 4 | Lantern: 1 2 3 4 | 5 6 7 8 1 2 3 4 | hold: 1 2 | 5 6 7 8 | Lantern: 1 2 3 4 | hold: 1"
    )
    assert timeline.ends == 16 + 4 + 2 + 4 + 1


def test_two_extras_at_one_place_are_danced_in_written_order() -> None:
    bell = extra("tag", "Bell", "1 R, 2 L")
    one_line = (wall(1, after(8, tag("Lantern"), tag("Bell"))),)
    two_lines = (wall(1, after(8, tag("Lantern"))), wall(1, after(8, tag("Bell"))))
    for order in (one_line, two_lines):
        danced = told(unroll(dance(extras=(bell, LANTERN), order=order), 1), 1)
        assert "| Lantern: 1 2 3 4 | Bell: 1 2 |" in danced


def test_nothing_is_danced_after_the_wall_was_left() -> None:
    order = (wall(1, after(4, leave="restart"), after(8, tag("Lantern"))),)
    assert told(unroll(dance(extras=(LANTERN,), order=order), 2), 1) == "1 2 3 4"


CHANGES = [
    # departures, how the wall is danced, why
    ([changed(7, 8, "Lamp")], "1 2 3 4 5 6 & | Lamp: 7 8 | 1 2 3 4", "6& belongs to count 6"),
    ([changed(5, 6, "Lamp")], "1 2 3 4 | Lamp: 7 8 | 7 8 1 2 3 4", "6& is a part of count 6 and goes with it"),
    (
        [changed(7, 8, "Pick")],
        "1 2 3 4 5 6 | Pick: & 7 8 | 1 2 3 4",
        "an & of its own takes the place of 6&",
    ),
    ([changed(11, 12, "Lamp", leave="restart")], "1 2 3 4 5 6 & 7 8 1 2 | Lamp: 7 8", "a changed restart"),
    ([changed(1, 2, "Lamp")], "Lamp: 7 8 | 3 4 5 6 & 7 8 1 2 3 4", "from count 1 on"),
    ([changed(3, 4, "Lamp", hold(1))], "1 2 | Lamp: 7 8 | hold: 1 | 5 6 & 7 8 1 2 3 4", "an extra after it"),
    ([changed(3, 4, "Long")], "1 2 | Long: 1 2 3 | 5 6 & 7 8 1 2 3 4", "a longer change makes the wall longer"),
    ([changed(3, 6, "Lamp"), after(4, hold(2))], "1 2 | Lamp: 7 8 | 7 8 1 2 3 4", "count 4 is not danced"),
    ([changed(3, 4, "Gone")], "1 2 3 4 5 6 & 7 8 1 2 3 4", "no such change"),
    ([changed(11, 13, "Lamp")], "1 2 3 4 5 6 & 7 8 1 2 3 4", "no count 13"),
    ([changed(0, 2, "Lamp")], "1 2 3 4 5 6 & 7 8 1 2 3 4", "no count 0"),
]


@pytest.mark.parametrize(("departures", "danced", "why"), CHANGES)
def test_what_a_change_takes_the_place_of(departures: list[Any], danced: str, why: str) -> None:
    extras = (
        extra("change", "Lamp", "7 R touch, 8 - hold"),
        extra("change", "Pick", "& R, 7 L, 8 R"),
        extra("change", "Long", "1 R, 2 L, 3 R"),
    )
    routine = dance(
        section("1", "1 R, 2 L, 3 R, 4 L, 5 R, 6 L, & R, 7 L, 8 R"),
        section("2", WALK),
        extras=extras,
        order=(wall(1, *departures),),
    )
    assert told(unroll(routine, 1), 1) == danced, why


def test_a_longer_change_moves_the_rest_of_the_wall_on() -> None:
    routine = dance(extras=(extra("change", "Long", "1 R, 2 L, 3 R"),), order=(wall(1, changed(3, 4, "Long")),))
    timeline = unroll(routine, 2)
    assert timeline.passes[1].start == 17
    assert timeline.passes[0].danced == 14
    assert [str(one.beat) for one in timeline.danced(0, 1)][:7] == ["0", "1", "2", "3", "4", "5", "6"]


def test_the_next_wall_starts_where_the_last_one_left() -> None:
    order = (wall(2, after(8, leave="restart")), wall(3, after(16, tag("Lantern"))))
    timeline = unroll(dance(extras=(LANTERN,), order=order), 5)
    # Wall 1 turns a quarter, wall 2 is left before its turn, wall 3 turns a quarter and the tag a half.
    assert starts(timeline) == ["12:00", "3:00", "3:00", "12:00", "3:00"]


def test_an_extra_turns_with_the_wall_it_is_danced_in() -> None:
    timeline = unroll(dance(extras=(LANTERN,), order=(wall((1, 2), after(16, tag("Lantern"))),)), 2)
    facings = [clock(one.facing) for one in timeline.danced() if one.extra_kind == "tag" and one.label == "2"]
    assert facings == ["9:00", "6:00"]


def test_a_hold_keeps_the_weight_where_it_is() -> None:
    order = (wall(1, after(3, hold(9)), after(4, hold(1))),)
    held = [one for one in unroll(dance(order=order), 1).danced() if one.extra_kind == "hold"]
    assert [one.label for one in held] == ["1", "2", "3", "4", "5", "6", "7", "8", "1", "1"]
    assert [one.weight for one in held] == ["R"] * 9 + ["L"]
    assert {(str(one.foot), one.extra) for one in held} == {("-", "")}


def test_a_hold_in_a_waltz_is_counted_in_sixes() -> None:
    timeline = unroll(dance(order=(wall(1, after(3, hold(7))),), time="3/4"), 1)
    assert [one.label for one in timeline.danced() if one.extra_kind == "hold"] == ["1", "2", "3", "4", "5", "6", "1"]


@pytest.mark.parametrize("counts", [0, -3, 1_000_000_000])
def test_a_hold_that_nobody_could_dance_is_passed_over(counts: int) -> None:
    assert unroll(dance(order=(wall(1, after(8, hold(counts))),)), 1).ends == 16


ENDINGS = [
    # departure, passes, how the last one ends, why
    (after(8, tag("Bow", "ending"), leave="end"), 2, "Bow: 1 2", "an ending after a cut"),
    (after(16, tag("Bow", "ending")), 2, "Bow: 1 2", "after the last count `end` may be left out"),
    (after(8, leave="end"), 2, "8", "a plain end"),
    (after(8, tag("Gone", "ending"), leave="end"), 2, "8", "an ending that is not there still ends the dance"),
]


@pytest.mark.parametrize(("departure", "passes", "last", "why"), ENDINGS)
def test_a_written_end_ends_the_dance(departure: Any, passes: int, last: str, why: str) -> None:
    routine = dance(extras=(BOW,), order=(wall(2, departure),))
    for asked in (None, 40):
        timeline = unroll(routine, asked)
        assert len(timeline.passes) == passes, why
        assert told(timeline, passes).endswith(last)
        assert not timeline.open_ended
    assert unroll(routine, 1).open_ended


HOME = [
    # sections, order, passes, why
    ((section("1", EIGHT),), (), 1, "a dance to one wall is home after each"),
    ((section("1", QUARTER),), (), 4, "a quarter comes home after four"),
    ((section("1", "1 R +3/8, 2 L"),), (), 8, "three eighths come home after eight"),
    ((section("1", "1 R -1/2, 2 L"),), (), 2, "a half comes home after two"),
    ((section("1", QUARTER),), (wall(2, after(8, hold(4))),), 4, "the departure lies before the first pass home"),
    ((section("1", QUARTER),), (wall(5, after(8, hold(4))),), 8, "the first pass home after the last departure"),
    ((section("1", QUARTER),), (wall(4, after(8, tag("Lantern"))),), 6, "the tag turns a half, too"),
    ((section("1", EIGHT),), (wall(3, after(4, leave="restart")),), 4, "a restart is taken before the end"),
    ((section("1", EIGHT),), (wall(3, after(8, leave="restart")),), 3, "nothing is cut off at the last count"),
    ((section("1", "1 R +1/37, 2 L"),), (), 16, "a turn that hardly comes home ends all the same"),
    ((section("1", "1 R +1/37, 2 L"),), (wall(9, after(2, hold(1))),), 24, "also from the last departure on"),
    ((section("1", EIGHT),), (wall(10**9, after(8, hold(1))),), MOST_UNASKED, "a wall that nobody reaches"),
    ((section("1", EIGHT),), (wall(0, after(8, hold(1))),), 1, "a wall that does not exist"),
    ((section("1", EIGHT),), (wall(5, starts=Fraction(0)),), 1, "a line without a departure"),
]


@pytest.mark.parametrize(("sections", "order", "passes", "why"), HOME)
def test_without_an_end_it_goes_on_to_the_first_pass_home(sections: Any, order: Any, passes: int, why: str) -> None:
    timeline = unroll(dance(*sections, order=order, extras=(LANTERN,)))
    assert len(timeline.passes) == passes, why
    assert timeline.open_ended


def test_as_many_passes_as_asked_for() -> None:
    assert [len(unroll(dance(), asked).passes) for asked in (0, 1, 7, -5)] == [0, 1, 7, 0]
    assert len(unroll(dance(), 10**12).passes) == MOST_PASSES
    assert unroll(dance(), 0).ends == 0
