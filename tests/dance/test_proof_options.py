"""Options end on the same foot and facing as what they replace; what was assumed is a note."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import EIGHT, QUARTER, dance, option, phrased, said, section, steps, unread
from trainer.dance.proof import proofread
from trainer.problems import Problem
from trainer.routine import Option, Routine, Section, Span

OPTIONS: list[Any] = [
    # option in section 2, which walks and turns a quarter right on 5; line, kind, message; None is sound
    (option(5, 6, "5 R +1/4 @3:00, 6 L"), None),
    (option(5, 6, "5 R -3/4, 6 L"), None),
    (option(1, 4, "1 R, 2 L touch >R, 3 L, 4 R touch"), None),
    (option(1, 4, "1 R, & L, 2 R, 3 L, 4 R touch"), None),
    (option(1, 2, "1 R, 2 L", section="1"), None),
    (
        option(5, 6, "5 R, 6 L"),
        (301, "facing", "The option ends facing 12:00, but the counts that it replaces end facing 3:00."),
    ),
    (
        option(5, 6, "5 R +1/4, 6 - hold"),
        (301, "weight", "The option ends with the weight on R, but the counts that it replaces end on L."),
    ),
    (
        option(5, 6, "5 L +1/4, 6 R"),
        (301, "weight", "Count 5 asks L to step, but L has the weight since count 4 of section 2."),
    ),
    (
        option(1, 2, "1 L, 2 R", section="1"),
        (301, "weight", "Count 1 asks L to step, but L has the weight from the start."),
    ),
    (
        option(5, 6, "5 R +1/4 @6:00, 6 L"),
        *[
            (
                301,
                "facing",
                "After count 5 of the option for section 2 the sheet states 6:00, but the turns lead to 3:00.",
            )
        ],
    ),
    (
        option(5, 8, "5 R +1/4, 6 L"),
        (301, "counts", "The option for counts 5 to 8 of section 2 has no step on counts 7 to 8."),
    ),
    (
        option(6, 6, "6 L, 7 R"),
        (301, "counts", "Count 7 lies outside the 6 counts of the option for count 6 of section 2."),
    ),
    (option(5, 9, "5 R, 6 L, 7 R, 8 L, 1 R"), (300, "order", "Section 2 has no counts 5 to 9.")),
    (option(0, 2, "1 R, 2 L"), (300, "order", "Section 2 has no counts 0 to 2.")),
    (option(5, 6, "5 R, 6 L", section="9"), (300, "order", "There is no section 9 for this option.")),
    (option(5, 6, "5 R, 6 L").but(part="B"), (300, "order", "There is no section 2 for this option.")),
]


@pytest.mark.parametrize(("easy", "found"), OPTIONS)
def test_an_option_ends_as_what_it_replaces(easy: Option, found: tuple[int, str, str] | None) -> None:
    assert said(dance(options=(easy,))) == ([found] if found else [])


def test_every_option_has_its_own_finding() -> None:
    wrong = (option(5, 6, "5 R, 6 L"), option(1, 2, "1 L, 2 R", line=310))
    assert [line for line, _, _ in said(dance(options=wrong))] == [301, 311]


def test_an_option_of_a_part_that_may_begin_on_any_foot() -> None:
    easy = option(1, 2, "1 R, 2 L", section="B1").but(part="B")
    assert said(phrased("A B").but(options=(easy,))) == []


def test_an_option_beside_what_could_not_be_read_is_left_alone() -> None:
    events = (*steps("1 R, 2 L"), unread("3", 2, line=12), *steps("4 R touch >L", first=4))
    easy = option(1, 2, "1 R, 2 - hold", section="1")
    assert [kind for _, kind, _ in said(dance(Section(name="1", counts=4, events=events), options=(easy,)))] == ["text"]


def test_an_option_after_a_wrong_turn_may_agree_with_what_was_meant() -> None:
    first = section("1", "1 R @12:00, 2 L -1/4 @3:00", "3 R @3:00, 4 L", line=10)
    easy = option(1, 2, "1 R +1/4 @6:00, 2 L", section="2")
    wrong = dance(first, section("2", "1 R, 2 L +1/4", line=20), options=(easy,))
    assert [line for line, _, _ in said(wrong)] == [11]


def test_an_option_is_stated_in_the_frame_of_its_part() -> None:
    first = section("1", "1 R @6:00, 2 L +1/4 @9:00")
    assert said(dance(first, options=(option(1, 2, "1 R +1/4 @9:00, 2 L", section="1"),))) == []


def test_several_faults_of_several_kinds_are_all_found_by_line() -> None:
    first = section("1", "1 R, 2 L", "4 R, 4 L", line=10).but(counts=4)
    second = section("2", "1 R @12:00, 2 L @6:00, 3 L touch, 4 L", line=20)
    kinds = [(line, kind) for line, kind, _ in said(dance(first, second, walls=2))]
    assert kinds == sorted(kinds)
    assert {kind for _, kind in kinds} == {"counts", "facing", "weight"}


def notes(routine: Routine) -> list[Problem]:
    return [one for one in proofread(routine) if one.level == "note"]


def test_an_assumed_tempo_is_a_note() -> None:
    (note,) = notes(dance(tempo=None, header=(("tempo", Span(2, 1, 5)),)))
    assert (note.kind, note.line) == ("music", 2)
    assert note.message == "No tempo is stated: 100 counts a minute is assumed."


@pytest.mark.parametrize("tempo", [0, -60])
def test_a_tempo_that_is_none_is_an_error(tempo: int) -> None:
    assert said(dance(tempo=Fraction(tempo))) == [(0, "music", "A tempo is above 0 counts a minute.")]


def test_an_unsure_event_is_a_note_with_both_readings() -> None:
    first, *rest = section("1", EIGHT, line=10).events
    unsure = first.but(status="unsure", other=steps("1 R stomp")[0])
    (note,) = notes(dance(Section(name="1", counts=8, events=(unsure, *rest))))
    assert (note.kind, note.line) == ("text", 11)
    assert note.message == "Count 1 of section 1 is read as R step, but could be R stomp."
    (note,) = notes(dance(Section(name="1", counts=8, events=(first.but(status="unsure"), *rest))))
    assert note.message == "Count 1 of section 1 is read as R step."


def test_what_could_not_be_read_is_found_once_for_each_line_or_text() -> None:
    events = (unread("1", 0, 11), unread("2", 1, 11), unread("3", 2, 12), *steps("4 L", first=4))
    assert [line for line, _, _ in said(dance(Section(name="1", counts=4, events=events)))] == [11, 12]
    loose = tuple(one.but(span=None) for one in events)
    assert [kind for _, kind, _ in said(dance(Section(name="1", counts=4, events=loose)))] == ["text"]
    silent = tuple(one.but(words="") for one in loose)
    found = said(dance(Section(name="1", counts=4, events=silent)))
    assert [told for _, _, told in found] == [f"Count {count} of section 1 could not be read." for count in "123"]


def test_styling_is_no_finding() -> None:
    styled = section("1", EIGHT, line=10)
    events = tuple(one.but(styling="arms up", asides=("large step",)) for one in styled.events)
    assert proofread(dance(styled.but(events=events), section("2", QUARTER))) == ()


def test_an_empty_routine_is_silent() -> None:
    assert proofread(Routine(title="Nothing", tempo=Fraction(100), counts=32, walls=4)) == ()
