"""The settings: kept, changed by keys and mouse, and felt on the floor at once."""

from fractions import Fraction

import pytest

from tests.dances import quay
from trainer.practice.settings import FILE, Settings, kept_settings
from trainer.screens import themes
from trainer.screens.app import CallaheadApp
from trainer.screens.message_screen import MessageScreen
from trainer.screens.settings_screen import SETTINGS, SettingsScreen, sizes
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.title_line import TitleLine


@pytest.mark.parametrize("setting", SETTINGS, ids=lambda setting: setting.title)
def test_every_setting_goes_both_ways_and_stops_at_its_ends(setting):
    start = Settings()
    assert setting.says(setting.step(start, 1)) != setting.says(start)
    assert setting.step(setting.step(start, 1), -1) == start
    now = start
    for _ in range(500):
        now = setting.step(now, -1)
    assert setting.says(now)


async def test_a_damaged_file_is_said_once_the_page_is_there(clock, read_shelf):
    (read_shelf / FILE).write_bytes(b"{")
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, MessageScreen)
        said = "\n".join(str(part.text) for part in app.screen.query(PlainText))
        assert f"kept as {read_shelf / 'settings-damaged-1.json'}" in said
        await pilot.press("enter")
        assert isinstance(app.screen, ShelfScreen)


async def test_keys_change_and_keep_what_is_chosen(clock, read_shelf, monkeypatch):
    monkeypatch.setenv("COLORTERM", "truecolor")
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("s")
        assert isinstance(app.screen, SettingsScreen)
        await pilot.press("right", "down", "right", "right", "down", "left", "down", "right", "down", "right")
        expected = Settings(screen_at="1:30", window_mm=175, distance_m=4.5, motion=False, colours="light")
        assert app.settings == kept_settings(read_shelf).read() == expected
        assert app.theme == themes.LIGHT.name
        assert app.animation_level == "none"
        await pilot.press("s")
        assert isinstance(app.screen, SettingsScreen), "the page is there once"
        await pilot.press("escape")
        assert isinstance(app.screen, ShelfScreen)


async def test_a_large_window_is_a_few_keys_away(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("s", "down", "pageup", "pageup", "right")
        assert app.settings.window_mm == 165 + 2 * 50 + 5
        await pilot.press(*["pagedown"] * 9)
        assert app.settings.window_mm == 80


async def test_a_click_chooses_and_a_second_one_changes(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("s")
        colours = list(app.screen.query(".setting"))[-1]
        await pilot.click(colours)
        assert app.settings == Settings()
        assert colours.has_class("-chosen")
        await pilot.click(colours)
        assert app.settings.colours == "light"


SIZES = [
    (Settings(), (80, 24), "All of it can be read from there."),
    (Settings(distance_m=10), (80, 24), "The next tag or restart is too small from there: come to 5.9 m."),
    (Settings(), (60, 20), "This window is 60 x 20. The floor screen needs 80 x 24: make it larger."),
]


@pytest.mark.parametrize(("settings", "window", "said"), SIZES)
def test_it_is_said_what_the_eyes_make_of_the_sizes(settings, window, said):
    assert str(sizes(settings, *window)).splitlines()[-1] == said


async def test_the_room_turns_by_one_key_and_the_dial_with_it(open_floor, read_shelf):
    async with open_floor(quay()) as floor:
        dials = list(floor.screen.query(FacingDial))
        assert len(dials) == 2
        await floor.press("space", "w")
        assert floor.session.dancing or floor.session.waiting
        assert {dial.screen_at for dial in dials} == {Fraction(1, 4)}
        assert kept_settings(read_shelf).read().screen_at == "3:00"


async def test_a_window_too_small_to_dance_says_so_while_there_is_time_to_make_it_larger(open_floor):
    async with open_floor(quay(), size=(70, 20)) as floor:
        title = floor.screen.query_one(TitleLine)
        assert "too small to dance" in title.right
        await floor.pilot.resize_terminal(80, 24)
        await floor.pilot.pause()
        assert "too small" not in title.right


async def test_the_settings_open_from_the_floor_but_not_over_a_dance(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("s")
        assert isinstance(floor.app.screen, SettingsScreen)
        await floor.press("q", "space", "s")
        assert floor.app.screen is floor.screen
        assert floor.session.dancing


async def test_a_window_of_another_height_is_laid_out_anew(open_floor):
    async with open_floor(quay(), size=(100, 30)) as floor:
        await floor.press("space")
        floor.go_to(0, floor.session.tempo)
        await floor.pilot.pause()
        before = floor.screen.query_one("#next").size.height
        floor.app.change_settings(Settings(window_mm=120))
        await floor.pilot.pause()
        assert floor.screen.query_one("#next").size.height > before


async def test_in_one_colour_the_dial_has_no_holes_where_its_parts_meet(open_floor):
    from trainer.screens import dial

    async with open_floor(quay()) as floor:
        shown = floor.screen.query_one("#small_dial", FacingDial)
        floor.app.change_settings(Settings(colours="dark in one colour"))
        await floor.pilot.pause()
        columns, rows = shown.size
        lines = dial.render(columns, rows, facing=shown.shown.facing, turn=shown.shown.turn)
        assert ["".join(part.text for part in shown.render_line(y)) for y in range(rows)] == lines


TERMINALS = [
    ({"TERM": "xterm", "COLORTERM": ""}, "light", "callahead-light-of-sixteen"),
    ({"TERM": "xterm", "COLORTERM": ""}, "dark", "callahead-dark"),
    ({"TERM": "xterm-256color", "COLORTERM": ""}, "light", "callahead-light"),
    ({"TERM": "xterm", "COLORTERM": "truecolor"}, "light", "callahead-light"),
    ({"TERM": "xterm", "COLORTERM": "truecolor", "NO_COLOR": "1"}, "light", "callahead-plain"),
]


@pytest.mark.parametrize(("environment", "colours", "theme"), TERMINALS)
async def test_the_colours_are_what_the_terminal_can_show(clock, read_shelf, monkeypatch, environment, colours, theme):
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    kept_settings(read_shelf).write(Settings(colours=colours))
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert app.theme == theme
