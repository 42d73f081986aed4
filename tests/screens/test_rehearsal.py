"""A whole practice on two buttons, without a screen: a silent device and a clock that the test moves."""

from fractions import Fraction

import pytest

from tests.dances import quay
from tests.screens.conftest import Clock
from tests.screens.test_session import Dance
from trainer.dance.unroll import unroll
from trainer.screens.rehearsal import Rehearsal
from trainer.screens.session import Session


class Practice(Dance):
    """A session with its two buttons."""

    def __init__(self) -> None:
        super().__init__()
        self.rehearsal = Rehearsal(self.session, self.clock)

    def down(self, after: float = 5.0) -> None:
        """Press the first button so many seconds after what was before."""
        self.clock.time += after
        self.session.view()
        self.rehearsal.down()

    def up(self, after: float = 5.0) -> None:
        self.clock.time += after
        self.session.view()
        self.rehearsal.up()

    @property
    def proposed(self) -> str:
        return self.rehearsal.proposed.blocks


@pytest.fixture
def practice() -> Practice:
    return Practice()


def test_the_second_button_steps_the_proposal_back_and_round(practice):
    seen = [practice.proposed]
    for _ in range(7):
        practice.up(0.2)
        seen.append(practice.proposed)
    assert seen == [
        "WALK WALL 1", "RUN-THROUGH", "END WALL 4", "TAG WALL 3", "RST WALL 2", "DRILL 2", "DRILL 1", "WALK WALL 1",
    ]  # fmt: skip
    assert not practice.session.dancing


def test_what_is_proposed_is_stood_before(practice):
    for _ in range(3):
        practice.up()
    assert (practice.proposed, practice.rehearsal.fresh) == ("TAG WALL 3", True)
    assert practice.place() == "wall 3, section 1 count 8", "the count before the join begins"
    assert practice.session.looping
    practice.session.start()
    practice.count_in()
    assert practice.place() == "wall 3, section 2 count 1 (9)", "and any other start dances the same"


def test_a_walk_by_hand_goes_on_and_back_by_footfalls(practice):
    practice.down()
    assert (practice.rehearsal.walking, practice.session.dancing) == (True, False)
    assert practice.place() == "wall 1, section 1 count 1", "the first press is the first count"
    for _ in range(3):
        practice.down(0.2)
    assert practice.place() == "wall 1, section 1 count 3&"
    practice.up()
    assert practice.place() == "wall 1, section 1 count 3"
    practice.up()
    assert practice.place() == "wall 1, section 1 count 2", "slow presses go back one by one"


def test_a_walk_ends_with_its_wall_and_the_first_drill_follows(practice):
    presses = 0
    practice.down()
    while practice.rehearsal.walking:
        practice.down(0.3)
        presses += 1
    assert presses == 19, "19 footfalls in 16 counts, and the press after the last"
    assert practice.proposed == "DRILL 1"
    assert practice.session.index == -1


def test_a_walk_is_ended_by_the_second_button_pressed_twice(practice):
    practice.down()
    practice.down()
    practice.up()
    practice.up(0.4)
    assert (practice.rehearsal.walking, practice.proposed) == (False, "DRILL 1")


def test_a_drill_is_stopped_and_started_again(practice):
    for _ in range(6):
        practice.up()
    practice.down()
    assert (practice.proposed, practice.session.dancing) == ("DRILL 1", True)
    practice.count_in()
    practice.wait(10)
    assert practice.session.view().round == 2, "again and again"
    practice.down(0)
    assert (practice.session.dancing, practice.proposed, practice.rehearsal.fresh) == (False, "DRILL 1", False)
    practice.down(1.5)
    assert practice.session.dancing
    practice.count_in()
    assert practice.place() == "wall 1, section 1 count 1"


def test_twice_within_a_second_goes_to_the_next(practice):
    for _ in range(6):
        practice.up()
    practice.down()
    practice.count_in()
    practice.down()
    practice.down(0.9)
    assert (practice.session.dancing, practice.proposed) == (False, "DRILL 2")
    practice.down(0.5)
    assert practice.session.dancing, "a third press starts it"
    practice.count_in()
    assert practice.place() == "wall 1, section 2 count 1 (9)"


