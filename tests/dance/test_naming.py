"""What a step is called, in full and in block letters; the list of moves and their table agree."""

import pytest

from tests.dance.making import steps, unread
from trainer.dance.figures import figures, moves
from trainer.dance.naming import LONGEST_SHORT, clause_name, short_name, step_name
from trainer.routine import Event
from trainer.terms import Direction, Move

NAMES = [
    # event, direction, in full, short, why
    ("1 R", None, "step", "STEP", "a bare step"),
    ("1 R", Direction.SIDE, "side", "SIDE", "of a step the direction says all"),
    ("1 R", Direction.FORWARD_LEFT, "forward left", "FWD", "short on a diagonal, too"),
    ("1 R rock +1/4", Direction.FORWARD, "rock forward 1/4 right", "ROCK FWD", "with its turn"),
    ("1 R touch", Direction.IN_PLACE, "touch in place", "TOUCH", "a short name that would be too long"),
    ("1 R #3:0:coaster_step", None, "coaster_step", "COASTER_STEP", "a name of the sheet's own"),
    ("1 R #3:0:once_round_the_lighthouse", None, "once_round_the_lighthouse", "ONCE_ROUND_TH", "cut where it must"),
]


@pytest.mark.parametrize(("text", "direction", "full", "short", "why"), NAMES)
def test_what_a_step_is_called(text: str, direction: Direction | None, full: str, short: str, why: str) -> None:
    event = steps(text)[0].but(direction=direction)
    assert (step_name(event), short_name(event)) == (full, short), why


def named(name: str) -> Event:
    event = steps("1 R #3:0:x")[0]
    assert event.figure is not None
    return event.but(figure=event.figure.but(name=name))


def test_a_figure_of_the_table_has_its_own_short_name() -> None:
    for name, figure in figures().items():
        assert (step_name(named(name)), short_name(named(name))) == (name, figure.short)


def test_a_name_of_the_sheets_own_is_cut_at_a_blank() -> None:
    assert short_name(named("out to the lighthouse")) == "OUT TO THE"


def test_an_unread_event_says_so() -> None:
    assert (step_name(unread("1", 0)), clause_name(unread("1", 0)), short_name(unread("1", 0))) == (
        *("unread", "unread", "UNREAD"),
    )


def test_every_move_has_a_row_and_a_name_that_fits_in_block_letters() -> None:
    assert set(moves()) == set(Move)
    for move, row in moves().items():
        assert row.words[0] == move.value
        assert 0 < len(row.short) <= LONGEST_SHORT
        assert row.short == row.short.upper()
    words = [word for row in moves().values() for word in row.words]
    assert len(words) == len(set(words))
