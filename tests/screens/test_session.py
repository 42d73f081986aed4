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


def test_a_loop_closes_and_opens_without_a_stop(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(10)
    dance.session.toggle_loop()
    assert dance.place() == "wall 1, section 2 count 3 (11)"
    dance.wait(10)
    view = dance.session.view()
    assert (view.round, view.place, view.mend) == (2, "wall 1, section 2 count 1 (9)", None)
    dance.wait(-3)
    assert dance.session.view().mend is not None, "in the run-up it says what to mend"
    dance.wait(5)
    dance.session.toggle_loop()
    assert (dance.session.view().index, dance.place()) == (13, "wall 1, section 2 count 3 (11)")
    dance.wait(6)
    assert (dance.session.looping, dance.place()) == (False, "wall 2, section 1 count 1")


def test_a_loop_let_go_in_its_run_up_is_led_into_by_it(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(10)
    dance.session.toggle_loop()
    dance.wait(7)
    assert (dance.session.view().count.counting_in, dance.session.view().count.number) == (True, 6)
    dance.session.toggle_loop()
    assert (dance.session.view().count.counting_in, dance.session.view().count.number) == (True, 6)
    dance.wait(1)
    assert (dance.session.view().count.counting_in, dance.session.view().count.number) == (True, 7)
    dance.wait(2)
    assert dance.place() == "wall 1, section 2 count 1 (9)"
    dance.wait(8)
    assert dance.place() == "wall 2, section 1 count 1"


def test_dancing_it_goes_on_elsewhere_at_the_next_eight_where_that_is_clean(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(18)
    assert dance.place() == "wall 2, section 1 count 3"
    dance.session.go_to(dance.session.timeline.passes[2].start + 8)
    told = dance.session.view().departure
    assert (told.kind, told.left, told.urgent) == ("JUMP", 5, False)
    assert told.line == "JUMP in 5 counts: to wall 3, section 2 count 1 (9)"
    dance.wait(5)
    view = dance.session.view()
    there = dance.session.chart.index_before(dance.session.timeline.passes[2].start + 8)
    assert (view.place, view.departure.left) == ("wall 2, section 1 count 8", 0)
    assert view.next == dance.session._ahead._opening.next
    dance.wait(1)
    view = dance.session.view()
    assert (view.place, view.index) == ("wall 3, section 2 count 1 (9)", there + 2), "the & before it was danced too"
    assert view.departure.kind == "TAG"
    dance.wait(8)
    assert dance.place() == "wall 3, tag Gate count 1 of 4", "and on through the dance"
    dance.session.stop()
    assert dance.place() == "wall 3, tag Gate count 1 of 4"


def test_dancing_it_counts_in_to_a_place_that_the_body_does_not_face(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(3)
    dance.session.go_to(dance.session.timeline.passes[2].start)
    assert dance.session.view().count.counting_in
    dance.count_in()
    assert dance.place() == "wall 3, section 1 count 1"


def test_one_count_before_the_end_of_an_eight_it_goes_on_elsewhere_after_the_next(dance):
    dance.session.start()
    dance.count_in()
    dance.wait(7)
    dance.session.go_to(dance.session.timeline.passes[3].start)
    assert dance.session.view().count.counting_in, "after section 2 the facing is another"
    dance.session.stop()
    dance.session.go_to(Fraction(4))
    dance.session.start()
    dance.count_in()
    dance.wait(7)
    dance.session.go_to(dance.session.timeline.passes[1].start)
    assert not dance.session.view().count.counting_in
    dance.wait(9)
    assert dance.place() == "wall 2, section 1 count 1"


def test_a_place_asked_for_can_be_changed_and_a_loop_lets_it_go(dance):
    session = dance.session
    session.start()
    dance.count_in()
    dance.wait(2)
    session.go_to(Fraction(4))
    session.go_to(Fraction(12))
    assert session.view().departure.line == "JUMP in 5 counts: to wall 1, section 2 count 1 (9)"
    session.toggle_loop()
    assert session.view().departure is None or session.view().departure.kind != "JUMP"
    dance.wait(8)
    assert (session.view().round, dance.place()) == (2, "wall 1, section 1 count 3")


def test_a_loop_goes_on_with_the_section_asked_for(dance):
    session = dance.session
    session.toggle_loop()
    session.start()
    dance.count_in()
    dance.wait(2)
    session.go_to(Fraction(12))
    dance.wait(6)
    assert (session.looping, dance.place(), session.view().round) == (True, "wall 1, section 2 count 1 (9)", 1)
    dance.wait(12)
    assert (dance.place(), session.view().round) == ("wall 1, section 2 count 1 (9)", 2)


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


def test_a_tempo_that_is_typed_is_kept_within_its_limits(dance):
    dance.session.set_tempo(Fraction(84))
    assert (dance.session.percent, dance.session.tempo) == (Fraction(175, 2), 84)
    dance.session.change_tempo(1)
    assert dance.session.percent == 88, "a step goes to the next even number"
    dance.session.set_tempo(Fraction(84))
    dance.session.change_tempo(-1)
    assert dance.session.percent == 86
    dance.session.set_tempo(Fraction(1))
    assert dance.session.percent == 30
    dance.session.set_tempo(Fraction(1000))
    assert dance.session.percent == 120


def test_a_range_is_prepared_to_be_looped_or_danced_on_from(dance):
    dance.session.prepare(Fraction(8), Fraction(11))
    assert (dance.session.loop, dance.session.beat, dance.place()) == ((8, 11), 8, "wall 1, section 1 count 4")
    dance.session.start()
    dance.count_in()
    dance.wait(3)
    assert dance.session.view().round == 2
    dance.session.prepare(Fraction(12))
    assert (dance.session.dancing, dance.session.loop) == (False, None)
    dance.session.start()
    dance.count_in()
    assert dance.place() == "wall 1, section 2 count 1 (9)"


def test_a_loop_is_carried_on_to_the_next_section_without_a_stop(dance):
    session = dance.session
    session.toggle_loop()
    session.start()
    dance.count_in()
    dance.wait(2)
    assert session.here() == pytest.approx(6, abs=0.01)
    session.go_to(session.loop[1])
    assert not session.view().count.counting_in
    dance.wait(6)
    assert (session.looping, dance.place(), session.loop) == (True, "wall 1, section 2 count 1 (9)", (12, 20))


def test_what_is_chosen_while_dancing_is_taken_up_or_looped(dance):
    session = dance.session
    session.start()
    dance.count_in()
    dance.wait(2)
    session.take_up(Fraction(12), Fraction(16))
    dance.wait(6)
    assert (session.looping, dance.place()) == (True, "wall 1, section 2 count 1 (9)")
    dance.wait(8)
    assert (dance.place(), session.view().round) == ("wall 1, section 2 count 1 (9)", 2), "after its run-up"
    session.take_up(Fraction(28))
    assert (session.looping, session.view().count.counting_in) == (False, True)
    session.stop()
    session.take_up(Fraction(20), Fraction(28))
    assert (session.dancing, session.loop, session.here()) == (False, (20, 28), 20)
