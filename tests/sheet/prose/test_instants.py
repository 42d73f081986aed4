"""Each instant and each count of a block is danced once, whatever the page gave."""

from fractions import Fraction

from tests.dance.making import EIGHT, dance, extra, section
from trainer.sheet.fair import fair
from trainer.sheet.prose.sections.instants import settled
from trainer.sheet.reading import read

TWICE = section("2", "1 R, 2 L, 3 R, 4 L", "5 R, 6 L, 7 R, 8 L", line=20)
TWICE = TWICE.but(events=(*TWICE.events, *section("2", "7 R, 8 L", line=30, first=7).events), counts=8)
HOLED = section("2", "1 R, 2 L", "7 R, 8 L", line=20)
HOLED = HOLED.but(events=(*HOLED.events[:2], *(one.but(beat=one.beat + 4) for one in HOLED.events[2:])), counts=8)
EARLY = extra("tag", "Bell", "1 R, 2 L", line=60)
EARLY = EARLY.but(events=tuple(one.but(beat=one.beat - 1) for one in EARLY.events))


def test_a_sound_dance_stays_as_it_is() -> None:
    routine = dance()
    assert settled(routine) == (routine, ())


def test_what_falls_on_an_instant_the_second_time_is_left_out_and_told() -> None:
    routine, problems = settled(dance(section("1", EIGHT), TWICE))
    assert [event.beat for event in routine.parts[0].sections[1].events] == list(range(8))
    assert [one.message for one in problems] == ["Section 2 has count 7 twice."]


def test_counts_without_words_are_called_as_unread() -> None:
    routine, problems = settled(dance(section("1", EIGHT), HOLED))
    events = routine.parts[0].sections[1].events
    assert [(event.label, event.status) for event in events[1:4]] == [("2", "sure"), ("3", "unread"), ("4", "unread")]
    assert [one.message for one in problems] == ["Section 2 has no step on counts 3 to 6."]


def test_an_extra_begins_with_its_first_count() -> None:
    routine, _ = settled(dance(extras=(EARLY,)))
    assert [event.beat for event in routine.extras[0].events] == [Fraction(0), Fraction(1)]


def test_fair_copies_of_them_are_read_back_equal() -> None:
    for block in (TWICE, HOLED):
        routine, _ = settled(dance(section("1", EIGHT), block))
        assert read(fair(routine))[0] == routine
