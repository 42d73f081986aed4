"""The page gate: a section in which too much is wrong is a guess, told once; a teacher's mistakes are told."""

from tests.dance.making import EIGHT, after, dance, extra, section, tag, unread, wall
from trainer.dance.proof import proofread
from trainer.problems import each_once, loud
from trainer.routine import Routine
from trainer.sheet.fair import fair
from trainer.sheet.prose.sections.gates import gated
from trainer.sheet.reading import read

LAWLESS = section("2", "1 R, 2 R", "3 L, 4 L", "5 R, 6 R", "7 L, 8 L", line=20)
SWAPPED = section("2", "1 L, 2 R", "3 R, 4 L", "5 R, 6 L", "7 R, 8 L", line=20)


def told(routine: Routine) -> list[str]:
    """What is wrong with a routine once the gate was shut where need be."""
    closed, problems = gated(routine, ())
    return [problem.message for problem in loud(each_once(problems, proofread(closed)))]


def test_a_shower_in_a_section_becomes_one_finding() -> None:
    routine = dance(section("1", EIGHT), LAWLESS, section("3", EIGHT, line=40))
    assert len(loud(proofread(routine))) > 3
    assert told(routine) == ["The layout of section 2 was not understood: its steps are a guess."]


def test_what_was_read_is_kept_as_a_guess() -> None:
    closed, _ = gated(dance(section("1", EIGHT), LAWLESS), ())
    first, second = closed.parts[0].sections
    assert [event.status for event in first.events] == ["sure"] * 8
    assert [event.foot for event in second.events] == [event.foot for event in LAWLESS.events]
    assert all(event.doubtful and event.status == "unsure" for event in second.events)


def test_a_swapped_line_is_the_teachers_mistake() -> None:
    routine = dance(section("1", EIGHT), SWAPPED)
    assert gated(routine, ()) == (routine, ())
    assert any("asks L to step" in message for message in told(routine))


def test_sections_on_every_side_are_named_together() -> None:
    lawless = section("1", "1 R, 2 R", "3 L, 4 L", "5 R, 6 R", "7 L, 8 L", line=10)
    bell = extra("tag", "Bell", "1 R, 2 R", "3 L, 4 L", "5 R, 6 R", "7 L, 8 L", line=60)
    message = "The layout of sections 1 and 2 and tag Bell was not understood: their steps are a guess."
    assert message in told(dance(lawless, LAWLESS, extras=(bell,), order=(wall(2, after(16, tag("Bell"))),)))


def test_a_section_unread_in_many_places_is_one_finding() -> None:
    lost = [unread(str(beat + 1), beat, 20 + beat, f"gribble {beat}") for beat in range(4)]
    rest = section("2", "5 R, 6 L, 7 R, 8 L", line=30, first=5).events
    block = section("2", EIGHT, line=20).but(events=(*lost, *rest))
    assert told(dance(section("1", EIGHT), block)) == [
        "The layout of section 2 was not understood: its steps are a guess."
    ]


def test_facings_after_a_guess_are_not_held_against_it() -> None:
    lawless = section("1", "1 R +1/4, 2 R", "3 L, 4 L", "5 R, 6 R", "7 L, 8 L @6:00", line=10)
    stated = section("2", "1 R, 2 L, 3 R, 4 L @9:00, 5 R, 6 L, 7 R, 8 L +1/4 @12:00", line=20)
    assert told(dance(lawless, stated)) == ["The layout of section 1 was not understood: its steps are a guess."]


def test_a_fair_copy_of_guesses_is_read_back_equal() -> None:
    closed, _ = gated(dance(section("1", EIGHT), LAWLESS), ())
    again, problems = read(fair(closed))
    assert again == closed
    assert not loud(problems)


LEFT_OVER = "1-2 Step right forward, step left forward, step right back"
SHEET = """Gorse and Gravel
16 counts, 1 wall

SECTION 1
{}
3-4 {} side, touch {} beside
5-8 Walk forward {}

SECTION 2
1-4 Walk back R, L, R, L
5-8 Sway R, L, R, L
"""


def test_words_left_over_are_a_note_where_the_feet_go_on() -> None:
    _, problems = read(SHEET.format(LEFT_OVER, "R", "L", "L, R, L, hold"))
    assert [(one.level, one.line) for one in problems if "more steps" in one.message] == [("note", 5)]
    assert not [one for one in loud(problems) if one.line < 8]


def test_words_left_over_are_an_error_where_the_feet_do_not_go_on() -> None:
    _, problems = read(SHEET.format(LEFT_OVER, "L", "R", "R, L, R, L"))
    assert [(one.level, one.line) for one in problems if "more steps" in one.message] == [("error", 5)]


def test_what_was_told_on_reading_is_told_once() -> None:
    text = (
        "Quince\n8 counts, 1 wall\n"
        "1-4 R side, L together, R side, L together\n5-8 R forward, L touch, L back, R touch\n"
        "\nWall 3 is the last: after 4 counts stomp R.\nRestart on wall 5 after 4 counts.\n"
    )
    routine, problems = read(text)
    assert any("no wall 5" in problem.message for problem in loud(proofread(routine)))
    told = [problem.message for problem in loud(each_once(problems, proofread(routine)))]
    assert told == ["There is no wall 5: the dance ends in wall 3"]
