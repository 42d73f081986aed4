"""The shelf in a running app, sheets that open and sheets that do not."""

from datetime import date
from pathlib import Path

import pytest
from textual.widgets import DataTable, Input

from trainer.practice.care import CAUTIONS
from trainer.practice.shelf import FILE, Shelf
from trainer.problems import TrainerError
from trainer.resources import folder
from trainer.screens import base_app
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.help_screen import HelpScreen
from trainer.screens.message_screen import MessageScreen
from trainer.screens.problems_screen import ProblemsScreen
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText


def texts(screen) -> str:
    return "\n".join(str(part.text) for part in screen.query(PlainText))


async def settled(app, pilot) -> None:
    """Wait until every sheet that is being read is there."""
    await pilot.pause()
    await app.workers.wait_for_complete()
    await pilot.pause()


def rows(screen) -> list[list[str]]:
    table = screen.query_one(DataTable)
    return [table.get_row_at(place) for place in range(table.row_count)]


async def test_the_shelf_lists_level_counts_and_walls(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)
        listed = {row[0]: row[1:5] for row in rows(app.screen)}
        assert listed["Herring Lane Hello"] == ["beginner", "32", "4", "108"]
        assert listed["Waltz for the Ferry Bell"] == ["improver", "48", "4", "88"]
        assert len(listed) == len(list(folder("routines").glob("*.sheet")))
        table = app.screen.query_one(DataTable)
        assert table.virtual_size.width <= 80, "every column is in view"


ORDERS = [
    ("routine", "Herring Lane Hello", "by its title"),
    ("level", "Herring Lane Hello", "the beginner's dance"),
    ("counts", "Herring Lane Hello", "the shortest, by title"),
    ("walls", "Wait for the Fog Bell", "one wall"),
    ("a minute", "Tide Under the Door", "the slowest"),
    ("last danced", "Nets Out, Nets In", "the only one that was danced"),
    (None, "Herring Lane Hello", "as at first"),
]


async def test_a_key_orders_the_list_by_each_column_in_turn(clock, read_shelf):
    shelf = Shelf(folder("routines"), read_shelf)
    shelf.was_danced(shelf.entry_of(folder("routines") / "nets-out-nets-in.sheet"), date(2026, 3, 4))
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        first = rows(app.screen)
        for order, title, why in ORDERS:
            await pilot.press("o")
            assert rows(app.screen)[0][0] == title, why
            assert ("in order of" in texts(app.screen)) == (order is not None)
            if order is not None:
                assert f"in order of: {order}" in texts(app.screen)
        assert rows(app.screen) == first


