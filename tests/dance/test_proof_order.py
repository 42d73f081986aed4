"""The order names walls, counts and extras that exist, each once; the play has its parts."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import (
    after,
    changed,
    dance,
    extra,
    hold,
    phrased,
    said,
    section,
    tag,
    wall,
)
from trainer.dance.proof import proofread
from trainer.dance.unroll import MOST_UNASKED
from trainer.routine import PlayItem, Routine, Span

BELL = extra("tag", "Bell", "1 R sway, 2 L sway")
LAMP = extra("change", "Lamp", "7 R touch, 8 - hold", line=110)
BOW = extra("ending", "Bow", "1 R, 2 L touch", line=120)
WALTZ = section("1", "1 R, 2 L, 3 R, & L, 4 R, 5 L, 6 R, 7 L, 8 R touch", line=10)


def first(routine: Routine) -> tuple[int, str, str, str]:
    """The one finding of a routine: line, kind, message, hint."""
    (problem,) = [one for one in proofread(routine) if one.level != "note"]
    return problem.line, problem.kind, problem.message, problem.hint


SOUND = [
    # fields, why
    ({"order": (wall(2, after(8, tag("Bell"))),), "extras": (BELL,)}, "a tag"),
    ({"order": (wall(2, after(8, tag("Bell", "bridge"))),), "extras": (BELL,)}, "tag and bridge are the same"),
    ({"order": (wall((2, 5), after(4, leave="restart")),)}, "two restarts"),
    ({"order": (wall(2, after(4, hold(2)), after(16, tag("Bell"))),), "extras": (BELL,)}, "several in one wall"),
    ({"order": (wall(3, after(8, tag("Bow", "ending"), leave="end")),), "extras": (BOW,)}, "an ending"),
    ({"order": (wall(2, changed(7, 8, "Lamp", leave="restart")),), "extras": (LAMP,)}, "a change"),
    ({"order": (wall(2, starts=Fraction(1, 4)), wall(700, cue="the drums"))}, "lines without a departure"),
]


@pytest.mark.parametrize(("fields", "why"), SOUND)
def test_an_order_that_can_be_danced_is_silent(fields: dict[str, Any], why: str) -> None:
    assert proofread(dance(**fields)) == (), why


FAULTS = [
    # order, line, message, hint, why
    ((wall(0, after(8, hold(1))),), 200, "Walls are counted from 1.", "", "no wall 0"),
    ((wall((), after(8, hold(1))),), 200, "The line names no wall.", "", "a line for nothing"),
    ((wall(MOST_UNASKED + 2, after(8, hold(1))),), 200, f"Wall {MOST_UNASKED + 2} is too far to be danced.", "", "far"),
    (
        (wall(3, after(8, leave="end")), wall(4, after(8, hold(1)), line=201)),
        *(201, "There is no wall 4: the dance ends in wall 3.", ""),
        "after the end",
    ),
    ((wall(2, after(8, hold(1)), part="A"),), 200, "There is no part A.", "", "not phrased"),
    ((wall(2, after(17, leave="restart")),), 200, "There is no count 17: the dance has 16 counts.", "", "too far"),
    ((wall(2, after(-1, leave="restart")),), 200, "Counts are numbered from 1.", "", "before the dance"),
    ((wall(2, after(4, before="a", leave="restart")),), 200, "There is no a after count 4.", "", "no such label"),
    ((wall(2, after(8, tag("Bel"))),), 200, "There is no tag Bel.", "Did you mean Bell?", "a misprint"),
    ((wall(2, after(8, tag("bell"))),), 200, "There is no tag bell.", "Did you mean Bell?", "a small letter"),
    ((wall(2, after(8, tag("Quay"))),), 200, "There is no tag Quay.", "The sheet has Bell.", "nothing like it"),
    ((wall(2, after(8, hold(0))),), 200, "A hold of 0 counts cannot be danced.", "", "no length"),
    ((wall(2, after(8, hold(-1))),), 200, "A hold of -1 counts cannot be danced.", "", "less than none"),
    (
        (wall((2, 4), after(8, hold(1))), wall(4, after(16, hold(1)), line=201)),
        *(201, "Wall 4 is named twice.", "All departures of a wall stand in one line, divided by /."),
        "in two lines",
    ),
    (
        (wall((2, 2), after(8, hold(1))),),
        *(200, "Wall 2 is named twice.", "All departures of a wall stand in one line, divided by /."),
        "in one line",
    ),
    (
        (wall(2, after(4, leave="restart"), after(8, hold(1), line=201)),),
        *(201, "The wall is left after 4, count 8 is not danced.", ""),
        "after a restart",
    ),
    (
        (wall(2, after(8, tag("Bow", "ending")), after(16, hold(1), line=201)),),
        *(201, "The wall is left after 8, count 16 is not danced.", ""),
        "after an ending",
    ),
]


@pytest.mark.parametrize(("order", "line", "message", "hint", "why"), FAULTS)
def test_an_order_that_cannot_be_danced(order: Any, line: int, message: str, hint: str, why: str) -> None:
    extras = (BELL,) if "Bell" in hint else (BOW,) if "ending" in why else ()
    assert first(dance(order=order, extras=extras)) == (line, "order", message, hint), why


CHANGES = [
    # departure, message, hint, why
    (changed(7, 8, "Lime"), "There is no change Lime.", "The sheet has Lamp.", "no such change"),
    (changed(7, 8, "Lam"), "There is no change Lam.", "Did you mean Lamp?", "a misprint"),
    (changed(16, 17, "Lamp"), "There is no count 17: the dance has 16 counts.", "", "too far"),
    (changed(0, 1, "Lamp"), "Counts 0 to 1 are none that could be changed.", "", "before count 1"),
    (changed(8, 7, "Lamp"), "Counts 8 to 7 are none that could be changed.", "", "backwards"),
]


@pytest.mark.parametrize(("departure", "message", "hint", "why"), CHANGES)
def test_a_change_that_cannot_be_danced(departure: Any, message: str, hint: str, why: str) -> None:
    assert first(dance(order=(wall(2, departure),), extras=(LAMP,))) == (200, "order", message, hint), why


def test_a_departure_inside_counts_that_are_changed() -> None:
    order = (wall(2, changed(7, 8, "Lamp"), after(7, hold(1), line=201)),)
    lamp = extra("change", "Lamp", "7 R, 8 L")
    assert first(dance(order=order, extras=(lamp,)))[:3] == (201, "order", "Count 8 is replaced by a change before.")


def test_a_change_without_counts_is_wrong_at_its_heading() -> None:
    lamp = LAMP.but(counts=0, events=())
    order = (wall(2, changed(7, 8, "Lamp", leave="restart")),)
    assert ("counts", "Change Lamp has no counts.") in [(k, m) for _, k, m in said(dance(order=order, extras=(lamp,)))]


def test_an_extra_without_length() -> None:
    order = (wall(2, after(8, tag("Bell"))),)
    assert first(dance(order=order, extras=(BELL.but(counts=0, events=()),)))[:3] == (
        *(100, "counts", "Tag Bell has no counts."),
    )


def test_an_extra_that_is_never_danced_is_a_warning() -> None:
    intro = extra("intro", "", "1 R, 2 L")
    (problem,) = proofread(dance(extras=(BELL, intro)))
    assert (problem.level, problem.kind, problem.line) == ("warning", "order", 100)
    assert problem.message == "Tag Bell is never danced: the order does not name it."
    (problem,) = proofread(dance(extras=(LAMP,)))
    assert problem.message == "Change Lamp is never danced: the order does not name it."


def test_a_misprinted_name_is_not_a_second_finding_for_the_extra_that_was_meant() -> None:
    assert len(said(dance(extras=(BELL,), order=(wall(2, after(8, tag("Bel"))),)))) == 1


PHRASED = [
    # routine, line, message, hint, why
    (
        phrased("A B", order=(wall(2, after(2, hold(1)), part="B"),)),
        *(200, "There is no second B: B is danced only once.", ""),
        "too few of it",
    ),
    (
        phrased("A B B", order=(wall(4, after(2, hold(1)), part="B"),)),
        *(200, "There is no fourth B: B is danced only 2 times.", ""),
        "too few of it",
    ),
    (
        phrased("A B", order=(wall(11, after(2, hold(1)), part="A"),)),
        *(200, "There is no 11th A: A is danced only once.", ""),
        "far too few",
    ),
    (
        phrased("A B", order=(wall(3, after(2, hold(1))),)),
        *(200, "There is no wall 3: the dance ends in wall 2.", ""),
        "by the number of the pass",
    ),
    (
        phrased("A B", order=(wall(2, after(5, leave="next")),)),
        *(200, "There is no count 5: part B has 4 counts.", ""),
        "wall 2 is a B",
    ),
    (
        phrased("A B", order=(wall(1, after(9, leave="next"), part="A"),)),
        *(200, "There is no count 9: part A has 8 counts.", ""),
        "counts of the part",
    ),
    (
        phrased("A B", order=(wall(1, after(2, hold(1)), part="C"),)),
        *(200, "There is no part C.", "The sheet has A, B."),
        "no such part",
    ),
    (
        phrased("A C B", header=(("play", Span(7, 7, 5)),)),
        7,
        "There is no part C.",
        "The sheet has A, B.",
        "in the play",
    ),
    (phrased("A bell B"), 0, "There is no tag bell.", "", "no such tag in the play"),
    (phrased("A A", header=(("play", Span(7, 7, 5)),)), 0, "Part B is never danced.", "", "a part left out"),
    (phrased("").but(repeats=True), 0, "The sheet has parts, but no play that puts them in order.", "", "no play"),
]


@pytest.mark.parametrize(("routine", "line", "message", "hint", "why"), PHRASED)
def test_the_order_of_a_phrased_dance(routine: Routine, line: int, message: str, hint: str, why: str) -> None:
    assert first(routine) == (line, "order", message, hint), why


def test_a_play_without_a_part() -> None:
    play = (PlayItem(kind="tag", name="Bell"), PlayItem(kind="hold", counts=0, span=Span(7, 9, 6)))
    assert [told for _, _, told in said(phrased("", BELL).but(play=play))] == [
        "The play has no part.",
        "A hold of 0 counts cannot be danced.",
    ]


def test_a_restart_makes_one_more_of_its_part() -> None:
    order = (wall(1, after(4, leave="restart"), part="A"), wall(2, after(8, hold(1)), part="A", line=201))
    assert said(phrased("A B", order=order)) == []


def test_a_cut_that_leaves_an_and_behind_is_told_in_a_note() -> None:
    (note,) = proofread(dance(WALTZ, order=(wall(2, after(3, hold(1))),)))
    assert (note.level, note.kind, note.line) == ("note", "order", 200)
    assert note.message == "After 3 is read as straight after the number: the & that follows is cut off."
    assert note.hint == "Write `after 3 before &` to say so."
    assert proofread(dance(WALTZ, order=(wall(2, after(3, hold(1), before="&")),))) == ()
