"""A routine comes to the shelf: as a file, as a pasted text, or not at all and with a reason."""

from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.events import Paste
from textual.widgets import DataTable, TextArea

from trainer.practice.shelf import FILE, PASTED, Shelf
from trainer.problems import TrainerError, loud
from trainer.resources import folder
from trainer.screens.adding_screen import AddingScreen, path_of
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.help_screen import HelpScreen
from trainer.screens.message_screen import MessageScreen
from trainer.screens.problems_screen import ProblemsScreen
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.sheet_rows import sheet_rows
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.widgets.path_line import PathLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.sheet_text import SheetText

FAIR = (folder("routines") / "herring-lane-hello.sheet").read_text(encoding="utf-8")
PROSE = """Ropes and Ladders
Choreographed by the Thursday group
Level: Beginner   Count: 8   Wall: 2

Section 1: side, together, flibber, pivot
1-2 Step right to right side, step left beside right
3-4 Flibber the right over the moon
5-8 Step right forward, pivot 1/2 left, step right forward, step left beside right
"""


async def settled(app, pilot) -> None:
    """Wait until every sheet that is being read is there."""
    await pilot.pause()
    await app.workers.wait_for_complete()
    await pilot.pause()


def texts(screen) -> str:
    return "\n".join(str(part.text) for part in screen.query(PlainText))


def chosen(screen) -> list[str]:
    table = screen.query_one(DataTable)
    return table.get_row_at(table.cursor_row)


@pytest.fixture
def adding(clock, read_shelf):
    @asynccontextmanager
    async def opened():
        app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
        async with app.run_test(size=(80, 24)) as pilot:
            await settled(app, pilot)
            await pilot.press("a")
            await settled(app, pilot)
            assert isinstance(app.screen, AddingScreen)
            yield app, pilot

    return opened


async def paste(app, pilot, text: str) -> None:
    app.post_message(Paste(text))
    await settled(app, pilot)


async def test_a_file_typed_with_a_tilde_is_chosen_on_the_shelf_and_danced(adding, monkeypatch, tmp_path):
    monkeypatch.setenv("HOME", str(tmp_path))
    own = tmp_path / "my dance.sheet"
    own.write_text(FAIR.replace("Herring Lane Hello", "Lantern Lane Goodbye"), encoding="utf-8")
    async with adding() as (app, pilot):
        await paste(app, pilot, "~/my dance.sheet")
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)
        assert chosen(app.screen)[:4] == ["Lantern Lane Goodbye", "beginner", "32", "4"]
        assert str(own) in texts(app.screen)
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        assert app.screen.sheet.path == own


async def test_leaving_the_program_does_not_lose_a_pasted_text(adding):
    async with adding() as (app, pilot):
        await paste(app, pilot, PROSE)
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert isinstance(app.screen, QuestionScreen)
        await pilot.press("n")
        await pilot.pause()
        assert app.screen.query_one(TextArea).text == PROSE


async def test_a_prose_sheet_pasted_at_once_is_kept_read_and_its_findings_counted(adding, read_shelf):
    async with adding() as (app, pilot):
        await paste(app, pilot, PROSE)
        area = app.screen.query_one(TextArea)
        assert area.has_focus, "several lines are no file's name"
        assert app.screen.query_one(PathLine).value == ""
        await pilot.press("ctrl+s")
        await settled(app, pilot)
        kept = read_shelf / PASTED / "ropes-and-ladders.txt"
        assert kept.read_text(encoding="utf-8") == PROSE
        assert chosen(app.screen)[:4] == ["Ropes and Ladders", "beginner", "8", "2"]
        assert "1 finding in the sheet" in texts(app.screen)
        await pilot.press("p")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        (found,) = loud(app.screen.sheet.problems)
        assert PROSE.splitlines()[found.line - 1].startswith("3"), "at the line that has no steps"
        rows = sheet_rows(PROSE.splitlines(), app.screen.sheet.problems, 80)
        place = next(place for place, row in enumerate(rows) if row.text.startswith("3-4 Flibber"))
        assert [row.kind for row in rows[place + 1 : place + 3]] == ["caret", "said"]
        assert app.screen.query_one(SheetText).line == found.line, "and the page begins there"


