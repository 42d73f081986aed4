"""The floor in a running app: two buttons for a whole practice, the walls and the map, the mouse, the quiet line."""

from fractions import Fraction

import pytest
from textual.widget import Widget

from tests.dances import quay
from tests.screens.test_floor_screen import Shown
from tests.screens.test_map_screen import Page
from trainer.dance.facing import clock
from trainer.practice.floor import DepartureView
from trainer.resources import folder
from trainer.screens import blocks
from trainer.screens.floor_words import departure_said
from trainer.screens.map_screen import MapScreen
from trainer.screens.room import plan
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.road_map import RoadMap
from trainer.screens.widgets.section_strip import SectionStrip
from trainer.screens.widgets.sheet_text import SheetText
from trainer.screens.widgets.wall_strip import WallStrip
from trainer.sheet.opening import open_sheet


def large(floor) -> str:
    return floor.screen.query_one("#step_blocks", BlockText).text


def footer(floor) -> dict[str, str]:
    return dict(floor.screen.query_one(KeyLine).keys)


async def press(floor, key: str, times: int = 1) -> None:
    """Press a button of a remote, each time a little later."""
    for _ in range(times):
        floor.clock.time += 0.2
        await floor.press(key)


async def test_a_practice_on_two_buttons(open_floor):
    async with open_floor(quay()) as floor:
        assert large(floor) == "WALK WALL 1"
        await floor.press("pagedown")
        assert floor.screen.has_class("-dancing"), "the walk by hand is shown large, as if it were danced"
        assert not floor.session.dancing
        assert Shown(floor).count == "1"
        assert footer(floor)["Page Down"] == "next footfall"
        await press(floor, "pagedown", 3)
        assert Shown(floor).count == "3&"
        assert "by hand" in floor.screen.quiet
        await press(floor, "pagedown", 15)
        assert Shown(floor).count == "8"
        assert footer(floor)["Page Down"] == "on to drill section 1"
        await press(floor, "pagedown")
        assert not floor.screen.has_class("-dancing")
        assert (large(floor), footer(floor)["Page Up"]) == ("DRILL 1", "choose walk wall 1 by hand")
        await press(floor, "pagedown")
        assert floor.session.dancing
        floor.go_to(9, 96)
        assert "round 2" in floor.screen.quiet
        floor.clock.time += 1
        await floor.press("pagedown")
        assert not floor.session.dancing
        assert large(floor) == "3&  SHUFFLE", "stopped, the step where it was stopped"
        floor.clock.time += 0.5
        await floor.press("pagedown")
        assert large(floor) == "DRILL 2"
        await press(floor, "pageup", 3)
        assert large(floor) == "RUN-THROUGH"
        assert (
            floor.screen.query_one("#details", PlainText).text.plain.splitlines()[1] == "plan  run-through to the end"
        )
        await floor.press("pagedown")
        floor.go_to(60, 96)
        assert not floor.session.dancing, "the run-through came to its end"
        assert footer(floor)["Page Down"] == "run-through (7 of 7)"


async def test_at_eighty_columns_the_two_buttons_are_always_whole(open_floor):
    tide = open_sheet(folder("routines") / "tide-under-the-door.sheet").routine
    async with open_floor(tide) as floor:
        for _ in range(len(floor.screen.rehearsal.items)):
            await press(floor, "pageup")
            await floor.pilot.pause()
            shown = floor.screen.query_one(KeyLine).render().plain
            now = footer(floor)
            assert f"Page Down {now['Page Down']}" in shown
            assert f"Page Up {now['Page Up']}" in shown
            assert "Space start" in shown
            assert blocks.width_of(large(floor), rows=4, letter=3) <= floor.screen.query_one("#step_blocks").size.width


