"""The road map, finding a place by what is typed, and what is proposed for practice."""

from fractions import Fraction
from itertools import pairwise

import pytest

from tests.dances import quay
from trainer.dance.unroll import unroll
from trainer.practice.chart import Chart
from trainer.practice.places import asked, found
from trainer.practice.proposals import Proposal, place_of, proposals, proposed_at
from trainer.practice.renewing import same_index, same_place, same_range
from trainer.practice.roadmap import (
    beat_of,
    count_of,
    counts_stop,
    event_of_line,
    mark_words,
    road_map,
    row_at,
    stop_at,
    stops_of,
    turned_on_wall,
)
from trainer.practice.take import first_danced
from trainer.resources import folder
from trainer.routine import Departure, OrderLine, PlayItem
from trainer.sheet.opening import open_sheet

SHEETS = sorted(folder("routines").glob("*.sheet"))


@pytest.fixture
def chart() -> Chart:
    return Chart(unroll(quay()))


def bundled(name: str) -> Chart:
    return Chart(unroll(open_sheet(folder("routines") / f"{name}.sheet").routine))


def test_there_are_bundled_sheets():
    assert len(SHEETS) >= 6


def test_every_wall_with_its_departures(chart):
    rows = [(row.number, row.facing, row.counts, [mark_words(mark) for mark in row.marks], row.leaves)
            for row in road_map(chart)]  # fmt: skip
    assert rows == [
        (1, 0, 16, [], ""),
        (2, Fraction(1, 4), 8, ["RST 8"], "RST"),
        (3, Fraction(1, 4), 20, ["TAG 16"], ""),
        (4, Fraction(1, 2), 10, ["END 8"], ""),
    ]


def test_sections_and_extras_are_stops(chart):
    row = road_map(chart)[2]
    assert [stop.words for stop in stops_of(chart, row)] == [
        "wall 3, section 1 (1-8)",
        "wall 3, section 2 (9-16)",
        "wall 3, tag Gate (4 counts)",
    ]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_the_map_holds_every_count_that_is_danced_once(path):
    timeline = unroll(open_sheet(path).routine)
    chart = Chart(timeline)
    rows = road_map(chart)
    pieces = [piece for row in rows for piece in row.pieces]
    assert pieces[0].first == first_danced(timeline)
    assert pieces[-1].last == timeline.ends
    assert all(one.last == after.first for one, after in pairwise(pieces))
    words = [mark_words(mark) for row in rows for mark in row.marks]
    assert len(words) == len([mark for mark in chart.marks if mark.kind != "PART" and not mark.closing])
    for row in rows:
        assert row.facing == timeline.passes[row.index].facing
        for piece in row.pieces:
            assert row_at(rows, piece.first) is row
            stop = stop_at(chart, row, piece.first)
            assert stop.first <= piece.first < stop.last


def test_a_bridge_lies_in_its_section_and_is_a_stop_of_its_own():
    chart = bundled("tide-under-the-door")
    titles = [stop.title for stop in stops_of(chart, road_map(chart)[1])]
    assert titles[2:4] == ["section 3 (17-24)", "bridge Wait (4 counts)"]


def test_a_changed_count_keeps_its_number():
    chart = bundled("twelve-crates-of-lemons")
    row = road_map(chart)[2]
    assert [stop.title for stop in stops_of(chart, row)] == ["section 1 (1-8)", "section 2 (9-16)"]
    assert count_of(chart, row.last - 1) == 16
    assert beat_of(chart, row, 16) is None, "that wall dances the change in its place"


RANGES = [
    (4, 12, "wall 1, section 1 (1-8)"),
    (4, 20, "wall 1"),
    (8, 11, "wall 1, counts 5-7"),
    (8, 9, "wall 1, count 5"),
    (16, 22, "wall 1, count 13 to wall 2, count 2"),
    (46, 47, "wall 3, tag Gate count 3"),
]


@pytest.mark.parametrize(("first", "last", "words"), RANGES)
def test_a_run_of_counts_in_words(chart, first, last, words):
    assert counts_stop(chart, Fraction(first), Fraction(last)).words == words


