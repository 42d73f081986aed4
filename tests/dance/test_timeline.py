"""Finding events on the timeline, and the plain rows of `unroll --json`."""

from fractions import Fraction

import pytest

from tests.dance.making import EIGHT, after, dance, extra, hold, phrased, section, tag, unread, wall
from trainer.dance.rows import as_rows
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.routine import Routine, Section
from trainer.timing import ASSUMED_TEMPO

KEYS = [
    *("wall", "part", "section", "extra", "count", "foot", "weight", "facing", "turn", "step", "beat", "seconds"),
]


def picked_up() -> Timeline:
    """Walls of 4 counts that open with a pick-up, after 8 counts of waiting and a danced intro of 2."""
    intro = extra("intro", "", "1 R, 2 L touch")
    return unroll(dance(section("1", "& R touch, 1 R, 2 L, 3 R, 4 L"), extras=(intro,), wait=8), 3)


WINDOWS = [
    # from, to, labels, why
    (8, 10, "12&", "the danced intro, and the pick-up that falls into it"),
    (10, 14, "1234&", "the pick-up of the next wall falls into this one"),
    ("19/2", 10, "&", "only the pick-up"),
    (13, 15, "4&1", "across a seam"),
    (0, 8, "", "the wait"),
    (22, 99, "", "after the end"),
    (0, 99, "12&1234&1234&1234", "all of it"),
]


@pytest.mark.parametrize(("first", "last", "labels", "why"), WINDOWS)
def test_a_window_holds_the_events_from_one_beat_to_before_another(
    first: str | int, last: int, labels: str, why: str
) -> None:
    window = picked_up().window(Fraction(first), Fraction(last))
    assert "".join(one.label for one in window) == labels, why


def test_a_beat_falls_in_a_pass() -> None:
    timeline = picked_up()
    assert [timeline.pass_at(Fraction(beat)) for beat in (0, 8, 10, 13, 14, 17, 18, 99)] == [0, 0, 0, 0, 1, 1, 2, 2]


def test_the_timeline_ends_after_its_last_count() -> None:
    assert picked_up().ends == 22
    assert unroll(Routine(title="Nothing", wait=16)).ends == 16


def test_counts_of_a_row_are_told_through_its_block_and_its_section() -> None:
    timeline = unroll(dance(section("1", "1 R, 2 L, & R"), section("2", "& L touch, 1 L, 2 R")), 1)
    rows = [(one.label, one.row.number, one.row.section_number, one.section) for one in timeline.danced()]
    assert rows == [
        ("1", 1, 1, "1"),
        ("2", 2, 2, "1"),
        ("&", 2, 2, "1"),
        ("&", 2, 0, "2"),
        ("1", 3, 1, "2"),
        ("2", 4, 2, "2"),
    ]


def test_rows_have_exactly_the_keys_that_others_rely_on() -> None:
    lantern = extra("tag", "Lantern", "1 R sway, 2 L sway +1/2")
    intro = extra("intro", "", "1 R, 2 L touch -1/4", starts="3:00")
    order = (wall(1, after(8, tag("Lantern"), hold(1))),)
    rows = list(as_rows(unroll(dance(extras=(intro, lantern), order=order, wait=4), 1), Fraction(120)))
    assert [list(row) for row in rows] == [KEYS] * 21
    told = [tuple(row.values()) for row in rows]
    assert told[:3] == [
        (1, "", "", "intro", "1", "R", "R", "3:00", "", "step", "4", 2.0),
        (1, "", "", "intro", "2", "L", "R", "12:00", "1/4 left", "touch 1/4 left", "5", 2.5),
        (1, "", "1", None, "1", "R", "R", "12:00", "", "step", "6", 3.0),
    ]
    assert told[10:13] == [
        (1, "", "Lantern", "Lantern", "1", "R", "R", "12:00", "", "sway", "14", 7.0),
        (1, "", "Lantern", "Lantern", "2", "L", "L", "6:00", "1/2 right", "sway 1/2 right", "15", 7.5),
        (1, "", "", "hold", "1", "-", "L", "6:00", "", "hold", "16", 8.0),
    ]
    assert {type(value) for row in rows for value in row.values()} == {int, str, float, type(None)}


def test_a_phrased_dance_numbers_its_parts_as_walls() -> None:
    rows = list(as_rows(unroll(phrased("A B A")), None))
    assert [(row["wall"], row["part"]) for row in rows if row["count"] == "1"] == [(1, "A"), (2, "B"), (3, "A")]


def test_beats_are_fractions_as_text_and_a_pick_up_may_fall_before_0() -> None:
    rows = list(as_rows(unroll(dance(section("1", "& R touch, 1 R, a L, 2 R"), tempo=None), 1), Fraction(60)))
    assert [(row["beat"], row["seconds"]) for row in rows] == [("-1/2", -0.5), ("0", 0.0), ("3/4", 0.75), ("1", 1.0)]


@pytest.mark.parametrize("tempo", [None, Fraction(0), Fraction(-3)])
def test_a_tempo_that_is_none_is_the_assumed_one(tempo: Fraction | None) -> None:
    rows = list(as_rows(unroll(dance(section("1", EIGHT)), 1), tempo))
    assert rows[1]["seconds"] == float(60 / ASSUMED_TEMPO)


def test_an_unread_event_has_no_foot_and_no_weight() -> None:
    (row,) = as_rows(unroll(dance(Section(name="1", counts=1, events=(unread("1", 0),))), 1), None)
    assert (row["foot"], row["weight"], row["step"]) == (None, None, "unread")