def test_dancing_the_second_button_goes_back_to_the_start_of_the_section(practice):
    for _ in range(5):
        practice.up()
    practice.down()
    practice.count_in()
    practice.up(3)
    assert practice.session.view().count.counting_in
    practice.count_in()
    assert practice.place() == "wall 1, section 2 count 1 (9)"


def test_a_run_through_that_is_stopped_can_be_gone_on_with(practice):
    practice.up()
    practice.down()
    practice.count_in()
    practice.wait(20)
    practice.down(0)
    assert practice.rehearsal.proposed.words == "go on from wall 2, section 1"
    practice.up()
    assert practice.proposed == "END WALL 4"
    practice.up()
    practice.down()
    practice.down(0.2)
    assert practice.rehearsal.proposed.kind == "join"


def test_going_on_begins_at_the_section_stopped_in(practice):
    practice.up()
    practice.down()
    practice.count_in()
    practice.wait(20)
    practice.down(0)
    practice.down(2)
    practice.count_in()
    assert practice.place() == "wall 2, section 1 count 1"
    practice.down()
    practice.down(0.2)
    assert practice.proposed == "WALK WALL 1", "after the run-through the first thing again"


def test_a_run_through_danced_to_its_end_is_proposed_again(practice):
    practice.up()
    practice.down()
    practice.count_in()
    practice.wait(60)
    assert practice.session.view().now is not None
    assert (practice.session.dancing, practice.proposed) == (False, "RUN-THROUGH")
    practice.down()
    practice.count_in()
    assert practice.place() == "wall 1, section 1 count 1"


def test_where_the_dancer_goes_by_other_keys_decides_what_is_proposed(practice):
    practice.session.go_to(Fraction(30))
    practice.rehearsal.moved()
    assert practice.rehearsal.proposed.words == "drill wall 3, section 1 (1-8)"
    practice.session.toggle_loop()
    practice.rehearsal.moved()
    assert practice.rehearsal.proposed.words == "drill wall 3, section 1 (1-8)"


def test_an_own_loop_is_proposed_until_it_is_let_go(practice):
    practice.session.prepare(Fraction(8), Fraction(11))
    practice.rehearsal.moved()
    assert practice.rehearsal.proposed.words == "loop wall 1, counts 5-7"
    practice.up()
    practice.down()
    practice.down(0.1)
    practice.down(0.1)
    assert practice.rehearsal.items[0].blocks == "YOUR LOOP", "it stays among the things to practise"
    practice.session.prepare(Fraction(8))
    practice.rehearsal.moved()
    assert practice.rehearsal.items[0].blocks == "WALK WALL 1"


def test_a_start_that_waits_for_the_sound_is_taken_back():
    clock = Clock()
    session = Session(unroll(quay()))
    rehearsal = Rehearsal(session, clock)
    rehearsal.up()
    rehearsal.down()
    assert session.waiting
    clock.time += 2
    rehearsal.down()
    assert not session.waiting


def test_a_button_that_is_held_down_starts_nothing_by_itself(practice):
    for _ in range(6):
        practice.up()
    practice.down()
    practice.count_in()
    practice.down()
    for repeat in range(40):
        practice.down(0.5 if repeat == 0 else 0.03)
    assert (practice.session.dancing, practice.proposed) == (False, "DRILL 2")
    for repeat in range(40):
        practice.up(0.5 if repeat == 0 else 0.03)
    assert practice.proposed == "DRILL 1", "one press, one step back"


def test_any_other_start_of_the_whole_dance_counts_as_a_run_through(practice):
    practice.rehearsal.start()
    practice.count_in()
    assert practice.proposed == "RUN-THROUGH"
    practice.rehearsal.stop()
    assert practice.proposed == "GO ON"


def test_a_loop_that_is_closed_while_dancing_is_what_is_proposed_after_a_stop(practice):
    practice.rehearsal.start()
    practice.count_in()
    practice.wait(10)
    practice.session.toggle_loop()
    practice.wait(2)
    practice.down(0)
    assert practice.proposed == "DRILL 2"


def test_a_loop_that_is_opened_while_dancing_is_gone_on_with_after_a_stop(practice):
    for _ in range(5):
        practice.up()
    practice.down()
    practice.count_in()
    practice.session.toggle_loop()
    practice.wait(12)
    practice.down(0)
    assert practice.rehearsal.proposed.words == "go on from wall 2, section 1"
