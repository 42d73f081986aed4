"""What is danced before, between and after the walls: intro, play, squaring up, options; and odd routines."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import EIGHT, after, changed, dance, extra, hold, option, phrased, section, tag, unread, wall
from tests.dance.test_unroll import BOW, LANTERN, beats, starts
from trainer.dance.facing import clock, read_clock
from trainer.dance.unroll import unroll
from trainer.routine import Extra, Part, PlayItem, Routine, Section


def test_a_danced_intro_is_danced_before_wall_1_and_has_its_number() -> None:
    intro = extra("intro", "", "1 R, 2 L -1/4, 3 R, 4 L -1/4", starts="6:00")
    timeline = unroll(dance(extras=(intro,), wait=8), 2)
    danced = list(timeline.danced(0, 1))
    assert [(one.wall, one.extra_kind, str(one.beat), clock(one.facing)) for one in danced[:5]] == [
        (1, "intro", "8", "6:00"),
        (1, "intro", "9", "3:00"),
        (1, "intro", "10", "3:00"),
        (1, "intro", "11", "12:00"),
        (1, "", "12", "12:00"),
    ]
    assert (timeline.passes[0].start, timeline.passes[0].danced, timeline.passes[1].start) == (12, 16, 28)
    assert starts(timeline) == ["12:00", "3:00"]


def test_without_a_stated_wait_beat_0_is_the_first_danced_count() -> None:
    assert beats(unroll(dance(), 1))[0] == "0"
    assert beats(unroll(dance(wait=32), 1))[0] == "32"


def test_without_a_facing_of_its_own_a_danced_intro_begins_at_the_front() -> None:
    intro = extra("intro", "Fog", "1 R, 2 L +1/4")
    timeline = unroll(dance(extras=(intro,)), 1)
    assert [clock(one.facing) for one in timeline.danced()][:3] == ["12:00", "3:00", "12:00"]


BELL = extra("tag", "bell", "1 R, 2 L +1/2")
PLAYS = [
    # play, order, repeats, the parts danced, the pass that each extra belongs to, why
    ("A A B", (), False, "AAB", [], "in the order of play, once"),
    ("A B", (), True, "ABAB", [], "again until the round comes home"),
    ("A B bell", (), False, "AB", [2], "a tag follows its part"),
    ("bell A", (), False, "A", [1], "before the first part it has pass 1"),
    ("bell A", (), True, "A", [1], "home is where the tag began"),
    ("bell B", (), True, "BB", [1, 1], "in round 2 it has the pass before"),
    ("A A B", (wall(1, after(4, leave="restart"), part="A"),), False, "AAAB", [], "a restart begins the part again"),
    ("A bell B", (wall(1, after(4, leave="restart"), part="A"),), False, "AAB", [2], "the tag follows the last A"),
    ("A A B", (wall(1, after(4, leave="next"), part="A"),), False, "AAB", [], "`next` goes on in the play"),
    ("A A B", (wall(2, after(4, leave="end"), part="A"),), False, "AA", [], "an end inside the play"),
    ("A B A", (wall(2, after(4, leave="end")),), False, "AB", [], "`wall 2` is the second pass"),
    ("A X B", (), False, "AB", [], "a part that is not there"),
    ("X", (), True, "", [], "no part at all"),
    ("bell", (), True, "", [], "only a tag"),
    ("B", (wall(3, after(2, hold(1)), part="B"),), True, "BBB", [3], "to the last departure, repeated"),
    ("B", (wall(3, after(2, hold(1)), part="A"),), True, "B", [], "no A ever comes"),
]


@pytest.mark.parametrize(("play", "order", "repeats", "parts", "inserted", "why"), PLAYS)
def test_the_play_of_a_phrased_dance(
    play: str, order: Any, repeats: bool, parts: str, inserted: list[int], why: str
) -> None:
    timeline = unroll(phrased(play, BELL, order=order, repeats=repeats))
    assert "".join(one.part for one in timeline.passes) == parts, why
    assert [one.number for one in timeline.passes] == list(range(1, len(parts) + 1))
    kinds = ((one.number, stretch.block.kind) for one in timeline.passes for stretch in one.stretches)
    assert [number for number, kind in kinds if kind != "part"] == inserted


def test_the_third_a_is_the_third_start_of_part_a() -> None:
    timeline = unroll(phrased("A B A A B A", order=(wall(3, after(4, hold(2)), part="A"),)))
    assert [one.number for one in timeline.passes if len(one.stretches) > 1] == [4]
    assert starts(timeline) == ["12:00", "6:00", "6:00", "12:00", "6:00", "6:00"]


def test_the_round_of_a_phrased_dance_is_danced_to_its_end() -> None:
    timeline = unroll(phrased("A A B", repeats=True))
    assert [one.part for one in timeline.passes] == ["A", "A", "B"]
    assert timeline.open_ended
    assert not unroll(phrased("A A B")).open_ended


def test_an_ending_in_the_play_ends_the_dance() -> None:
    play = (PlayItem(kind="part", name="A"), PlayItem(kind="ending", name="Bow"), PlayItem(kind="part", name="B"))
    timeline = unroll(phrased("", BOW, repeats=True).but(play=play))
    assert [one.part for one in timeline.passes] == ["A"]
    assert not timeline.open_ended


def test_a_hold_in_the_play() -> None:
    play = (PlayItem(kind="part", name="A"), PlayItem(kind="hold", counts=4), PlayItem(kind="part", name="B"))
    assert [one.start for one in unroll(phrased("").but(play=play)).passes] == [0, 12]


def test_an_opening_tag_comes_out_at_the_front() -> None:
    timeline = unroll(phrased("bell A", BELL))
    assert [clock(one.facing) for one in timeline.danced()][:4] == ["6:00", "12:00", "12:00", "12:00"]


def test_parts_without_a_play_are_danced_as_written() -> None:
    timeline = unroll(phrased("").but(repeats=True))
    assert [one.part for one in timeline.passes] == ["A", "B", "A", "B"]


SQUARED = [
    # how the sheet says so, start facings of the walls, facing after count 1 of each
    ({"squares": Fraction(1, 8)}, ["12:00", "1:30", "4:30"], ["12:00", "3:00", "6:00"]),
    ({"squares": Fraction(-1, 8)}, ["12:00", "1:30", "1:30"], ["12:00", "12:00", "12:00"]),
    ({"order": (wall(2, squared=Fraction(1, 8)),)}, ["12:00", "1:30", "4:30"], ["12:00", "3:00", "4:30"]),
    ({}, ["12:00", "1:30", "3:00"], ["12:00", "1:30", "3:00"]),
]


@pytest.mark.parametrize(("fields", "begins", "faces"), SQUARED)
def test_a_wall_is_squared_up_on_count_1_where_the_sheet_says_so(
    fields: dict[str, Any], begins: list[str], faces: list[str]
) -> None:
    timeline = unroll(dance(section("1", "1 R, 2 L +1/8"), **fields), 3)
    assert starts(timeline) == begins
    ones = [one for one in timeline.danced() if one.label == "1"]
    assert [clock(one.facing) for one in ones] == faces
    # The turn belongs to the pass: rows are shared, and the event itself does not turn.
    assert {one.event.turn for one in ones} == {0}
    assert [one.turn for one in ones] == [one.squared for one in timeline.passes]


def test_a_pick_up_is_danced_before_the_wall_is_squared_up() -> None:
    timeline = unroll(dance(section("1", "& R touch, 1 R, 2 L +1/8"), squares=Fraction(1, 8)), 2)
    second = [(one.label, clock(one.facing)) for one in timeline.danced(1, 2)]
    assert second == [("&", "1:30"), ("1", "3:00"), ("2", "4:30")]


def test_a_changed_count_1_is_squared_up_and_a_tag_before_it_is_not() -> None:
    lamp, bell = extra("change", "Lamp", "1 R, 2 L"), extra("tag", "Bell", "1 R, 2 L")
    order = (wall(2, after(0, tag("Bell")), changed(1, 2, "Lamp")),)
    routine = dance(section("1", "1 R, 2 L, 3 R, 4 L +1/8"), extras=(lamp, bell), order=order, squares=Fraction(1, 8))
    second = [(one.extra, clock(one.facing)) for one in unroll(routine, 2).danced(1, 2)]
    assert second == [
        *(("Bell", "1:30"), ("Bell", "1:30")),
        *(("Lamp", "3:00"), ("Lamp", "3:00")),
        *((None, "3:00"), (None, "4:30")),
    ]


def test_options_are_danced_instead_of_the_counts_that_they_replace() -> None:
    easy = option(5, 6, "5 R touch, 6 R")
    timeline = unroll(dance(options=(easy,)), 2, (easy,))
    assert [str(one.event.move) for one in timeline.danced(0, 1)][12:14] == ["touch", "step"]
    assert starts(timeline) == ["12:00", "12:00"]
    assert starts(unroll(dance(options=(easy,)), 2)) == ["12:00", "3:00"]


@pytest.mark.parametrize("place", [{"section": "9"}, {"part": "B"}, {"first": 7, "last": 9}, {"first": 0}])
def test_an_option_for_counts_that_are_not_there_is_passed_over(place: dict[str, Any]) -> None:
    easy = option(5, 6, "5 R touch, 6 R").but(**place)
    assert beats(unroll(dance(), 1, (easy,))) == beats(unroll(dance(), 1))
    assert {str(one.event.move) for one in unroll(dance(), 1, (easy,)).danced()} == {"step"}


def test_unread_events_pass_through() -> None:
    first = Section(name="1", counts=4, events=(*section("1", "1 R, 2 L").events, unread("3", 2), unread("4", 3)))
    timeline = unroll(dance(first), 1)
    assert [(one.label, one.foot, one.weight) for one in timeline.danced()][2:] == [
        ("3", None, None),
        ("4", None, None),
    ]


def test_bridge_and_tag_are_words_for_the_same_thing() -> None:
    timeline = unroll(dance(extras=(LANTERN,), order=(wall(1, after(8, tag("Lantern", "bridge"))),)), 1)
    assert timeline.ends == 20


def test_rows_are_shared_by_all_passes() -> None:
    timeline = unroll(dance(extras=(LANTERN,), order=(wall((2, 5), after(8, tag("Lantern"), hold(2))),)), 50)
    blocks = {id(stretch.block) for one in timeline.passes for stretch in one.stretches}
    assert len(blocks) == 3


@pytest.mark.parametrize(
    "routine",
    [
        Routine(title="Nothing"),
        Routine(title="Empty", parts=(Part(),)),
        Routine(title="No counts", parts=(Part(sections=(Section(name="1", counts=0),)),)),
        Routine(title="Less than none", parts=(Part(sections=(Section(name="1", counts=-8),)),)),
        Routine(title="Only an extra", extras=(Extra(kind="intro", name="", counts=4),)),
    ],
    ids=lambda routine: routine.title,
)
def test_a_routine_without_counts_has_nothing_to_dance(routine: Routine) -> None:
    timeline = unroll(routine)
    assert timeline.passes == ()
    assert list(timeline.danced()) == []


def test_counts_without_steps_still_take_their_time() -> None:
    routine = dance(Section(name="1", counts=8), section("2", EIGHT))
    timeline = unroll(routine, 2)
    assert [one.start for one in timeline.passes] == [0, 16]
    assert beats(timeline)[:2] == ["8", "9"]


WALL_LISTS = [
    # starts of walls 2, 3 and so on, as a sheet lists them; facing after count 1 of walls 1 to 4; why
    (
        ["3:00", "6:00", "9:00"],
        ["12:00", "3:00", "6:00", "9:00"],
        "only if each diagonal is left to the right",
    ),
    (["12:00", "12:00"], ["12:00", "12:00", "12:00", "12:00"], "only if it is left to the left"),
    (["1:30", "3:00", "4:30"], ["12:00", "1:30", "3:00", "4:30"], "it agrees as it is"),
    (["3:00"], ["12:00", "1:30", "3:00", "4:30"], "one start alone may be a misprint"),
    (["3:00", "9:00"], ["12:00", "1:30", "3:00", "4:30"], "it agrees with nothing"),
]


@pytest.mark.parametrize(("listed", "faces", "why"), WALL_LISTS)
def test_a_wall_list_may_tell_that_diagonals_are_left(listed: list[str], faces: list[str], why: str) -> None:
    order = tuple(wall(number, starts=read_clock(told)) for number, told in enumerate(listed, start=2))
    timeline = unroll(dance(section("1", "1 R, 2 L +1/8"), order=order), 4)
    assert [clock(one.facing) for one in timeline.danced() if one.label == "1"] == faces, why


def test_a_wall_list_of_a_phrased_dance() -> None:
    part = Part(name="A", sections=(section("A1", "1 R, 2 L +1/8"),))
    order = (wall(2, part="A", starts=read_clock("3:00")), wall(3, part="A", starts=read_clock("6:00")))
    timeline = unroll(phrased("A A A", order=order).but(parts=(part,)))
    assert [one.squared for one in timeline.passes] == [0, Fraction(1, 8), Fraction(1, 8)]
