"""Widgets that draw themselves draw once for each painting, and always what they hold."""

from collections import Counter

from tests.dances import quay
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.drawn import Drawn
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.free_foot import FreeFoot


async def test_a_change_is_drawn_once_however_many_lines_it_has(open_floor, monkeypatch):
    drawn = Counter()
    for kind in (BlockText, FacingDial, FreeFoot):
        drawing = kind.drawing

        def noted(widget, drawing=drawing):
            drawn[widget.id] += 1
            return drawing(widget)

        monkeypatch.setattr(kind, "drawing", noted)
    async with open_floor(quay(), (120, 40)) as floor:
        await floor.press("space")
        floor.go_to(0, 96)
        await floor.pilot.pause()
        drawn.clear()
        floor.go_to(1, 96)
        await floor.pilot.pause()
        count = floor.screen.query_one("#count", BlockText)
        assert (count.text, count.size.height > 5) == ("2", True)
        assert drawn["count"] == drawn["foot_left"] == drawn["foot_right"] == 1


async def test_a_line_asked_for_by_itself_is_that_of_what_is_held_now(open_floor):
    async with open_floor(quay(), (120, 40)) as floor:
        await floor.press("space")
        floor.go_to(0, 96)
        await floor.pilot.pause()
        count = floor.screen.query_one("#count", BlockText)
        before = count.render_line(1)
        count.text = "8"
        assert count.render_line(1) != before
        assert count.render_line(999).cell_length == count.size.width
        assert isinstance(count, Drawn)
