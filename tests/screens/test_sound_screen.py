"""The page of sound: chosen, heard, remembered; and tapping along."""

import asyncio
from contextlib import asynccontextmanager

import pytest

from tests.dances import quay
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.sound_screen import SoundScreen
from trainer.screens.tapping_screen import TappingScreen
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.sound import device
from trainer.sound.device import default_delay
from trainer.sound.levels import Levels
from trainer.sound.settings import SoundSettings, kept_sound
from trainer.sound.transport import Transport


@pytest.fixture(autouse=True)
def no_libraries(monkeypatch):
    """Have two outputs, and no device that would make a noise."""
    opened = device.open_device
    monkeypatch.setattr(device, "outputs", lambda: ["Hall speakers", "Headphones"])
    monkeypatch.setattr(device, "open_device", lambda name, output="", clock=None: opened("silent", clock=clock))


@pytest.fixture
def open_page(clock, read_shelf):
    @asynccontextmanager
    async def opened(size=(80, 24)):
        app = CallaheadApp(clock=clock, data=read_shelf)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await pilot.press("v")
            page = app.screen
            assert isinstance(page, SoundScreen)
            await settled(page)
            await pilot.pause()
            yield app, pilot, page

    return opened


async def settled(page: SoundScreen) -> None:
    """Wait until the sound is open and the outputs are known."""
    await asyncio.gather(page.own.opening, page.asking)


def lines(page: SoundScreen) -> list[str]:
    return [str(line.text) for line in page.query(".setting").results(PlainText)]


def text(page, name: str) -> str:
    return str(page.query_one(f"#{name}", PlainText).text)


async def test_every_level_is_set_heard_and_remembered(open_page, read_shelf):
    async with open_page() as (app, pilot, page):
        assert lines(page)[1].split() == ["All", "together", "█" * 10 + "░" * 10, "50", "of", "100"]
        await pilot.press("space")
        player = page.own.player
        assert isinstance(player, Transport)
        assert player.now().running
        for row in range(1, 7):
            await pilot.press("down", "left", "left")
            assert lines(page)[row].startswith(">")
        assert app.sound.levels == Levels(0.4, 0.9, 0.9, 0.9, 0.9, 0.9)
        assert player._levels == app.sound.levels, "what plays sounds so from the next click on"
        await pilot.press("space")
        assert not player.now().running
        await pilot.press("q")
        await pilot.pause()
        assert isinstance(app.screen, ShelfScreen)
    assert kept_sound(read_shelf).read().levels == Levels(0.4, 0.9, 0.9, 0.9, 0.9, 0.9)


async def test_levels_stop_at_nothing_and_at_full(open_page):
    async with open_page() as (app, pilot, page):
        await pilot.press("down", *["right"] * 12)
        assert app.sound.levels.master == 1.0
        await pilot.press(*["left"] * 22)
        assert app.sound.levels.master == 0.0
        assert "░" * 20 + "   0 of 100" in lines(page)[1]


async def test_an_output_is_chosen_by_its_name_and_has_a_wait_of_its_own(open_page, read_shelf, monkeypatch):
    monkeypatch.setattr("trainer.sound.device._simpleaudio_is_there", lambda: False)  # also where it is installed
    async with open_page() as (app, pilot, page):
        assert lines(page)[0].endswith("the system's choice")
        assert "Hall speakers, Headphones" in text(page, "about")
        await pilot.press("right")
        await settled(page)
        assert (app.sound.device, app.sound.output) == ("miniaudio", "Hall speakers")
        before = app.sound.delay
        await pilot.press("up", "right", "right")
        assert app.sound.delay == pytest.approx(before + 0.01)
        assert page.own.player.delay == app.sound.delay
        await pilot.press("down", "right")
        await settled(page)
        assert (app.sound.output, app.sound.measured) == ("Headphones", False)
        await pilot.press("right")
        await settled(page)
        assert lines(page)[0].endswith("nothing: no sound")
        await pilot.press("right")
        await settled(page)
        assert lines(page)[0].endswith("the system's choice"), "and round again"
        await pilot.press("right")
        await settled(page)
    kept = kept_sound(read_shelf).read()
    assert (kept.output, kept.delay) == ("Hall speakers", pytest.approx(before + 0.01))


