"""One registry of keys: what it says holds for every page."""

import pytest

from trainer.screens import keys
from trainer.screens.adding_screen import AddingScreen
from trainer.screens.edit_screen import EditScreen
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.look_up_screen import LookUpScreen
from trainer.screens.map_screen import MapScreen
from trainer.screens.problems_screen import ProblemsScreen
from trainer.screens.settings_screen import SettingsScreen
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.sound_screen import SoundScreen
from trainer.screens.tapping_screen import TappingScreen
from trainer.screens.tempo_screen import TempoScreen
from trainer.screens.widgets.key_line import fitting

SCREENS = {
    "shelf": ShelfScreen,
    "adding": AddingScreen,
    "floor": FloorScreen,
    "map": MapScreen,
    "problems": ProblemsScreen,
    "settings": SettingsScreen,
    "editing": EditScreen,
    "look_up": LookUpScreen,
    "tempo": TempoScreen,
    "sound": SoundScreen,
    "tapping": TappingScreen,
}
STATES = [("dancing",), ("dancing", "looping"), ("dancing", "looping", "problems")]


@pytest.mark.parametrize("page", keys.PAGES)
def test_every_action_is_one_that_its_screen_has(page):
    for key in keys.PAGES[page]:
        name = key.action.partition("(")[0]
        if name and not name.startswith("app."):
            assert callable(getattr(SCREENS[page], f"action_{name}"))


@pytest.mark.parametrize("page", keys.PAGES)
def test_no_key_is_given_twice(page):
    names = [name for key in keys.PAGES[page] for name in key.key.split(",")]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("page", keys.PAGES)
def test_help_tells_every_key_with_its_own_name(page):
    lines = keys.help_lines(page)
    assert len(lines) == len(keys.PAGES[page]) == len({name for name, _ in lines})
    assert all(words and not words.endswith(".") for _, words in lines)


@pytest.mark.parametrize("states", STATES)
def test_the_buttons_of_a_remote_are_always_in_the_footer(states):
    row = fitting(keys.footer("floor", states), 78, 1)[0]
    assert [shown for shown, _ in row][:2] == ["Page Down", "Page Up"]
    assert "l" in [shown for shown, _ in row], "and the loop, at eighty columns"
    assert row[-1] == ("?", "keys"), "and the way to all the others"


def test_what_can_be_done_with_an_own_routine_fits_a_narrow_footer():
    row = fitting(keys.footer("shelf", ("own", "problems")), 78, 1)[0]
    assert [shown for shown, _ in row] == ["Enter", "Up/Down", "p", "f", "a", "r", "?"]


FITTING = [
    (100, 1, [["a one", "b two", "c three", "? keys"]], "all of them"),
    (22, 1, [["a one", "b two", "? keys"]], "the least important goes first, whole"),
    (7, 1, [["? keys"]], "the way to all of them never goes"),
    (14, 2, [["a one", "b two"], ["c three", "? keys"]], "a second row where there is one"),
]


@pytest.mark.parametrize(("columns", "rows", "expected", "why"), FITTING)
def test_what_does_not_fit_is_left_out_whole(columns, rows, expected, why):
    given = (("a", "one"), ("b", "two"), ("c", "three"), ("?", "keys"))
    shown = [[f"{key} {words}" for key, words in line] for line in fitting(given, columns, rows)]
    if why.startswith("a second"):
        columns = 15
        shown = [[f"{key} {words}" for key, words in line] for line in fitting(given, columns, rows)]
    assert shown == expected, why


PARTS = [
    ("floor", "Space", (("Space", "start_stop"),), "a key of its own"),
    ("floor", "Left/Right", (("Left", "step(-1)"), ("/Right", "step(1)")), "two keys that are shown as one"),
    ("map", "Ctrl+Left/Right", (("Ctrl+Left", "first(-1)"), ("/Right", "first(1)")), "two with a key held"),
    ("shelf", "Up/Down", (("Up/Down", ""),), "keys of a list do nothing here"),
]


@pytest.mark.parametrize(("page", "shown", "parts", "why"), PARTS)
def test_the_parts_of_a_footer_that_can_be_clicked(page, shown, parts, why):
    assert keys.clicks(page, shown) == parts, why


def test_the_footer_says_more_exactly_what_is_known():
    assert dict(keys.footer("floor", ("stopped",), {"pagedown": "drill section 3"}))["Page Down"] == "drill section 3"
    assert "m" not in dict(keys.footer("floor", ("dancing",), {"m": "never"})), "a key that does nothing stays away"
