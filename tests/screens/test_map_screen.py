"""The map of all walls in a running app: chosen by keys, with the mouse and by name, at every size."""

from contextlib import asynccontextmanager
from fractions import Fraction

import pytest
from textual.widgets import OptionList

from tests.dances import quay
from trainer.dance.unroll import unroll
from trainer.practice.chart import Chart
from trainer.resources import folder
from trainer.screens.app import CallaheadApp
from trainer.screens.map_screen import Chosen, MapScreen
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.road_map import RoadMap
from trainer.sheet.opening import open_sheet

TIDE = folder("routines") / "tide-under-the-door.sheet"
SIZES = [(80, 24), (100, 30), (200, 60)]


class Page:
    """The map in a running app."""

    def __init__(self, pilot, screen, answers):
        self.pilot, self.screen, self._answers = pilot, screen, answers

    @property
    def map(self):
        return self.screen.query_one(RoadMap)

    @property
    def about(self):
        return str(self.screen.query_one("#about", PlainText).text).splitlines()

    @property
    def chosen(self):
        return self.about[0].partition(":")[0]

    @property
    def answer(self):
        assert len(self._answers) == 1, "the page was left once"
        return self._answers[0]

    def painted(self):
        return ["".join(part.text for part in self.map.render_line(y)).rstrip() for y in range(self.map.size.height)]

    def column(self, row, text, nth=0):
        """The offset of the nth place where a wall's row has a text."""
        line, at = self.painted()[row], -1
        for _ in range(nth + 1):
            at = line.index(text, at + 1)
        return (at, row)


@pytest.fixture
def open_map(clock, read_shelf):
    @asynccontextmanager
    async def opened(routine, at, size=(80, 24)):
        answers: list[Chosen | None] = []
        app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            screen = MapScreen(Chart(unroll(routine)), Fraction(at), "Kettle")
            app.push_screen(screen, answers.append)
            await pilot.pause()
            await pilot.pause()
            yield Page(pilot, screen, answers)

    return opened


async def test_every_wall_with_its_departures_in_words(open_map):
    async with open_map(quay(), 9) as page:
        assert page.painted()[:4] == [
            "   1  12:00  1████▼██ 2▄▄▄▄▄▄▄",
            "   2   3:00  1▄▄▄▄▄▄▄  RST",
            "   3   3:00  1▄▄▄▄▄▄▄ 2▄▄▄▄▄▄▄  TAG",
            "   4   6:00  1▄▄▄▄▄▄▄  END",
        ]
        assert page.about[0] == "wall 1, section 1 (1-8): 8 counts, from 12:00, R free"
        await page.pilot.press("down")
        assert page.about[:2] == [
            "wall 2, section 1 (1-8): 8 counts, from 3:00, R free",
            "RESTART: wall 2 after 8, facing 3:00",
        ]


async def test_a_narrow_window_takes_more_counts_to_a_column(open_map):
    lemons = open_sheet(folder("routines") / "twelve-crates-of-lemons.sheet").routine
    async with open_map(lemons, 32) as page:
        assert page.map.scale == 2
        assert page.painted()[1] == "   2   6:00  1▄▄▄ 2▄▄▄ 3▄▄▄ 4▄▄▄ 5▄▄▄ 6▄▄▄ 7▄▄▄ 8▄▄▄"
        assert page.about[-1].startswith("A column is 2 counts.")
    async with open_map(lemons, 32, size=(120, 40)) as page:
        assert page.map.scale == 1


async def test_by_keys_from_section_to_section_and_wall_to_wall(open_map):
    seen = []
    async with open_map(quay(), 4) as page:
        for key in ("right", "right", "right", "right", "right", "up", "left", "down", "down", "down", "down"):
            await page.pilot.press(key)
            seen.append(page.chosen)
        await page.pilot.press("enter")
    assert seen == [
        "wall 1, section 2 (9-16)", "wall 2, section 1 (1-8)", "wall 3, section 1 (1-8)", "wall 3, section 2 (9-16)",
        "wall 3, tag Gate (4 counts)", "wall 2, section 1 (1-8)", "wall 1, section 2 (9-16)",
        "wall 2, section 1 (1-8)", "wall 3, section 1 (1-8)", "wall 4, section 1 (1-8)", "wall 4, section 1 (1-8)",
    ]  # fmt: skip
    assert (page.answer.stop.words, page.answer.loop) == ("wall 4, section 1 (1-8)", False)


async def test_first_and_last_count_by_keys(open_map):
    async with open_map(quay(), 4) as page:
        await page.pilot.press("shift+right", "shift+right", "ctrl+right", "ctrl+right", "ctrl+right")
        assert page.about[0] == "wall 1, counts 4-10: from 12:00, R free"
        await page.pilot.press("shift+left", "ctrl+left")
        assert page.chosen == "wall 1, counts 3-9"
        for _ in range(20):
            await page.pilot.press("shift+left")
        assert page.chosen == "wall 1, count 3", "at least one count"
        for _ in range(20):
            await page.pilot.press("ctrl+left")
        assert page.chosen == "wall 1, counts 1-3", "not before the dance"
        await page.pilot.press("l")
    assert page.answer.loop
    assert (page.answer.stop.first, page.answer.stop.last) == (4, 7)


