"""The session between keys and transport, without a screen: a silent device and a clock that the test moves."""

from fractions import Fraction

import pytest

from tests.dances import quay
from tests.screens.conftest import START, Clock
from trainer.dance.unroll import unroll
from trainer.screens.session import Session
from trainer.sound.device import open_device
from trainer.sound.transport import Transport

BEAT = 60 / 96


class Dance:
    """A session that is plugged in, and its clock."""

    def __init__(self) -> None:
        self.clock = Clock()
        self.session = Session(unroll(quay()))
        self.session.plug(Transport(open_device("silent", clock=self.clock), clock=self.clock))

    def wait(self, beats: float) -> None:
        self.clock.time += beats * BEAT

    def count_in(self) -> None:
        """Pass the count-in, to just behind the first count."""
        self.clock.time += START + 4 * BEAT + 0.002

    def place(self) -> str:
        return self.session.view().place


@pytest.fixture
def dance() -> Dance:
    return Dance()


def test_a_start_waits_for_the_sound_and_happens_once_it_is_open():
    clock = Clock()
    session = Session(unroll(quay()))
    session.start()
    assert (session.waiting, session.dancing) == (True, False)
    session.plug(Transport(open_device("silent", clock=clock), clock=clock))
    assert (session.waiting, session.dancing) == (False, True)


def test_a_start_that_waits_can_be_taken_back():
    clock = Clock()
    session = Session(unroll(quay()))
    session.start()
    session.stop()
    session.plug(Transport(open_device("silent", clock=clock), clock=clock))
    assert not session.dancing


def test_stop_and_go_on_begins_at_the_section_stopped_in(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(11)
    assert dance.place() == "wall 1, section 2 count 4 (12)"
    dance.session.stop()
    assert not dance.session.dancing
    assert dance.place() == "wall 1, section 2 count 4 (12)"
    dance.wait(100)
    assert dance.place() == "wall 1, section 2 count 4 (12)", "time passes, the dance stands"
    dance.session.start()
    dance.count_in()
    assert dance.place() == "wall 1, section 2 count 1 (9)"
    dance.wait(8)
    assert dance.place() == "wall 2, section 1 count 1", "and on to the end of the dance"


def test_the_dance_ends_and_begins_anew(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(53)
    assert dance.session.dancing
    dance.wait(2)
    view = dance.session.view()
    assert (dance.session.dancing, view.index) == (False, dance.session.chart.size - 1)
    dance.session.start()
    dance.count_in()
    assert dance.place() == "wall 1, section 1 count 1"


def test_a_loop_comes_round_until_it_is_let_go(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(10)
    dance.session.toggle_loop()
    dance.count_in()
    assert dance.place() == "wall 1, section 2 count 1 (9)"
    dance.wait(12)
    view = dance.session.view()
    assert (view.round, view.place, view.mend) == (2, "wall 1, section 2 count 1 (9)", None)
    dance.wait(-3)
    assert dance.session.view().mend is not None, "in the run-up it says what to mend"
    dance.wait(5)
    dance.session.toggle_loop()
    dance.count_in()
    dance.wait(8)
    assert dance.place() == "wall 2, section 1 count 1"


def test_a_loop_set_while_stopped_begins_at_its_first_count(dance):
    for _ in range(14):
        dance.session.step(1)
    dance.session.toggle_loop()
    dance.session.start()
    dance.count_in()
    assert (dance.session.looping, dance.place()) == (True, "wall 1, section 2 count 1 (9)")


def test_the_section_again_while_dancing(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(13)
    dance.session.section_start()
    assert dance.session.view().count.counting_in
    dance.count_in()
    assert dance.place() == "wall 1, section 2 count 1 (9)"


def test_sections_back_one_by_one_when_stopped(dance):
    for _ in range(30):
        dance.session.step(1)
    places = []
    for _ in range(5):
        dance.session.section_start()
        places.append(dance.session.view().index)
    assert places == [28, 18, 9, -1, -1], "wall 3, wall 2, section 2 with its &, the beginning, and no further"


def test_stopped_it_goes_to_a_wall_and_starts_there(dance):
    wall_2 = dance.session.timeline.passes[1].start
    dance.session.go_to(wall_2)
    assert dance.session.view().index == dance.session.chart.index_before(wall_2)
    dance.session.start()
    dance.count_in()
    assert dance.place() == "wall 2, section 1 count 1"


def test_a_loop_goes_along_to_the_section_gone_to(dance):
    dance.session.toggle_loop()
    dance.session.go_to(dance.session.timeline.passes[2].start + 8)
    dance.session.start()
    dance.count_in()
    assert (dance.session.looping, dance.place()) == (True, "wall 3, section 2 count 1 (9)")


def test_nobody_goes_to_places_outside_the_dance(dance):
    dance.session.go_to(Fraction(-5))
    assert dance.session.view().index == -1
    dance.session.go_to(Fraction(5000))
    assert dance.session.view().index < dance.session.chart.size
    dance.session.start()
    assert dance.session.dancing


def test_after_going_back_the_dance_starts_there(dance):
    for _ in range(25):
        dance.session.step(1)
    dance.session.section_start()
    dance.session.start()
    dance.count_in()
    assert dance.place() == "wall 2, section 1 count 1"


def test_steps_stop_at_both_ends(dance):
    dance.session.step(-1)
    assert dance.session.view().index == -1
    for _ in range(dance.session.chart.size + 3):
        dance.session.step(1)
    assert dance.session.view().index == dance.session.chart.size - 1


TEMPI = [(1, 102, "a step is 2 per cent"), (-1, 98, "down too"), (40, 120, "no faster"), (-60, 30, "no slower")]


@pytest.mark.parametrize(("steps", "percent", "why"), TEMPI)
def test_the_tempo_goes_by_steps_between_its_limits(dance, steps, percent, why):
    for _ in range(abs(steps)):
        dance.session.change_tempo(1 if steps > 0 else -1)
    assert (dance.session.percent, dance.session.tempo) == (percent, Fraction(96 * percent, 100)), why


def test_a_tempo_key_while_dancing_keeps_the_place(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(5)
    for _ in range(25):
        dance.session.change_tempo(-1)
    assert dance.place() == "wall 1, section 1 count 6"
    dance.wait(2)
    assert dance.place() == "wall 1, section 1 count 7", "two beats of before are one at half the tempo"


def test_a_routine_without_a_tempo_has_the_assumed_one():
    assert Session(unroll(quay().but(tempo=None))).tempo == 100
    assert Session(unroll(quay().but(tempo=Fraction(0)))).tempo == 100, "and one that states nonsense"
