"""Readings that tie: what is danced stays open, and both are kept; a pivot turns away from the stepping foot."""

from fractions import Fraction

from trainer.dance.proof import proofread
from trainer.problems import loud
from trainer.routine import Event, Routine
from trainer.sheet.fair import fair
from trainer.sheet.reading import read

HEAD = "Quay Steps\n8 counts, 4 walls\n\n"


def routine_of(line: str, *, rest: str = "5-8 Walk forward right, left, right, left") -> Routine:
    routine, problems = read(f"{HEAD}{line}\n{rest}\n")
    assert not loud(problems)
    return routine


def unsure(routine: Routine) -> list[Event]:
    return [event for event in routine.events() if event.status == "unsure"]


OPEN = "1-4 Step right forward making a quarter turn, touch left, step left to side, touch right"


def test_a_turn_to_no_side_is_read_both_ways() -> None:
    (event,) = unsure(routine_of(OPEN))
    assert event.other is not None
    assert {event.turn, event.other.turn} == {Fraction(1, 4), Fraction(-1, 4)}


def test_it_is_told_in_a_note_and_no_fault() -> None:
    problems = proofread(routine_of(OPEN))
    assert not loud(problems)
    notes = [problem.message for problem in problems if "could be" in problem.message]
    assert notes == ["Count 1 of section 1 is read as R forward 1/4 right, but could be R forward 1/4 left."]


def test_a_stated_facing_settles_it() -> None:
    assert not unsure(routine_of(OPEN.replace("turn,", "turn (9:00),")))


def test_a_pivot_turns_away_from_the_stepping_foot() -> None:
    routine = routine_of("1-4 Step right forward, pivot 1/2, step right forward, pivot 1/2")
    assert not unsure(routine)
    turns = [event.turn for event in routine.events() if event.turn]
    assert turns == [Fraction(-1, 2), Fraction(-1, 2)]


def test_a_fair_copy_keeps_both() -> None:
    routine = routine_of(OPEN)
    assert "?(" in fair(routine)
    assert read(fair(routine))[0] == routine