async def test_the_walls_and_their_departures_are_there_when_stopped(open_floor):
    async with open_floor(quay()) as floor:
        strip = floor.screen.query_one(WallStrip)
        await floor.pilot.pause()
        lines = [line.split() for line in strip.render().plain.splitlines()]
        assert lines == [
            ["wall", "[1]", "2", "3", "4"],
            ["from", "12:00", "3:00", "3:00", "6:00"],
            ["then", "·", "RST", "8", "TAG", "16", "END", "8"],
        ]
        await floor.press("n", "n", "n")
        assert (strip.current, floor.screen.stopped.floor.place) == (2, "before wall 3, section 1 count 1")
        await floor.press("right", "right", "right", "b")
        assert (strip.current, floor.screen.stopped.floor.place) == (2, "before wall 3, section 1 count 1")
        await floor.press("b")
        assert strip.current == 1, "from the start of a section to the one before"


async def test_a_click_on_a_wall_goes_there(open_floor):
    async with open_floor(quay()) as floor:
        strip = floor.screen.query_one(WallStrip)
        column = strip.render().plain.index("3")
        await floor.pilot.click(WallStrip, offset=(column + strip.gutter.left, 1))
        await floor.pilot.pause()
        assert strip.current == 2
        assert large(floor) == "DRILL 1"
        await floor.press("space")
        floor.go_to(0, 96)
        assert floor.screen.view.place == "wall 3, section 1 count 1"


async def test_from_the_map_to_any_place(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("g")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, MapScreen)
        await floor.press("down", "down", "right", "right", "enter")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen
        assert large(floor) == "DRILL TAG"
        await floor.press("space")
        floor.go_to(0, 96)
        assert floor.screen.view.place == "wall 3, tag Gate count 1 of 4"
        await floor.pilot.press("g")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, MapScreen)
        assert floor.session.dancing, "the dance goes on below it"


