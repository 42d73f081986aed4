"""Where the dancer stands to the class: what the screen shows then, and what is called."""

from itertools import pairwise

import pytest

from tests.dances import quay
from trainer.dance.facing import clock
from trainer.dance.opposite import facing_the_class
from trainer.practice.standing import Standing
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.free_foot import FreeFoot
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.title_line import TitleLine

OPPOSITE = {"R": "L", "L": "R", "B": "B", "-": "-"}
TEACHER = {"12:00": "6:00", "3:00": "3:00", "6:00": "12:00", "9:00": "9:00"}
FOLLOWER = {"12:00": "12:00", "3:00": "9:00", "6:00": "6:00", "9:00": "3:00"}
WAYS = [(1, Standing.FACING_CLASS, TEACHER), (2, Standing.FOLLOWING, FOLLOWER)]


@pytest.mark.parametrize(("presses", "standing", "clocks"), WAYS, ids=lambda value: str(value)[:16])
async def test_at_every_count_the_screen_shows_who_stands_opposite(open_floor, presses, standing, clocks):
    """Through a whole routine with quarter turns, a restart, a tag and an ending, while dancing."""
    async with open_floor(quay()) as floor:
        as_written = floor.session.timeline
        await floor.press(*["m"] * presses)
        await floor.press("space")
        events = list(as_written.danced())
        first = as_written.passes[0].stretches[0].begins
        for one, following in pairwise(events):
            floor.go_to(one.beat - first, floor.session.tempo)
            view = floor.screen.view
            assert clock(view.dial.facing) == clocks[clock(one.facing)], one
            assert view.dial.turn == -following.turn, one
            if following.foot in ("R", "L"):
                assert view.foot.side == OPPOSITE[following.foot], one
        assert floor.screen.query_one("#dial", FacingDial).shown == view.dial
        assert floor.screen.query_one("#foot_left", FreeFoot).shown == view.foot
        assert standing in floor.screen.quiet


async def test_a_teacher_is_shown_their_own_feet_and_the_class_is_called_theirs(open_floor):
    async with open_floor(quay()) as floor:
        as_written = floor.session.timeline
        await floor.press("m", "space")
        assert floor.session.timeline is as_written, "what sounds is the class's"
        assert floor.session.chart.timeline == facing_the_class(as_written)


async def test_who_follows_is_called_what_they_dance(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("m", "m", "space")
        assert floor.session.chart.timeline is floor.session.timeline


async def test_stopped_the_page_says_how_one_stands_and_three_presses_are_none(open_floor):
    async with open_floor(quay()) as floor:
        title, details = floor.screen.query_one(TitleLine), floor.screen.query_one("#details", PlainText)
        as_written = floor.session.timeline, floor.screen.stopped.floor
        assert "faces 12:00" in str(details.text)
        await floor.press("m")
        assert "facing the class" in title.right
        assert "faces 6:00" in str(details.text)
        await floor.press("m")
        assert "following who faces you" in title.right
        assert "faces 12:00" in str(details.text)
        await floor.press("m")
        assert (floor.session.timeline, floor.screen.stopped.floor) == as_written
        assert "facing" not in title.right


async def test_the_place_and_the_loop_stay_and_while_dancing_nobody_changes_sides(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("right", "right", "l")
        before = floor.screen.stopped.floor.index, floor.session.looping
        await floor.press("m")
        assert (floor.screen.stopped.floor.index, floor.session.looping) == before
        await floor.press("space")
        shown = floor.session.chart
        await floor.press("m")
        assert floor.session.chart is shown
        assert floor.session.dancing
