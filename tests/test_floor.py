"""What the floor shows, count by count, in a dance with a restart, a tag and an ending."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.dances import quay
from trainer.dance.facing import clock, turn_text
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.practice.chart import Chart
from trainer.practice.floor import Floor, floor_view
from trainer.practice.marks import marks_of
from trainer.practice.saying import mend_words
from trainer.practice.strip import strip_view, words_view
from trainer.practice.take import Mend, Place, events_of, looped, resumed, section_range, whole
from trainer.routine import OrderLine
from trainer.terms import Foot

HALF = Fraction(1, 2)
FIRST = 4
"""The timeline's beat of count 1: the sheet waits four counts."""


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return unroll(quay())


@pytest.fixture(scope="module")
def chart(timeline: Timeline) -> Chart:
    return Chart(timeline)


def at(chart: Chart, beat: Fraction | int):
    return floor_view(chart, whole(chart.timeline), Place(0, Fraction(beat) + FIRST, Fraction(0)))


COUNTS = [
    # beat, count, now, next, foot and whether it acts, facing, turn to come; why
    (0, "1", "walk", "walk", "L", True, "12:00", "", "the first count"),
    (1, "2", "walk", "shuffle", "R", True, "12:00", "", "the next step by its name, not by its first footfall"),
    (2, "3", "shuffle", "rock forward", "L", True, "12:00", "", "in a figure the next step is the one after it"),
    (2 + HALF, "3&", "shuffle", "rock forward", "R", True, "12:00", "", "the number stays while & lights up"),
    (2 + HALF + Fraction(1, 4), "3&", "shuffle", "rock forward", "R", True, "12:00", "", "between two events"),
    (3, "4", "shuffle", "rock forward", "L", True, "12:00", "", "its last count"),
    (7, "8", "coaster step", "ball", "R", True, "12:00", "", "the leading & of section 2 comes next"),
    (7 + HALF, "8&", "ball", "step 1/4 right", "L", True, "12:00", "1/4 right", "a turn is announced before its count"),
    (8, "1", "step 1/4 right", "step", "R", True, "3:00", "", "and was made after it"),
    (9, "2", "step", "hold", "L", False, "3:00", "", "a hold: the free foot waits"),
    (10, "3", "hold", "point", "L", False, "3:00", "", "two holds are one step"),
    (11, "4", "hold", "point", "L", True, "3:00", "", "the second of them"),
    (12, "5", "point", "step", "L", True, "3:00", "", "a point takes no weight: the same foot again"),
    (15, "8", "step", "walk", "R", True, "3:00", "", "the next wall follows"),
    (16, "1", "walk", "walk", "L", True, "3:00", "", "wall 2"),
    (23, "8", "coaster step", "walk", "R", True, "3:00", "", "the restart: count 1 comes next, not section 2"),
    (39, "8", "step", "sway", "R", True, "6:00", "", "the tag comes next"),
    (43, "4", "sway", "walk", "R", True, "6:00", "", "after the tag, wall 4"),
    (52, "1", "step", "pose", "L", True, "6:00", "", "the ending"),
]


@pytest.mark.parametrize(("beat", "count", "now", "coming", "foot", "acts", "facing", "turn", "why"), COUNTS)
def test_each_count_shows_the_state_after_it(chart, beat, count, now, coming, foot, acts, facing, turn, why):
    view = at(chart, beat)
    shown = (f"{view.count.number}{view.count.sub}", view.now.name, view.next.name, view.foot.side, view.foot.acts)
    assert shown == (count, now, coming, foot, acts), why
    assert (clock(view.dial.facing), turn_text(view.dial.turn)) == (facing, turn), why
    assert view.dial.ends == (view.dial.facing + view.dial.turn) % 1


DEPARTURES = [
    (0, "RESTART", 23, False, False, "RESTART in 23 counts: wall 2 after 8, facing 3:00", "the first of them"),
    (7, "RESTART", 16, True, False, "RESTART in 16 counts: wall 2 after 8, facing 3:00", "marked from 16 off"),
    (18, "RESTART", 5, True, False, "RESTART in 5 counts: wall 2 after 8, facing 3:00", "not yet in place of the step"),
    (19, "RESTART", 4, True, True, "RESTART in 4 counts: wall 2 after 8, facing 3:00", "the last four"),
    (
        19 + HALF,
        "RESTART",
        4,
        True,
        True,
        "RESTART in 4 counts: wall 2 after 8, facing 3:00",
        "an & is no count",
    ),
    (22, "RESTART", 1, True, True, "RESTART in 1 count: wall 2 after 8, facing 3:00", "one to go"),
    (23, "RESTART", 0, True, True, "RESTART on the next count: wall 2 after 8, facing 3:00", "on the next beat"),
    (24, "TAG", 15, True, False, "TAG Gate in 15 counts: wall 3 after 16, 4 counts, facing 6:00", "the next one"),
    (40, "END", 11, True, False, "END in 11 counts: wall 4 after 8, ending Bow, 2 counts, facing 6:00", "in the tag"),
    (
        52,
        "END",
        1,
        True,
        False,
        "END in 1 count: wall 4 after 8, facing 6:00",
        "in the ending its steps stay",
    ),
]