async def test_from_the_map_a_run_of_counts_is_looped(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("g")
        await floor.pilot.pause()
        page = Page(floor.pilot, floor.app.screen, [])
        left, row = page.column(0, "▼")
        await floor.pilot.mouse_down(RoadMap, offset=(left + 4, row))
        await floor.pilot.hover(RoadMap, offset=(left + 6, row))
        await floor.pilot.mouse_up(RoadMap, offset=(left + 6, row))
        await floor.press("l")
        await floor.pilot.pause()
        assert large(floor) == "YOUR LOOP"
        assert floor.session.loop == (8, 11)
        await floor.press("pagedown")
        floor.go_to(4, 96)
        assert floor.screen.view.place == "wall 1, section 1 count 6"
        assert floor.screen.view.round == 2


async def test_the_map_left_without_a_choice_changes_nothing(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("right", "right")
        before = floor.screen.stopped
        await floor.press("g")
        await floor.pilot.pause()
        await floor.press("down", "escape")
        await floor.pilot.pause()
        assert floor.screen.stopped == before


async def test_the_footer_is_clicked(open_floor):
    async with open_floor(quay()) as floor:
        line = floor.screen.query_one(KeyLine)
        await floor.pilot.pause()
        rows = line.render().plain.splitlines()

        async def click(words: str) -> None:
            row = next(place for place, text in enumerate(rows) if words in text)
            await floor.pilot.click(KeyLine, offset=(rows[row].index(words) + 1, row))
            await floor.pilot.pause()

        await click("/Right")
        assert floor.screen.stopped.floor.index == 0
        await click("Left/")
        assert floor.screen.stopped.floor.index == -1
        await click("l loop")
        assert floor.session.looping
        rows = line.render().plain.splitlines()
        await click("start")
        assert floor.session.dancing


LENGTHS = [
    (60, "TAG Gate in 13 counts: wall 3 after 16, 4 counts, facing 6:00"),
    (45, "TAG Gate in 13 counts, facing 6:00"),
    (25, "TAG in 13 counts, 6:00"),
]


def test_a_departure_is_said_shorter_and_shorter_but_with_its_facing():
    line = LENGTHS[0][1]
    departure = DepartureView("TAG", "Gate", 13, Fraction(1, 2), near=True, urgent=False, line=line)
    assert departure_said(departure)[:3] == tuple(words for _, words in LENGTHS)
    assert departure_said(None) == ()


@pytest.mark.parametrize("columns", [80, 90, 100, 120])
async def test_the_quiet_line_is_never_cut(open_floor, columns):
    tide = open_sheet(folder("routines") / "tide-under-the-door.sheet").routine
    async with open_floor(tide, size=(columns, 24)) as floor:
        await floor.press("space")
        room = plan(columns, 24).quiet.columns
        for beat in range(60):
            floor.go_to(beat, 66)
            assert len(floor.screen.quiet) <= room, floor.screen.quiet
            departure = floor.screen.view.departure
            said = departure_said(departure)
            assert any(floor.screen.quiet.endswith(words) or f"{words}   " in floor.screen.quiet for words in said)


async def test_the_count_in_names_the_place_that_it_leads_to(open_floor):
    async with open_floor(quay()) as floor:
        for _ in range(14):
            await floor.press("right")
        await floor.press("space")
        floor.go_to(-3, 96)
        assert floor.screen.view.count.counting_in
        assert floor.screen.quiet.startswith(" to wall 1, section 2 count 1 (9)")


async def test_a_tall_window_shows_the_sheet_round_the_step(open_floor):
    text = "\n".join(["title: Kettle"] * 5 + ["1-2   R walk, L walk", "3&4   R shuffle forward"] + ["# more"] * 20)
    async with open_floor(quay(), size=(120, 50), text=text) as floor:
        around = floor.screen.query_one("#around", SheetText)
        await floor.press("right", "right", "right")
        await floor.pilot.pause()
        assert around.display
        assert around.line == 7
        lines = ["".join(part.text for part in around.render_line(y)).rstrip() for y in range(around.size.height)]
        assert "> 7 3&4   R shuffle forward" in lines
        await floor.pilot.click("#around", offset=(10, lines.index("  6 1-2   R walk, L walk") + 1))
        await floor.pilot.pause()
        assert floor.screen.stopped.floor.index == 0, "a click on a line goes to its first step"
        await floor.pilot.resize_terminal(80, 24)
        await floor.pilot.pause()
        assert not around.display


async def test_a_click_on_a_count_of_the_section_goes_there(open_floor):
    async with open_floor(quay()) as floor:
        strip = floor.screen.query_one(SectionStrip)
        await floor.pilot.pause()
        line = strip.render().plain.splitlines()[0]
        for label, index in (("5", 5), ("2", 1), ("&", 3)):
            await floor.pilot.click(SectionStrip, offset=(line.index(label) + strip.gutter.left, strip.gutter.top))
            await floor.pilot.pause()
            assert floor.screen.stopped.floor.index == index
        assert large(floor) == "3&  SHUFFLE"


@pytest.mark.parametrize("name", ["tide-under-the-door", "waltz-for-the-ferry-bell"])
async def test_every_footfall_of_a_walk_by_hand_is_shown_as_it_is_danced(open_floor, name):
    async with open_floor(open_sheet(folder("routines") / f"{name}.sheet").routine) as floor:
        shown = Shown(floor)
        chart, last = floor.session.chart, floor.screen.rehearsal.proposed.last
        events = [chart.event(place) for place in range(chart.index_before(last) + 1)]
        for one, following in zip(events, [*events[1:], None], strict=True):
            await press(floor, "pagedown")
            assert floor.screen.walking
            assert shown.count.endswith(one.label), one
            assert shown.facing == clock(one.facing), one
            if following is not None and following.foot in ("R", "L"):
                assert shown.foot == following.foot, one
        await press(floor, "pagedown")
        assert not floor.screen.walking


async def test_stopped_a_widget_repaints_only_when_its_own_value_changed(open_floor, monkeypatch):
    painted: list[str] = []
    whole = Widget.refresh

    def counted(self, *regions, repaint=True, layout=False, recompose=False):
        painted.append(self.id or type(self).__name__)
        return whole(self, *regions, repaint=repaint, layout=layout, recompose=recompose)

    async with open_floor(quay(), size=(120, 50), text="title: Kettle") as floor:
        await floor.press("right", "right")
        await floor.pilot.pause()
        monkeypatch.setattr(Widget, "refresh", counted)
        for _ in range(5):
            floor.screen.look()
        assert painted == [], "nothing happened"
        floor.screen.action_step(1)
        assert set(painted) == {"step_blocks", "details", "departure_line", "words", "strip", "around"}, (
            "walls, title, dial and keys stand"
        )