async def test_a_click_on_a_column_orders_by_it_and_keeps_the_routine_chosen(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("down")
        table = app.screen.query_one(DataTable)
        chosen = table.get_row_at(table.cursor_row)
        await pilot.click(DataTable, offset=(table.size.width - 22, 0))
        await pilot.pause()
        assert "in order of: a minute" in texts(app.screen)
        assert [row[4] for row in rows(app.screen)] == ["66", "88", "108", "116", "124", "144"]
        assert table.get_row_at(table.cursor_row) == chosen


async def test_one_key_and_the_first_routine_is_ready_to_dance(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        assert app.screen.sheet.routine.title == rows(app.screen_stack[1])[0][0]
        await pilot.press("space")
        assert app.screen.dancing
        await pilot.press("q")
        await settled(app, pilot)
        assert rows(app.screen)[0][5] == base_app.date.today().isoformat(), "the shelf knows that it was danced"


async def test_the_cautions_come_once(clock, data):
    for first in (True, False):
        app = CallaheadApp(device="silent", clock=clock, data=data)
        async with app.run_test(size=(80, 24)) as pilot:
            await settled(app, pilot)
            assert isinstance(app.screen, MessageScreen) is first
            if first:
                assert " ".join(CAUTIONS.split()) in texts(app.screen)
                await pilot.press("space")
                await settled(app, pilot)
            assert isinstance(app.screen, ShelfScreen)


async def test_a_sheet_rehearsed_from_the_command_comes_to_the_shelf(clock, read_shelf, tmp_path):
    own = tmp_path / "mine.sheet"
    own.write_text((folder("routines") / "herring-lane-hello.sheet").read_text(encoding="utf-8"), encoding="utf-8")
    app = CallaheadApp(own, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        await pilot.press("space", "q")
        await settled(app, pilot)
    assert app.return_code == 0, "leaving the floor ends the program that began on it"
    assert Path(Shelf(folder("routines"), read_shelf).entries[-1].name) == own


NO_TEXT = [
    (b"\x00\x01\x02\xff" * 40, "bytes"),
    (b"\x89PNG\r\n\x1a\n" + bytes(200), "a picture"),
]


@pytest.mark.parametrize(("content", "why"), NO_TEXT)
async def test_a_file_that_is_no_text_says_so(clock, read_shelf, tmp_path, content, why):
    path = tmp_path / "mine.sheet"
    path.write_bytes(content)
    app = CallaheadApp(path, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen), why
        assert app.screen.has_class("-error"), why
        assert str(path) in texts(app.screen), why
        await pilot.press("enter")
        await settled(app, pilot)
    assert app.return_code == 2, "nothing is left to show: the program ends, and the shell is told"


async def test_a_file_that_is_gone_says_so_and_the_shelf_stays(clock, read_shelf, tmp_path):
    own = tmp_path / "gone.sheet"
    own.write_text("title: x\n", encoding="utf-8")
    Shelf(folder("routines"), read_shelf).entry_of(own)
    own.unlink()
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press(*["down"] * 9, "enter")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert str(own) in texts(app.screen)
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)
        assert rows(app.screen)[-1][0] == "gone"


async def test_a_sheet_without_counts_has_nothing_to_dance(clock, read_shelf, tmp_path):
    path = tmp_path / "empty.sheet"
    path.write_text("title: Nothing Yet\n", encoding="utf-8")
    app = CallaheadApp(path, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        if isinstance(app.screen, ProblemsScreen):
            await pilot.press("d")
            await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert f"no counts could be read in {path}" in texts(app.screen)


async def test_a_damaged_shelf_is_said_above_the_list(clock, data):
    data.mkdir()
    (data / FILE).write_text("{", encoding="utf-8")
    app = CallaheadApp(device="silent", clock=clock, data=data)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("enter")
        await settled(app, pilot)
        assert "The file of the shelf could not be understood." in texts(app.screen)


async def test_a_shelf_that_cannot_be_read_is_a_message(clock, data):
    data.write_text("in the way", encoding="utf-8")
    app = CallaheadApp(device="silent", clock=clock, data=data)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert "The shelf could not be read" in texts(app.screen)


async def test_help_shows_every_key_of_the_page(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("question_mark")
        await settled(app, pilot)
        assert isinstance(app.screen, HelpScreen)
        assert "Open the routine on the floor, ready to dance" in texts(app.screen)
        await pilot.press("escape")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)


async def test_a_command_of_the_palette_does_what_its_key_does(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        commands = {command.title: command.callback for command in app.get_system_commands(app.screen)}
        commands["Open the routine on the floor, ready to dance"]()
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        commands = {command.title: command.callback for command in app.get_system_commands(app.screen)}
        commands["When stopped: go on by one footfall"]()
        await settled(app, pilot)
        assert app.screen.stopped.floor.index == 0


async def test_colours_can_be_forbidden(clock, read_shelf, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        table = app.screen.query_one(DataTable)
        colours = set()
        for y in range(table.size.height):
            for segment in table.render_lines(table.region.reset_offset.at_offset((0, y)).crop_size((80, 1)))[0]:
                colours |= {colour for colour in (segment.style.color, segment.style.bgcolor) if colour is not None}
        assert all(colour.triplet is None or len(set(colour.triplet)) == 1 for colour in colours), "greys only"


async def test_findings_of_a_sheet_on_the_shelf_are_one_key_away(clock, read_shelf, tmp_path):
    own = tmp_path / "mine.sheet"
    own.write_text("title: x\n== 1\n1  R walk\n2  R walk\n", encoding="utf-8")
    Shelf(folder("routines"), read_shelf).entry_of(own)
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert ("p", "findings") not in app.screen.query_one(KeyLine).keys
        await pilot.press(*["down"] * 9)
        await settled(app, pilot)
        assert ("p", "findings") in app.screen.query_one(KeyLine).keys
        await pilot.press("p")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)


async def test_a_search_narrows_the_list_with_each_letter_and_escape_ends_it(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        everything = [row[0] for row in rows(app.screen)]
        await pilot.press("f", *"IMPRO")
        await settled(app, pilot)
        found = [row[0] for row in rows(app.screen)]
        assert "Waltz for the Ferry Bell" in found
        assert {row[1] for row in rows(app.screen)} == {"improver"}, "levels are searched, whatever the case"
        await pilot.press("space", *"ferry")
        await settled(app, pilot)
        assert [row[0] for row in rows(app.screen)] == ["Waltz for the Ferry Bell"]
        shown = [key for key, _ in app.screen.query_one(KeyLine).keys]
        assert shown == ["Enter", "Up/Down", "Esc", "F1"], "letters are typed now, they are no keys"
        await pilot.press(*"xq")
        await settled(app, pilot)
        assert rows(app.screen) == []
        assert "Nothing on the shelf has these words." in texts(app.screen)
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen), "nothing is chosen, nothing opens"
        await pilot.press("escape")
        await settled(app, pilot)
        assert [row[0] for row in rows(app.screen)] == everything
        assert app.screen.query_one(Input).value == ""
        assert app.screen.focused is app.screen.query_one(DataTable)


async def test_what_was_found_is_chosen_and_danced_while_typing(clock, read_shelf):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("f", *"the")
        await settled(app, pilot)
        assert len(rows(app.screen)) > 1
        await pilot.press("down", "up", "down")
        second = rows(app.screen)[1][0]
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        assert app.screen.sheet.routine.title == second
        await pilot.press("q")
        await settled(app, pilot)
        assert app.screen.query_one(Input).value == "the", "back from the floor the search still stands"
        table = app.screen.query_one(DataTable)
        assert table.get_row_at(table.cursor_row)[0] == second


@pytest.mark.parametrize(("key", "stays"), [("n", True), ("escape", True), ("y", False)])
async def test_an_own_routine_leaves_after_a_question_and_its_file_stays(clock, read_shelf, tmp_path, key, stays):
    own = tmp_path / "mine.sheet"
    own.write_text("title: Mine\n== 1\n1  R walk\n2  L walk\n", encoding="utf-8")
    Shelf(folder("routines"), read_shelf).entry_of(own)
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        count = len(rows(app.screen))
        await pilot.press("r")
        assert isinstance(app.screen, ShelfScreen), "a bundled routine cannot leave"
        await pilot.press(*["down"] * count, "r")
        await settled(app, pilot)
        assert isinstance(app.screen, QuestionScreen)
        assert "Take Mine off the shelf?" in texts(app.screen)
        assert str(own) in texts(app.screen)
        await pilot.press(key)
        await settled(app, pilot)
        assert ("Mine" in [row[0] for row in rows(app.screen)]) is stays
    assert own.exists()
    assert (Shelf(folder("routines"), read_shelf).entries[-1].name == str(own)) is stays


def test_an_error_of_ours_has_a_title():
    assert str(TrainerError("The shelf could not be read", "why")) == "The shelf could not be read: why"