TYPED = [
    ("wall 4", 4, "wall 4", "in full"),
    ("w4", 4, "wall 4", "by its letter"),
    ("w3 s2", 4, "wall 3, section 2 (9-16)", "a wall and a section"),
    ("section 2", 30, "wall 3, section 2 (9-16)", "of the wall where the dancer is, before the others"),
    ("TAG", 4, "wall 3, tag Gate (4 counts)", "a tag"),
    ("gate", 4, "wall 3, tag Gate (4 counts)", "by its name"),
    ("rst", 4, "wall 2, restart after 8", "as it stands on the map"),
    ("5-12", 4, "wall 1, counts 5-12", "counts of the wall where the dancer is"),
    ("wall 3 5 - 12", 4, "wall 3, counts 5-12", "counts of another wall"),
    ("c 7", 4, "wall 1, count 7", "one count"),
    ("wall 1 1-8", 4, "wall 1, section 1 (1-8)", "counts that are a section"),
    ("3", 4, "wall 3", "a number alone is a wall first"),
    ("11", 4, "wall 1, count 11", "or a count"),
    ("wall 2 count 11", 4, None, "that wall is left after 8"),
    ("12-5", 4, None, "backwards"),
    ("lighthouse", 4, None, "not in this dance"),
    ("wall 99", 4, None, "not danced"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "at", "words", "why"), TYPED)
def test_a_place_is_found_by_what_is_typed(chart, text, at, words, why):
    stops = found(chart, text, Fraction(at))
    assert (stops[0].words if stops else None) == words, why


def test_nothing_typed_lists_every_wall(chart):
    assert [stop.words for stop in found(chart, " ", Fraction(4))] == ["wall 1", "wall 2", "wall 3", "wall 4"]


def test_what_was_typed_is_words_with_numbers():
    assert asked("w4, S 3 tag Gate 5-12") == (("w", "4"), ("s", "3"), ("tag", ""), ("gate", "5-12"))


def told(items: tuple[Proposal, ...]) -> list[tuple[str, str, int, int]]:
    return [(one.blocks, one.words, int(one.first), int(one.last)) for one in items]


def test_what_is_proposed(chart):
    assert told(proposals(chart, Fraction(0))) == [
        ("WALK WALL 1", "walk through wall 1 by hand", 4, 20),
        ("DRILL 1", "drill wall 1, section 1 (1-8)", 4, 12),
        ("DRILL 2", "drill wall 1, section 2 (9-16)", 12, 20),
        ("RST WALL 2", "join wall 2, section 1 to RESTART", 20, 36),
        ("TAG WALL 3", "join wall 3, section 2 to TAG Gate", 36, 56),
        ("END WALL 4", "join wall 4, section 1 to ending Bow", 48, 58),
        ("RUN-THROUGH", "run-through to the end", 4, 58),
    ]


def test_walk_and_drills_are_those_of_the_wall_stood_on(chart):
    assert told(proposals(chart, Fraction(30)))[:4] == [
        ("WALK WALL 3", "walk through wall 3 by hand", 28, 48),
        ("DRILL 1", "drill wall 3, section 1 (1-8)", 28, 36),
        ("DRILL 2", "drill wall 3, section 2 (9-16)", 36, 44),
        ("DRILL TAG", "drill wall 3, tag Gate (4 counts)", 44, 48),
    ]


def test_an_own_loop_comes_first_unless_it_is_there_already(chart):
    own = proposals(chart, Fraction(8), (Fraction(8), Fraction(11)))
    assert told(own)[0] == ("YOUR LOOP", "loop wall 1, counts 5-7", 8, 11)
    same = proposals(chart, Fraction(8), (Fraction(12), Fraction(20)))
    assert len(same) == len(own) - 1
    assert place_of(same, Fraction(12), Fraction(20)) == 2
    assert place_of(same, Fraction(12), Fraction(19)) is None


def test_what_suits_a_place(chart):
    items = proposals(chart, Fraction(12))
    assert proposed_at(items, -1, Fraction(4)) == 0, "before the first count the walk"
    assert proposed_at(items, 9, Fraction(12)) == 2, "in a section its drill"
    assert items[proposed_at(items, 60, Fraction(57))].kind == "run", "where nothing is drilled the run-through"


