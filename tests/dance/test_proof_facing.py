"""Stated facings agree with the turns, each in its frame."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import (
    EIGHT,
    after,
    changed,
    dance,
    extra,
    option,
    said,
    section,
    steps,
    tag,
    unread,
    wall,
)
from trainer.dance.facing import read_clock
from trainer.dance.proof import proofread
from trainer.problems import loud
from trainer.routine import Routine, Section


def at(clock: str) -> Fraction:
    facing = read_clock(clock)
    assert facing is not None
    return facing


def turning(*lines: str, **fields: Any) -> Routine:
    return dance(section("1", *lines, line=10), **fields)


SOUND = [
    # lines of the section, why
    (("1 R @12:00, 2 L +1/4 @3:00, 3 R, 4 L @3:00",), "sections are stated as on wall 1"),
    (("1 R -1/8 @10:30, 2 L -1/8 @9:00",), "eighths"),
    (("1 R +1 @12:00, 2 L +1/2 @6:00",), "a full turn faces where it began"),
    (("1 R @3:00, 2 L +1/4 @6:00",), "one shift makes both right: that frame was meant"),
    (("1 R, 2 L +1/4",), "nothing is stated"),
]


@pytest.mark.parametrize(("lines", "why"), SOUND)
def test_turns_and_statements_that_agree(lines: tuple[str, ...], why: str) -> None:
    assert said(turning(*lines)) == [], why


FAULTS = [
    # lines; line, event named, stated, danced; hint; why
    (
        ("1 R +1/4 @3:00, 2 L", "3 R +1/4 @9:00, 4 L @6:00"),
        *(12, "count 3", "9:00", "6:00"),
        "Turning 1/2 right from 3:00 it would come out.",
        "the statement is wrong: the next one agrees with the turns",
    ),
    (
        ("1 R +1/4 @3:00, 2 L", "3 R -1/4 @6:00, 4 L +1/4 @9:00"),
        *(12, "count 3", "6:00", "12:00"),
        "Turning 1/4 right from 3:00 it would come out.",
        "the turn is wrong: the next one agrees with the statement",
    ),
    (
        ("1 R +1/4 @3:00, 2 L", "3 R +1/4, 4 L @3:00"),
        *(12, "count 4", "3:00", "6:00"),
        "Without a turn from 3:00 it would come out.",
        "the last statement of all",
    ),
    (
        ("1 R, 2 L +1/4 @9:00",),
        *(11, "count 2", "9:00", "3:00"),
        "Turning 1/4 left from 12:00 it would come out.",
        "a single statement is no frame",
    ),
    (
        ("1 R @3:00, 2 L +1/4 @3:00, 3 R, 4 L",),
        *(11, "count 1", "3:00", "12:00"),
        "Turning 1/4 right from 12:00 it would come out.",
        "the first wants a shift, but the second is against it",
    ),
]


@pytest.mark.parametrize(("lines", "line", "count", "stated", "danced", "hint", "why"), FAULTS)
def test_a_fault_of_facing_is_found_once(
    lines: Any, line: int, count: str, stated: str, danced: str, hint: str, why: str
) -> None:
    (problem,) = loud(proofread(turning(*lines)))
    message = f"After {count} of section 1 the sheet states {stated}, but the turns lead to {danced}."
    assert (problem.kind, problem.line, problem.message, problem.hint) == ("facing", line, message, hint), why


def test_two_faults_of_facing_are_two_findings() -> None:
    routine = turning("1 R @12:00, 2 L @3:00", "3 R @12:00, 4 L @6:00", "5 R @12:00, 6 L")
    assert [line for line, _, _ in said(routine)] == [11, 12]


def test_a_wrong_turn_is_not_found_again_in_the_walls_and_the_order() -> None:
    order = (wall(2, starts=at("3:00")), wall(3, starts=at("6:00"), line=201), wall(4, starts=at("9:00"), line=202))
    routine = turning("1 R @12:00, 2 L -1/4 @3:00", "3 R, 4 L @3:00", order=order, walls=4)
    assert [line for line, _, _ in said(routine)] == [11]
    half = turning("1 R @12:00, 2 L +1/2 @3:00", "3 R, 4 L @3:00", order=order, walls=4)
    assert [line for line, _, _ in said(half)] == [11]


def test_a_shift_that_the_order_speaks_against_is_a_fault() -> None:
    order = (wall(2, starts=at("3:00")), wall(3, starts=at("6:00")))
    routine = turning("1 R +1/2, 2 L @3:00, 3 R, 4 L @3:00", order=order, walls=4)
    assert said(routine) == [
        (11, "facing", "After count 2 of section 1 the sheet states 3:00, but the turns lead to 6:00.")
    ]
    assert said(routine.but(order=(), walls=2)) == []


EXTRAS = [
    # where the tag is danced, its statements, findings, why
    ((wall(2, after(8, tag("Bell"))),), "1 R @3:00, 2 L +1/4 @6:00", [], "as where first danced"),
    ((wall((2, 3), after(8, tag("Bell"))),), "1 R @3:00, 2 L +1/4 @6:00", [], "elsewhere it turns with the wall"),
    ((wall(2, after(8, tag("Bell"))),), "1 R @12:00, 2 L +1/4 @3:00", [], "one shift: as if begun at 12:00"),
    (
        (wall(2, after(8, tag("Bell"))),),
        "1 R, 2 L +1/4 @3:00",
        [(101, "facing", "After count 2 of tag Bell the sheet states 3:00, but the turns lead to 6:00.")],
        "one statement alone is no frame",
    ),
    (
        (wall(2, after(8, tag("Bell"))),),
        "1 R @3:00, 2 L +1/4 @9:00",
        [(101, "facing", "After count 2 of tag Bell the sheet states 9:00, but the turns lead to 6:00.")],
        "inside the tag",
    ),
]


@pytest.mark.parametrize(("order", "lines", "found", "why"), EXTRAS)
def test_extras_are_stated_as_where_they_are_danced_first(order: Any, lines: str, found: Any, why: str) -> None:
    routine = turning("1 R, 2 L, 3 R, 4 L, 5 R +1/4, 6 L, 7 R, 8 L", extras=(extra("tag", "Bell", lines),), order=order)
    # Wall 2 begins at 3:00; after 8 counts, the turn among them, it faces 6:00.
    first = routine.parts[0].sections[0]
    still = first.but(events=tuple(one.but(turn=Fraction(0)) for one in first.events))
    quarter = section("2", "1 R, 2 L +1/4", line=20)
    assert said(routine.but(parts=(routine.parts[0].but(sections=(still, quarter)),))) == found, why


def test_an_extra_that_is_never_danced_has_no_frame() -> None:
    found = proofread(turning(EIGHT, extras=(extra("tag", "Bell", "1 R @9:00, 2 L +1/4 @12:00"),)))
    assert [(one.level, one.kind) for one in found] == [("warning", "order")]


def test_a_change_is_stated_in_the_room() -> None:
    lamp = extra("change", "Lamp", "7 R +1/4 @6:00, 8 L")
    order = (wall(2, changed(7, 8, "Lamp", leave="restart")),)
    routine = dance(section("1", EIGHT), section("2", "1 R, 2 L +1/4"), extras=(lamp,), order=order)
    assert said(routine) == []


INTROS = [
    # starts, events, line, message, hint, why
    ("6:00", "1 R, 2 L -1/4 @3:00, 3 R, 4 L -1/4 @12:00", None, "", "", "from the back to the front"),
    (None, "1 R, 2 L +1 @12:00", None, "", "", "a full turn"),
    (
        None,
        "1 R @6:00, 2 L +1/2 @12:00",
        101,
        "The danced intro ends facing 6:00, but count 1 of wall 1 faces 12:00.",
        "Beginning at 6:00 it would come out there.",
        "where it begins is left out",
    ),
    (
        "6:00",
        "1 R, 2 L -1/4",
        101,
        "The danced intro ends facing 3:00, but count 1 of wall 1 faces 12:00.",
        "Beginning at 3:00 it would come out there.",
        "it does not come out at the front",
    ),
    (
        "3:00",
        "1 R, 2 L +1/4 @12:00",
        101,
        "After count 2 of the danced intro the sheet states 12:00, but the turns lead to 6:00.",
        "Turning 1/4 left from 3:00 it would come out.",
        "one wrong turn is one finding",
    ),
    (
        "3:00",
        "1 R -1/4 @3:00, 2 L @12:00",
        101,
        "After count 1 of the danced intro the sheet states 3:00, but the turns lead to 12:00.",
        "Without a turn from 3:00 it would come out.",
        "a wrong statement inside",
    ),
]


@pytest.mark.parametrize(("starts", "events", "line", "message", "hint", "why"), INTROS)
def test_a_danced_intro_comes_out_at_the_front(
    starts: str | None, events: str, line: int | None, message: str, hint: str, why: str
) -> None:
    found = loud(proofread(dance(section("1", EIGHT), extras=(extra("intro", "", events, starts=starts),))))
    assert [(one.line, one.kind, one.message) for one in found] == ([(line, "facing", message)] if line else []), why
    assert not line or found[0].hint == hint


def test_what_could_not_be_read_may_have_turned() -> None:
    events = (*steps("1 R @12:00"), unread("2", 1), *steps("3 R @6:00, 4 L @6:00", first=3))
    routine = dance(Section(name="1", counts=4, events=events), walls=2, order=(wall(2, starts=at("6:00")),))
    assert [kind for _, kind, _ in said(routine)] == ["text"]
    # Where no statement follows, nothing is known of the walls.
    lost = dance(Section(name="1", counts=2, events=events[:2]), walls=2, order=(wall(2, starts=at("9:00")),))
    assert [kind for _, kind, _ in said(lost)] == ["text"]
    shifted = (*steps("1 R @3:00, 2 L +1/4 @6:00"), unread("3", 2), *steps("4 L", before="R", first=4))
    both = dance(Section(name="1", counts=4, events=shifted), walls=2)
    assert [kind for _, kind, _ in said(both)] == ["text"]


def test_an_event_read_in_two_ways_may_turn_in_two_ways() -> None:
    first, second = steps("1 R +1/4, 2 L @9:00")
    unsure = first.but(status="unsure", other=first.but(turn=Fraction(-1, 4)))
    assert said(dance(Section(name="1", counts=2, events=(unsure, second)))) == []
    neither = second.but(facing=at("6:00"))
    assert len(said(dance(Section(name="1", counts=2, events=(unsure, neither))))) == 1


def test_options_are_stated_as_their_section() -> None:
    easy = option(1, 2, "1 R @3:00, 2 L", section="2")
    routine = dance(section("1", "1 R, 2 L +1/4"), section("2", "1 R, 2 L"), options=(easy,))
    assert said(routine) == []