@pytest.mark.parametrize(("beat", "kind", "left", "near", "urgent", "line", "why"), DEPARTURES)
def test_the_next_departure_with_the_counts_left(chart, beat, kind, left, near, urgent, line, why):
    departure = at(chart, beat).departure
    shown = (departure.kind, departure.left, departure.near, departure.urgent)
    assert shown == (kind, left, near, urgent), why
    assert departure.line == line, why


def test_after_the_last_count_nothing_comes(chart):
    view = at(chart, 53)
    assert view.next is None
    assert view.departure.left == 0
    done = floor_view(chart, whole(chart.timeline), Place(0, chart.timeline.ends, Fraction(0)))
    assert (done.index, done.departure, done.place) == (chart.size - 1, None, "after the last count")


PLACES = [
    (1, "wall 1, section 1 count 2", "in the first section both numbers are the same"),
    (2 + HALF, "wall 1, section 1 count 3&", "an &"),
    (8, "wall 1, section 2 count 1 (9)", "the count in its section, then through the wall"),
    (24, "wall 3, section 1 count 1", "the wall after the restart"),
    (41, "wall 3, tag Gate count 2 of 4", "in a tag"),
    (52, "wall 4, ending Bow count 1 of 2", "in the ending"),
]


@pytest.mark.parametrize(("beat", "words", "why"), PLACES)
def test_where_it_is_danced(chart, beat, words, why):
    assert at(chart, beat).place == words, why


COUNT_INS = [(4, 5), (Fraction(7, 2), 5), (3, 6), (2, 7), (1, 8), (HALF, 8)]


