"""Counts fill their sections, each once and in order; declared counts agree; no two events fall on one instant."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import (
    EIGHT,
    WALK,
    after,
    changed,
    dance,
    extra,
    phrased,
    said,
    section,
    steps,
    tag,
    unread,
    wall,
)
from trainer.dance.proof import proofread
from trainer.routine import Section

# Sections stand on line 10, their first line of counts on line 11.
FIRST, SECOND = "1 R, 2 L, 3 R, 4 L", "5 R, 6 L, 7 R, 8 L"

FILLED = [
    # lines of a section, why it is sound
    ((FIRST, SECOND), "every count has its step"),
    (("1 R, & L, 2 R, a L, 3 R, 4 L",), "with an & and an a between"),
    (("& R touch, 1 R, 2 L, 3 R touch, & R, 4 L",), "a leading &"),
    ((FIRST, SECOND, "1 R, 2 L, 3 R, 4 L"), "a long section counts 1-8, 1-4"),
]


@pytest.mark.parametrize(("lines", "why"), FILLED)
def test_a_filled_section_is_sound(lines: tuple[str, ...], why: str) -> None:
    assert said(dance(section("1", *lines, line=10))) == [], why


def test_a_count_inside_a_figure_is_covered_by_it() -> None:
    first, *rest = steps("1 R #1:0:drag, 2 L #1:1:drag, 3 R, 4 L")
    slow = Section(name="1", counts=5, events=(first, *(one.but(beat=one.beat + 1) for one in rest)))
    assert [kind for _, kind, _ in said(dance(slow))] == ["counts"]
    relabelled = [one.but(label=str(int(one.beat) + 1)) for one in slow.events]
    assert said(dance(slow.but(events=tuple(relabelled)))) == []
    plain = tuple(one.but(figure=None) for one in relabelled)
    assert said(dance(slow.but(events=plain))) == [(1, "counts", "Section 1 has no step on count 2.")]


FAULTS = [
    # events of a section of 8 counts, line, message, why
    (("1 R, 2 L, 3 R, 4 L", "5 R, 6 L, 7 R"), 12, "Section 1 has no step on count 8.", "the last count is empty"),
    (("1 R, 2 L", "7 R, 8 L"), 12, "Section 1 has no step on counts 3 to 6.", "a line is missing"),
    (("3 R, 4 L", "5 R, 6 L, 7 R, 8 L"), 11, "Section 1 has no step on counts 1 to 2.", "the first counts are empty"),
    ((FIRST, "5 R, 6 L", "6 R, 7 L"), 13, "Section 1 has count 6 twice.", "6-7 instead of 7-8: 8 is empty for it"),
    ((FIRST, "5 R, 6 L", "3 R, 4 L"), 13, "Section 1 has count 3 twice.", "3-4 instead of 7-8"),
    (("1 R, 2 L", "7 R, 8 L", "4 R, 5 L", "6 R"), 13, "Section 1 has count 4 after count 8.", "out of order"),
    ((FIRST, SECOND, "9 R, 10 L"), 13, "Count 1 lies outside the 8 counts of section 1.", "more counts than it has"),
]


def at_its_count(text: str) -> Any:
    """Read labels as counts through the section, so that a wrong one stands where it says."""
    events = []
    for place, line in enumerate(text):
        for event in steps(line.replace("9 R", "1 R").replace("10 L", "2 L"), line=11 + place):
            number = int(event.label) + (8 if "9 R" in line else 0)
            events.append(event.but(beat=Fraction(number - 1)))
    return tuple(events)


@pytest.mark.parametrize(("lines", "line", "message", "why"), FAULTS)
def test_counts_that_do_not_fill_their_section(lines: tuple[str, ...], line: int, message: str, why: str) -> None:
    events = tuple(one.but(weight=None) for one in at_its_count(lines))
    faulty = section("1", FIRST, line=10).but(events=events, counts=8)
    assert [one for one in said(dance(faulty)) if one[1] == "counts"] == [(line, "counts", message)], why


def test_a_section_without_steps_or_without_counts() -> None:
    empty, none = section("1", WALK, line=10).but(events=()), section("2", WALK, line=20).but(counts=0)
    assert said(dance(section("3", WALK), empty, none)) == [
        (10, "counts", "Section 1 has no steps."),
        (20, "counts", "Section 2 has no counts."),
    ]


def test_a_section_of_very_many_counts_is_one_finding() -> None:
    huge = section("1", WALK, line=10).but(counts=10**12)
    assert said(dance(huge)) == [(11, "counts", "Section 1 has no step on counts 5 to 8.")]


def test_counts_beside_what_could_not_be_read_are_not_missed() -> None:
    half = Section(name="1", counts=4, events=(*section("", "1 R, 2 L").events, unread("3", 2, line=12)))
    assert said(dance(half)) == [(12, "text", 'Count 3 of section 1 could not be read: "gribble the left".')]


def test_an_extra_may_carry_on_the_numbering_of_its_host() -> None:
    lamp = extra("change", "Lamp", "7 R touch, 8 - hold")
    order = (wall(2, changed(7, 8, "Lamp", leave="restart")),)
    assert said(dance(extras=(lamp,), order=order)) == []
    order = (wall(2, changed(7, 9, "Lamp", leave="restart")),)
    assert said(dance(extras=(lamp.but(counts=3),), order=order)) == [
        (101, "counts", "Change Lamp has no step on count 1.")
    ]


LABELS = [
    # label, beat, feel, message: a routine typed as JSON may hold anything
    ("3", "1", "straight", "Section 1 has count 3 at 1 beats from its first count."),
    ("&", "4/3", "straight", "Section 1 has count 2& at 4/3 beats from its first count."),
    ("e", "5/4", "rolling", "Section 1 has count 2e, but there is no e in a rolling count."),
    ("2", "5/4", "straight", "Section 1 has count 2 at 5/4 beats from its first count."),
]


@pytest.mark.parametrize(("label", "beat", "feel", "message"), LABELS)
def test_labels_and_beats_must_say_the_same(label: Any, beat: str, feel: Any, message: str) -> None:
    events = [one.but(weight=None) for one in steps("1 R, 2 L, 3 R", line=11)]
    wrong = events[1].but(label=label, beat=Fraction(beat))
    events[1:2] = [wrong] if beat == "1" else [events[1], wrong]
    faulty = section("1", "1 R, 2 L, 3 R", line=10).but(events=tuple(events), feel=feel)
    assert [told for _, kind, told in said(dance(faulty)) if kind == "counts"] == [message]


INSTANTS = [
    # sections and how the dance is cut, line, message
    (
        (section("1", "1 R, 2 L, & R", line=10), section("2", "& L touch, 1 L, 2 R touch", line=20)),
        (),
        21,
        "The & before count 1 of section 2 falls on or before count 2& of section 1.",
    ),
    (
        (section("1", "& R touch, 1 R, & L, 2 R, & L", line=10),),
        (),
        11,
        "The & before count 1 of section 1 falls on or before count 2& of section 1.",
    ),
    (
        (section("1", "1 R, 2 L", line=10), section("2", "1 R, 2 L, & R touch", line=20)),
        (wall(1, after(4, tag("Bell"))),),
        101,
        "The & before count 1 of tag Bell falls on or before count 2& of section 2.",
    ),
]


@pytest.mark.parametrize(("sections", "order", "line", "message"), INSTANTS)
def test_two_events_at_one_instant_also_across_cuts(sections: Any, order: Any, line: int, message: str) -> None:
    bell = extra("tag", "Bell", "& R touch, 1 R, 2 L")
    extras = (bell,) if order else ()
    found = said(dance(*sections, order=order, extras=extras))
    assert [one for one in found if one[1] == "counts"] == [(line, "counts", message)]


def test_what_is_cut_off_may_follow_an_extra_of_whole_beats() -> None:
    wait = extra("bridge", "Wait", "1 R sway, 2 L sway")
    routine = dance(
        section("1", "1 R, & L, 2 R, 3 L, 4 R touch"), extras=(wait,), order=(wall(1, after(1, tag("Wait", "bridge"))),)
    )
    assert [one for one in said(routine) if one[1] == "counts"] == []


SHORT = section("2", "1 R, 2 L, 3 R, 4 L, 5 R, 6 L", line=20)
DECLARED = [
    # routine, line, message, hint
    (dance(counts=32), 0, "The sheet declares 32 counts, but its sections have 16.", ""),
    (
        dance(counts=32, header=(("counts", (5, 9, 2)),)),
        5,
        "The sheet declares 32 counts, but its sections have 16.",
        "",
    ),
    (
        dance(section("1", EIGHT, line=10), SHORT, counts=16),
        21,
        "The sheet declares 16 counts, but its sections have 14: section 2 has 6.",
        "With 8 counts in section 2 it would come out.",
    ),
    (phrased("A B", counts=8), 0, "The sheet declares 8 counts, but its sections have 12.", ""),
]


@pytest.mark.parametrize(("routine", "line", "message", "hint"), DECLARED)
def test_declared_counts_are_those_of_the_sections(routine: Any, line: int, message: str, hint: str) -> None:
    (problem,) = proofread(routine)
    assert (problem.level, problem.kind, problem.line, problem.message) == ("error", "counts", line, message)
    assert problem.hint == hint


def test_declared_counts_that_agree_and_none_at_all() -> None:
    assert said(dance(counts=16)) == said(phrased("A A B", counts=12)) == said(dance()) == []


def test_counts_missing_in_a_section_are_not_missed_again_in_the_sum() -> None:
    gap = section("1", "1 R, 2 L, 3 R touch", line=10).but(counts=4)
    assert said(dance(gap, counts=8)) == [(11, "counts", "Section 1 has no step on count 4.")]


CHANGES = [
    # title, level, why
    ("", "error", "nothing says that it is meant"),
    ("a longer look back", "error", "nor does a title that tells something else"),
    ("4 counts", "note", "the title says so"),
]


@pytest.mark.parametrize(("title", "level", "why"), CHANGES)
def test_a_change_has_the_length_of_what_it_replaces_or_says_so(title: str, level: str, why: str) -> None:
    lamp = extra("change", "Lamp", WALK).but(title=title)
    order = (wall(2, changed(7, 8, "Lamp", leave="restart", line=201), line=201),)
    (problem,) = proofread(dance(extras=(lamp,), order=order))
    assert (problem.level, problem.kind, problem.line) == (level, "counts", 201), why
    assert problem.message == "Change Lamp has 4 counts in place of 2."
    if level == "error":
        assert problem.hint == "Where that is meant, the title says so: `== change Lamp: 4 counts`."