async def test_by_mouse(open_map):
    async with open_map(quay(), 4) as page:
        await page.pilot.click(RoadMap, offset=page.column(2, "2"))
        assert page.chosen == "wall 3, section 2 (9-16)"
        await page.pilot.click(RoadMap, offset=page.column(2, "TAG", 0))
        assert page.chosen == "wall 3, tag Gate (4 counts)"
        await page.pilot.click(RoadMap, offset=(2, 1))
        assert page.chosen == "wall 2, section 1 (1-8)", "the number of a wall is its first count"
        await page.pilot.click(RoadMap, offset=(70, 1))
        assert page.chosen == "wall 2, section 1 (1-8)", "behind a wall is its last count"
        await page.pilot.click(RoadMap, offset=(10, 12))
        assert page.chosen == "wall 2, section 1 (1-8)", "below the last wall is nothing"
        await page.pilot.click(RoadMap, offset=page.column(2, "1"), times=2)
        await page.pilot.pause()
    assert page.answer.stop.words == "wall 3, section 1 (1-8)", "twice goes there"


async def test_a_run_of_counts_drawn_with_the_mouse(open_map):
    async with open_map(quay(), 4) as page:
        left, row = page.column(2, "1")
        await page.pilot.mouse_down(RoadMap, offset=(left + 4, row))
        await page.pilot.hover(RoadMap, offset=(left + 6, row))
        await page.pilot.hover(RoadMap, offset=(left + 10, row))
        await page.pilot.mouse_up(RoadMap, offset=(left + 10, row))
        await page.pilot.pause()
        assert page.chosen == "wall 3, counts 5-10"
        await page.pilot.mouse_down(RoadMap, offset=(left + 4, row))
        await page.pilot.hover(RoadMap, offset=(left + 2, row))
        await page.pilot.mouse_up(RoadMap, offset=(left + 2, row))
        await page.pilot.pause()
        assert page.chosen == "wall 3, counts 3-5", "backwards too"
        await page.pilot.press("l")
    assert page.answer.loop


async def test_by_name(open_map):
    async with open_map(quay(), 4) as page:
        await page.pilot.press("f", *"w3 s", "2")
        await page.pilot.pause()
        assert page.screen.query_one(OptionList).display
        assert page.screen.query_one(OptionList).option_count == 1
        await page.pilot.press("enter")
        assert page.chosen == "wall 3, section 2 (9-16)"
        await page.pilot.press("f", *"section", "down", "down", "up", "enter")
        assert page.chosen == "wall 1, section 2 (9-16)"
        await page.pilot.press("f", *"lighthouse")
        assert page.about == ["Nothing in this dance has that name."]
        await page.pilot.press("enter", "escape")
        assert page.chosen == "wall 1, section 2 (9-16)", "nothing found changes nothing"
        await page.pilot.press("f", *"5-12", "enter", "l")
    assert (page.answer.stop.words, page.answer.loop) == ("wall 1, counts 5-12", True)


async def test_what_was_found_is_clicked(open_map):
    async with open_map(quay(), 4) as page:
        await page.pilot.press("f", *"gate")
        await page.pilot.pause()
        await page.pilot.click(OptionList, offset=(3, 0))
        await page.pilot.pause()
        assert page.chosen == "wall 3, tag Gate (4 counts)"


async def test_back_changes_nothing(open_map):
    async with open_map(quay(), 4) as page:
        await page.pilot.press("right", "escape")
    assert page.answer is None


async def test_every_section_and_extra_is_reached_by_keys(open_map):
    routine = open_sheet(TIDE).routine
    async with open_map(routine, 8) as page:
        seen = [page.chosen]
        for _ in range(40):
            await page.pilot.press("right")
            if page.chosen == seen[-1]:
                break
            seen.append(page.chosen)
        assert seen[0] == "wall 1, danced intro (8 counts)"
        assert seen[-1] == "wall 7, ending Ebb (4 counts)"
        assert len(seen) == len(set(seen)) == 7 * 4 - 2 + 4, "four sections a wall, two cut off; intro, bridges, ending"


@pytest.mark.parametrize("size", SIZES)
async def test_all_of_it_is_on_the_screen(open_map, size):
    async with open_map(open_sheet(TIDE).routine, 60, size) as page:
        for part in page.screen.query("*"):
            if part.display and part.size.area:
                assert part.region in page.screen.region, part
        assert sum("BRG" in line for line in page.painted()) == 2


async def test_many_walls_scroll_to_the_one_chosen(open_map):
    routine = quay().but(order=(), walls=4)
    async with open_map(routine, 4, size=(80, 24)) as page:
        page.screen.styles.max_height = 9
        await page.pilot.pause()
        for _ in range(3):
            await page.pilot.press("down")
        await page.pilot.pause()
        assert any(line.startswith("   4") for line in page.painted())