@pytest.mark.parametrize(("before", "number"), COUNT_INS)
def test_the_count_in_is_called_and_nothing_is_danced_in_it(chart, before, number):
    view = floor_view(chart, whole(chart.timeline), Place(0, Fraction(FIRST), Fraction(before)))
    assert (view.count.number, view.count.sub, view.count.counting_in) == (number, "", True)
    assert (view.index, view.now, view.next.name, view.next.foot) == (-1, None, "walk", Foot.RIGHT)
    assert view.departure.left == 23 + -(-Fraction(before) // 1)


def test_a_count_in_before_a_pick_up_shows_it_danced(timeline, chart):
    # Section 2 opens with an & before its 1: counted in with 5-6-7-8, it falls half a beat before the 1.
    first, last = section_range(timeline, Fraction(FIRST + 9))
    take = replace(looped(timeline, first, last), rounds=1)
    view = floor_view(chart, take, Place(0, first, HALF))
    assert (view.count.number, view.count.sub, view.count.counting_in) == (8, "&", True)
    assert (view.now.name, view.next.name) == ("ball", "step 1/4 right")
    assert floor_view(chart, take, Place(0, first, Fraction(1))).now is None


def test_a_loop_goes_on_with_its_own_first_step(timeline, chart):
    take = looped(timeline, *section_range(timeline, Fraction(FIRST + 1)))
    assert take.seam == 0, "section 1 ends as it begins"
    view = floor_view(chart, take, Place(2, Fraction(FIRST + 7), Fraction(0)))
    assert (view.round, view.next.name, view.next.foot, view.mend) == (3, "walk", Foot.RIGHT, None)
    assert view.departure is None, "the restart is never reached"


def test_the_seam_of_a_loop_says_what_to_mend(timeline, chart):
    take = looped(timeline, *section_range(timeline, Fraction(FIRST + 9)))
    assert take.seam == 4, "section 2 turns a quarter: a run-up lies in the seam"
    view = floor_view(chart, take, Place(1, take.first, Fraction(3)))
    assert (view.count.number, view.count.counting_in) == (6, True)
    assert mend_words(view.mend) == "back to 12:00"
    assert clock(view.dial.facing) == "12:00", "the dial shows where to stand"
    assert floor_view(chart, take, Place(0, take.first, Fraction(3))).mend is None, "not in the count-in"


def test_a_loop_over_a_tag_counts_to_it_through_the_seam(timeline, chart):
    take = looped(timeline, Fraction(FIRST + 32), Fraction(FIRST + 44))
    last = floor_view(chart, take, Place(0, Fraction(FIRST + 43), Fraction(0)))
    assert (last.departure.kind, last.departure.left) == ("TAG", take.seam + 8)


def test_after_a_stop_the_round_begins_where_it_is_entered(timeline, chart):
    take = resumed(whole(timeline), Place(0, Fraction(FIRST + 12), Fraction(0)))
    view = floor_view(chart, take, Place(0, take.enters, Fraction(2)))
    assert (take.enters, view.count.number, view.now, view.next.name) == (FIRST + 8, 7, None, "ball")


MENDS = [
    (Mend(HALF, "R"), "back to 6:00, weight on R"),
    (Mend(Fraction(1, 8), None), "back to 1:30"),
    (Mend(None, "L"), "weight on L"),
    (Mend(None, "B"), "weight on both feet"),
    (Mend(None, None), ""),
]


@pytest.mark.parametrize(("mend", "words"), MENDS)
def test_what_to_mend_in_words(mend, words):
    assert mend_words(mend) == words


def test_an_open_dance_says_where_it_will_stop():
    chart = Chart(unroll(quay().but(order=()), 2))
    departure = Floor.of_whole(chart).at(0).departure
    assert (departure.kind, departure.left) == ("END", 31)
    assert chart.marks == (), "no end is written in the sheet"


def test_restarting_after_the_whole_wall_is_no_departure():
    line = quay().order[0]
    full = line.but(departures=(line.departures[0].but(after=16),))
    routine = quay().but(order=(full,))
    assert [mark.kind for mark in marks_of(unroll(routine, 4)) if mark.kind == "RESTART"] == []


def test_a_stopped_floor_shows_the_section_with_its_steps(chart):
    view = strip_view(chart, 3)
    assert "".join(cell.label for cell in view.cells) == "123&4567&8"
    assert [(span.first, span.last, span.name) for span in view.spans] == [
        (0, 0, "walk"),
        (1, 1, "walk"),
        (2, 4, "shuffle"),
        (5, 5, "rock forward"),
        (6, 6, "recover"),
        (7, 9, "coaster step"),
    ]
    assert (view.current, view.step.name) == (3, "shuffle")
    assert strip_view(chart, -1).current == -1


def test_the_teachers_words_have_their_line(chart):
    assert (words_view(chart, 2).words, words_view(chart, 2).line) == ("Shuffle forward", 7)
    assert words_view(chart, -1) is None


def test_a_dance_of_parts_says_the_next_part():
    from trainer.routine import Part, PlayItem

    parts = (Part(name="A", sections=quay().parts[0].sections[:1]), Part(name="B", sections=quay().parts[0].sections))
    play = tuple(PlayItem(kind="part", name=name) for name in "AB")
    chart = Chart(unroll(quay().but(parts=parts, play=play, order=(), repeats=False)))
    assert [(mark.kind, mark.name) for mark in chart.marks] == [("PART", "B"), ("END", "")]
    assert Floor.of_whole(chart).at(0).place == "wall 1 part A, section 1 count 1"


def test_the_events_of_a_take_are_those_that_it_plays(timeline, chart):
    for first in range(FIRST, int(timeline.ends), 3):
        for last in range(first + 1, int(timeline.ends) + 1, 4):
            take = replace(whole(timeline), first=Fraction(first), last=Fraction(last))
            events = [chart.event(index) for index in Floor(chart, take).events]
            assert events == events_of(take)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 30), st.sets(st.integers(1, 5)), st.integers(1, 15))
def test_every_event_shows_itself_and_counts_left_go_down_by_one(step, walls, after):
    """At an event the view is that event's; from one whole count to the next one less is left, until it happens."""
    line = quay().order[0]
    orders = [OrderLine(passes=(wall,), departures=(line.departures[0].but(after=after),)) for wall in sorted(walls)]
    chart = Chart(unroll(quay().but(order=tuple(orders)), 6))
    floor = Floor.of_whole(chart)
    index = step % chart.size
    one = chart.event(index)
    view = floor.at(index)
    assert (view.index, view.dial.facing, view.foot.weight) == (index, one.facing, one.weight)
    assert f"{view.count.number}{view.count.sub}".endswith(one.label)
    assert view == floor.view(Place(0, one.beat, Fraction(0)))
    beat = Fraction(one.beat // 1)
    while beat + 1 < chart.timeline.ends and beat < one.beat + 20:
        before = floor.view(Place(0, max(beat, Fraction(FIRST)), Fraction(0))).departure
        after_it = floor.view(Place(0, max(beat + 1, Fraction(FIRST)), Fraction(0))).departure
        if before.left:
            assert (after_it.left, after_it.kind) == (before.left - 1, before.kind)
        beat += 1


def test_asking_is_quick_in_a_long_dance():
    """Only the walls that are looked at are made: a view of a thousand walls makes the events of a few."""
    chart = Chart(unroll(quay().but(order=()), 1000))
    floor = Floor.of_whole(chart)
    view = floor.view(Place(0, Fraction(FIRST + 16 * 700), Fraction(0)))
    assert view.index == 19 * 700
    assert len(chart._made) < 10