def test_the_parts_of_a_phrased_dance_are_each_learnt():
    items = proposals(bundled("nets-out-nets-in"), Fraction(0))
    assert [one.blocks for one in items] == [
        "WALK A", "DRILL A 1", "DRILL A 2", "DRILL A 3", "DRILL A 4", "WALK B", "DRILL B 1", "DRILL B 2",
        "JOIN A TO B", "JOIN B TO A", "TAG WALL 4", "JOIN A TO B", "END WALL 6", "RUN-THROUGH",
    ]  # fmt: skip


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_everything_proposed_can_be_danced_from_every_wall(path):
    timeline = unroll(open_sheet(path).routine)
    chart = Chart(timeline)
    for row in road_map(chart):
        items = proposals(chart, row.first)
        assert items[0].kind == "walk"
        assert items[-1].kind == "run"
        for one in items:
            assert first_danced(timeline) <= one.first < one.last <= timeline.ends
            assert timeline.window(one.first, one.last), one


def changed(counts: int, walls: tuple[int, ...]) -> Chart:
    """The dance with its first section only, or with a restart after 8 in some walls and no other departures."""
    routine = quay()
    part = routine.parts[0]
    lines = tuple(OrderLine(passes=(wall,), departures=(Departure(after=8, leave="restart"),)) for wall in walls)
    sections = part.sections[: counts // 8]
    return Chart(unroll(routine.but(counts=counts, parts=(part.but(sections=sections),), extras=(), order=lines)))


RENEWED = [
    (13, (2,), 13, "the same count of the same wall"),
    (44, (), 51, "a tag that is gone: as far into its wall as it goes"),
    (30, (), 38, "behind a restart that is gone: the same count of wall 3"),
    (19, (1, 2), 11, "a count that is danced no longer: the last of its wall"),
]


@pytest.mark.parametrize(("beat", "restarts", "place", "why"), RENEWED)
def test_a_place_is_found_again_in_a_sheet_that_was_changed(chart, beat, restarts, place, why):
    new = changed(16, restarts)
    assert same_place(chart, Fraction(beat), new) == place, why


@pytest.mark.parametrize("counts", [8, 16])
def test_every_place_of_the_dance_has_one_in_any_other(chart, counts):
    new = changed(counts, ())
    for beat in range(4, 58):
        assert 4 <= same_place(chart, Fraction(beat), new) < new.timeline.ends
    for index in range(-1, chart.size):
        assert -1 <= same_index(chart, index, new) < new.size
        assert same_index(chart, index, chart) == index, "and of the same sheet the same one"


def test_a_run_of_counts_is_kept_as_far_as_it_is_danced(chart):
    assert same_range(chart, Fraction(6), Fraction(9), changed(8, ())) == (6, 9)
    assert same_range(chart, Fraction(14), Fraction(18), changed(8, ())) == (11, 12)


def test_the_turn_made_on_a_wall_so_far(chart):
    told = [turned_on_wall(chart, index) for index in (-1, 9, 11, 18, 19)]
    assert told == [0, 0, Fraction(1, 4), Fraction(1, 4), 0], "before, section 1, after the turn, its end, wall 2"


def test_the_step_of_a_line_on_this_wall_or_on_any(chart):
    assert chart.event(event_of_line(chart, 7, Fraction(4))).beat == 6
    assert chart.event(event_of_line(chart, 7, Fraction(30))).wall == 3
    assert event_of_line(chart, 99, Fraction(4)) is None


def test_long_names_of_sections_and_parts_fit_in_block_letters():
    routine = quay()
    part = routine.parts[0]
    first, second = part.sections
    named = part.but(name="the long verse", sections=(first.but(name="walks and a coaster"), second.but(name="2")))
    other = part.but(name="chorus", sections=(first,))
    play = (PlayItem(kind="part", name="the long verse"), PlayItem(kind="part", name="chorus"))
    long = routine.but(parts=(named, other), play=play, order=(), counts=None, walls=None, repeats=False)
    items = proposals(Chart(unroll(long)), Fraction(0))
    assert [one.blocks for one in items] == [
        "WALK",
        "DRILL",
        "DRILL 2",
        "WALK CHORUS",
        "DRILL CHORUS 1",
        "JOIN PARTS",
        "RUN-THROUGH",
    ]
