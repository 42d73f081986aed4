"""Pages over the page: in any window the heading and the way on are in sight, and the rest is scrolled to."""

import pytest
from textual.containers import VerticalScroll
from wcwidth import wcwidth  # outside check: width of glyphs in a terminal

from tests.dances import quay
from tests.drawn import shown, text_of
from trainer.screens import keys
from trainer.screens.app import CallaheadApp
from trainer.screens.help_screen import HelpScreen
from trainer.screens.message_screen import MessageScreen

SIZES = [(50, 14), (80, 24), (200, 60)]


@pytest.mark.parametrize("size", SIZES)
async def test_every_key_of_the_floor_can_be_read_without_a_mouse(open_floor, size):
    async with open_floor(quay(), size=size) as floor:
        await floor.press("question_mark")
        assert isinstance(floor.app.screen, HelpScreen)
        said = floor.app.screen.query_one("#said", VerticalScroll)
        seen = ""
        while True:
            page = text_of(shown(floor.app))
            assert "Keys of the floor" in page
            assert "Escape: back" in page
            seen += page
            before = said.scroll_y
            await floor.press("down")
            if said.scroll_y == before:
                break
        for key in keys.PAGES["floor"]:
            assert key.help.split()[-1] in seen, key.help
        await floor.press("escape")
        assert floor.app.screen is floor.screen


@pytest.mark.parametrize("size", SIZES)
async def test_the_welcome_says_what_it_does_in_three_lines_and_how_to_go_on(clock, data, size):
    app = CallaheadApp(device="silent", clock=clock, data=data)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, MessageScreen)
        page = text_of(shown(app))
        assert "Welcome to Callahead" in page
        assert "Enter or Space: go on" in page
        if size != SIZES[0]:
            second, third = page[page.index("Callahead reads") :].splitlines()[1:3]
            assert "It counts you through" in second
            assert "Enter opens a routine" in third


async def test_a_key_has_its_sentence_beside_it(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("question_mark")
        lines = str(floor.app.screen.said(60)).splitlines()
        wide = max(len(name) for name, _ in keys.help_lines("floor")) + 3
        assert len(lines) > len(keys.PAGES["floor"])
        assert all(line[wide - 2 : wide].isspace() and not line[wide].isspace() for line in lines)


async def test_a_key_is_found_in_the_command_palette_in_glyphs_of_one_cell(open_floor):
    async with open_floor(quay(), size=(120, 40)) as floor:
        await floor.press("ctrl+p", *"roo")
        await floor.app.workers.wait_for_complete()
        await floor.pilot.pause()
        page = text_of(shown(floor.app))
        assert "Turn the room: the screen stands at the next wall" in page
        assert {glyph for glyph in set(page) - {"\n"} if wcwidth(glyph) != 1} == set()