async def test_a_text_that_cannot_be_read_is_kept_all_the_same(adding, read_shelf):
    async with adding() as (app, pilot):
        await pilot.press("tab")
        await paste(app, pilot, "Rain\x01Dance")
        await pilot.press("f2")
        await settled(app, pilot)
        kept = read_shelf / PASTED / "rain-dance.txt"
        assert kept.read_text(encoding="utf-8") == "Rain\x01Dance"
        assert chosen(app.screen)[0] == "rain dance"
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert f"{kept} is not text." in texts(app.screen)


async def test_a_text_that_cannot_be_kept_stays_on_the_page(adding, read_shelf):
    (read_shelf / PASTED).write_text("in the way", encoding="utf-8")
    async with adding() as (app, pilot):
        await paste(app, pilot, PROSE)
        await pilot.press("ctrl+s")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert "The text could not be kept" in texts(app.screen)
        await pilot.press("enter")
        assert app.screen.query_one(TextArea).text == PROSE


async def test_a_file_that_cannot_be_opened_is_a_message_and_stays_typed(adding, read_shelf, tmp_path):
    gone = str(tmp_path / "gone.txt")
    async with adding() as (app, pilot):
        before = (read_shelf / FILE).read_bytes()
        await paste(app, pilot, gone)
        await pilot.press("enter")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        assert f"there is no file {gone}." in texts(app.screen)
        await pilot.press("enter")
        assert app.screen.query_one(PathLine).value == gone
    assert (read_shelf / FILE).read_bytes() == before


async def test_nothing_to_add_is_said(adding):
    async with adding() as (app, pilot):
        for key, said in (("enter", "type where the file is"), ("ctrl+s", "there is no text yet")):
            await pilot.press(key)
            await settled(app, pilot)
            assert isinstance(app.screen, MessageScreen)
            assert said in texts(app.screen)
            await pilot.press("enter")


async def test_a_pasted_text_is_not_lost_without_a_question(adding):
    async with adding() as (app, pilot):
        await paste(app, pilot, PROSE)
        for key, page in (("n", AddingScreen), ("y", ShelfScreen)):
            await pilot.press("escape")
            assert isinstance(app.screen, QuestionScreen)
            await pilot.press(key)
            await settled(app, pilot)
            assert isinstance(app.screen, page)


async def test_with_nothing_pasted_escape_goes_back_at_once_and_help_is_there(adding):
    async with adding() as (app, pilot):
        await pilot.press("f1")
        assert isinstance(app.screen, HelpScreen)
        assert "Keep the pasted text and add it" in texts(app.screen)
        await pilot.press("f1", "escape")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)


async def test_what_was_taken_off_can_be_added_again(adding, read_shelf, tmp_path):
    own = tmp_path / "mine.sheet"
    own.write_text(FAIR, encoding="utf-8")
    shelf = Shelf(folder("routines"), read_shelf)
    entry = shelf.entry_of(own)
    shelf.remove(entry)
    async with adding() as (app, pilot):
        await paste(app, pilot, str(own))
        await pilot.press("enter")
        await settled(app, pilot)
        assert str(own) in texts(app.screen)
    assert Shelf(folder("routines"), read_shelf).entries[-1] == entry


TYPED = [
    ("~/a.txt", "/home/gull/a.txt", "the home folder"),
    ("  /x/a b.txt ", "/x/a b.txt", "blanks round it go, inside they stay"),
    ("'/x/a b.txt'", "/x/a b.txt", "quotes of a terminal into which a file was dropped"),
    ('"~/a.txt"', "/home/gull/a.txt", "other quotes"),
    ("a.txt", "a.txt", "from where the program was started"),
    ("'", "'", "one quote is a name"),
]


@pytest.mark.parametrize(("typed", "path", "why"), TYPED)
def test_a_typed_path(monkeypatch, typed, path, why):
    monkeypatch.setenv("HOME", "/home/gull")
    assert path_of(typed) == Path(path), why


@pytest.mark.parametrize("typed", ["", "  ", "''"])
def test_no_path_at_all(typed):
    with pytest.raises(TrainerError, match="type where the file is"):
        path_of(typed)


def test_the_home_of_nobody():
    with pytest.raises(TrainerError) as raised:
        path_of("~no-such-dancer/a.txt")
    assert str(raised.value) == "The routine was not added: the home folder of ~no-such-dancer/a.txt is not known."