async def test_an_output_that_is_not_there_now_stays_chosen_and_is_said(open_page, read_shelf):
    kept_sound(read_shelf).write(SoundSettings(output="A loudspeaker in the van"))
    async with open_page() as (app, pilot, page):
        assert lines(page)[0].endswith("A loudspeaker in the van (not there now)")
        await pilot.press("right")
        await settled(page)
        assert app.sound.output == "", "the first of those that are there"


async def test_tapping_along_proposes_how_long_the_screen_waits(open_page, clock, read_shelf):
    async with open_page() as (app, pilot, page):
        await pilot.press("right")
        await settled(page)
        await pilot.press("t")
        tapping = app.screen
        assert isinstance(tapping, TappingScreen)
        assert "tap Space on every click" in text(tapping, "what")
        start = clock.time + 4
        for count in range(10):
            # This output is 300 ms late, and the dancer 40 ms early.
            clock.time = start + count + 0.30 - 0.04
            assert text(tapping, "state") == f"{10 - count} taps to go"
            await pilot.press("space")
        assert "no sound" in text(tapping, "what")
        start = clock.time + 4
        number = tapping.query_one("#count", BlockText)
        for count in range(10):
            clock.time = start + count + 0.02
            tapping.look()
            assert number.text == str(count % 8 + 1)
            clock.time = start + count - 0.04 + 1
            await pilot.press("space")
        assert text(tapping, "state") == "The screen should wait 300 ms for the sound; now it waits 96 ms."
        assert ("Enter", "let it wait so long") in tapping.query_one(KeyLine).keys
        await pilot.press("enter")
        await pilot.pause()
        assert app.screen is page
        assert lines(page)[-1].endswith("The screen waits  300 ms for it")
        assert page.own.player.delay == pytest.approx(0.3)
        assert page.own.player._levels == app.sound.levels
    assert kept_sound(read_shelf).read().delays == {"miniaudio: Hall speakers": pytest.approx(0.3)}


async def test_tapping_can_be_begun_again_and_left(open_page, clock):
    async with open_page() as (app, pilot, page):
        await pilot.press("t")
        tapping = app.screen
        clock.time += 5
        await pilot.press("space", "space", "r")
        assert text(tapping, "state") == "10 taps to go"
        await pilot.press("enter")
        assert app.screen is tapping, "there is nothing to take yet"
        await pilot.press("q")
        await pilot.pause()
        assert app.screen is page
        assert not app.sound.measured
        assert not page.own.player.now().running


async def test_the_floor_gives_the_sound_away_and_takes_it_back(open_floor):
    async with open_floor(quay(), device="") as floor:
        floor_screen, first = floor.screen, floor.session._player
        await floor.press("v")
        await floor.pilot.pause()
        page = floor.app.screen
        assert isinstance(page, SoundScreen)
        assert floor.session._player is None
        await settled(page)
        await floor.press("down", "left", "q")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, FloorScreen)
        await floor_screen.opening
        await floor.pilot.pause()
        player = floor.session._player
        assert isinstance(player, Transport)
        assert player is not first
        assert player._levels.master == pytest.approx(0.45)


async def test_on_the_floor_clicks_are_made_louder_and_softer_while_dancing(open_floor, read_shelf):
    async with open_floor(quay(), device="") as floor:
        await floor.press("space", "minus", "minus", "plus")
        assert floor.session.dancing
        assert floor.session._player._levels.master == pytest.approx(0.45)
        await floor.press("v")
        assert isinstance(floor.app.screen, FloorScreen), "the page does not open over a dance"
    assert kept_sound(read_shelf).read().levels.master == pytest.approx(0.45)


async def test_what_is_remembered_is_what_a_player_opens_with(clock, read_shelf):
    levels = Levels(master=0.2)
    kept_sound(read_shelf).write(SoundSettings(output="Headphones", levels=levels).calibrated(0.25))
    app = CallaheadApp(clock=clock, data=read_shelf)
    async with app.run_test():
        player = app.open_player()
        assert isinstance(player, Transport)
        assert (player._levels, player.delay) == (levels, 0.25)
    silent = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with silent.run_test():
        player = silent.open_player()
        assert isinstance(player, Transport)
        assert (player._levels, player.delay) == (levels, default_delay("silent")), "the command line goes before"


async def test_louder_clicks_leave_the_wait_of_a_device_named_on_the_command_line(open_floor):
    async with open_floor(quay(), device="silent") as floor:
        await floor.press("plus")
        assert floor.session._player._levels.master == pytest.approx(0.55)
        assert floor.session._player.delay == default_delay("silent")
