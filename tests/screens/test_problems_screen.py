"""The sheet with its findings: each at its line with caret and hint; edited, read again, danced all the same."""

import os
import shutil
import sys

import pytest
from textual.widgets import TextArea

from tests.screens.test_shelf_screen import settled, texts
from trainer.problems import Problem
from trainer.resources import folder
from trainer.screens.app import CallaheadApp
from trainer.screens.edit_screen import EditScreen
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.message_screen import MessageScreen
from trainer.screens.problems_screen import ProblemsScreen, editor
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.sheet_rows import Row, sheet_rows
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.sheet_text import SheetText
from trainer.sheet.page import load


def shown(rows: tuple[Row, ...]) -> list[str]:
    return [f"{row.number:>2} {row.text}".rstrip() for row in rows]


def problem(line: int, column: int, message: str = "It is off.", hint: str = "") -> Problem:
    return Problem(level="warning", kind="facing", line=line, column=column, message=message, hint=hint)


def test_a_finding_stands_under_its_place():
    rows = sheet_rows(["title: x", "1 R walk"], [problem(2, 3, "R has the weight.", "L walk?")], 60)
    assert shown(rows) == [
        " 1 title: x",
        " 2 1 R walk",
        "     ^",
        "   warning, facing: R has the weight.",
        "   L walk?",
    ]


def test_what_has_no_line_comes_first():
    rows = sheet_rows(["title: x"], [problem(0, 0), problem(9, 1, "Nor this.")], 60)
    assert shown(rows) == ["   warning, facing: It is off.", "   warning, facing: Nor this.", " 1 title: x"]


LONG = "abcde fghij klmno pqrst uvwxy zabcd"


@pytest.mark.parametrize("column", [1, 12, 22, 30, 99])
def test_a_long_line_goes_on_and_the_caret_stands_under_its_letter(column):
    rows = sheet_rows([LONG], [problem(1, column)], 26)
    pieces = [row.text for row in rows if row.kind == "text"]
    assert "".join(pieces) == LONG
    assert all(len(piece) <= 23 for piece in pieces)
    place = next(place for place, row in enumerate(rows) if row.kind == "caret")
    above = rows[place - 1].text
    at = rows[place].text.index("^")
    if column <= len(LONG):
        start = sum(len(row.text) for row in rows[: place - 1] if row.kind == "text")
        assert above[at] == LONG[column - 1]
        assert start + at == column - 1
    else:
        assert at == min(len(above) + column - 1 - len(LONG), 22), "behind the end, as far as there is room"


def test_wide_letters_and_tabs_keep_the_caret_in_its_column():
    rows = sheet_rows(["走 R walk", "1\tR walk"], [problem(1, 3), problem(2, 3)], 60)
    assert [row.text for row in rows if row.kind == "caret"] == ["   ^", "  ^"]


def test_two_findings_in_one_line_stand_below_each_other():
    rows = sheet_rows(["1 R walk"], [problem(1, 1, "One."), problem(1, 3, "Two.")], 60)
    assert [row.kind for row in rows] == ["text", "caret", "said", "caret", "said"]


def test_a_line_is_not_broken_by_what_was_found_in_it():
    rows = sheet_rows([LONG], [problem(1, 2)], 26)
    assert [row.kind for row in rows] == ["text", "caret", "text", "said", "said"]


BAD = """\
title: Wrong Foot Wharf
tempo: 100
starts: weight on L
counts: 8

== 1: two left feet
1-2     R walk, R walk
3-4     L wibble, R touch
5-6     R walk, L walk
7-8     R walk, [bold]L walk
"""
GOOD = """\
title: Wrong Foot Wharf
tempo: 100
starts: weight on L
counts: 8

== 1: two left feet
1-2     R walk, L walk
3-4     R walk, L touch
5-6     L walk, R walk
7-8     L walk, R touch
"""


@pytest.fixture
def bad(tmp_path):
    path = tmp_path / "bad.sheet"
    path.write_text(BAD, encoding="utf-8")
    return path


@pytest.fixture
def started(clock, read_shelf):
    def start(path):
        return CallaheadApp(path, device="silent", clock=clock, data=read_shelf)

    return start


def painted(screen) -> list[str]:
    body = screen.query_one(SheetText)
    return ["".join(part.text for part in body.render_line(y)).rstrip() for y in range(body.size.height)]


async def test_a_sheet_with_errors_shows_them_all_at_their_lines_first(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 60)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        assert texts(app.screen).startswith("Wrong Foot Wharf: ")
        lines = painted(app.screen)
        together = " ".join(" ".join(lines).split())
        for found in app.screen.sheet.problems:
            assert " ".join(found.message.split()) in together
            assert " ".join(found.hint.split()) in together
        assert "> 7 1-2     R walk, R walk" in lines, "the line of the first finding is chosen"
        assert "[bold]L walk" in together, "text of the sheet is never taken for markup"
        for line in BAD.splitlines():
            assert line in "\n".join(lines), "all of the sheet is there"


async def test_from_finding_to_finding(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        lines = sorted({found.line for found in app.screen.sheet.problems if found.line})
        body = app.screen.query_one(SheetText)
        seen = [body.line]
        for _ in lines:
            await pilot.press("n")
            seen.append(body.line)
        assert seen == [*lines, lines[0]], "and round"
        await pilot.press("b")
        assert body.line == lines[-1]
        assert any(line.startswith(f">{lines[-1]:>2}") for line in painted(app.screen)), "in sight"


async def test_it_can_be_danced_all_the_same(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert ("d", "dance it all the same") in app.screen.query_one(KeyLine).keys
        await pilot.press("d")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        for _ in range(12):
            await pilot.press("right")
        await pilot.press("space")
        assert app.screen.dancing


@pytest.mark.parametrize("key", ["q", "escape"])
async def test_back_from_the_findings(started, bad, key):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press(key)
        await settled(app, pilot)
    assert app.return_code == 0


async def replace_text(pilot, app, text: str) -> None:
    app.screen.query_one(TextArea).text = text
    await pilot.pause()


async def test_edited_on_the_page_and_read_again(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("e")
        await pilot.pause()
        assert isinstance(app.screen, EditScreen)
        area = app.screen.query_one(TextArea)
        assert area.cursor_location[0] == 6, "at the line of the finding"
        assert "R has the weight" in texts(app.screen), "and what was found there"
        await replace_text(pilot, app, GOOD)
        await pilot.press("ctrl+s")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        assert load(bad) == GOOD
        assert texts(app.screen).startswith("Wrong Foot Wharf: Nothing is wrong")
        await pilot.press("d")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen), "danced as it was read last"
        assert app.screen.sheet.text == GOOD


async def test_changes_are_not_lost_without_a_question(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("e", "x")
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, QuestionScreen)
        await pilot.press("n")
        await pilot.pause()
        assert "x" in app.screen.query_one(TextArea).document.get_line(6)
        await pilot.press("escape", "y")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        await pilot.press("e", "escape")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen), "without changes nothing is asked"
    assert load(bad) == BAD


async def test_leaving_the_program_does_not_lose_changes_either(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("e", "x", "ctrl+q")
        await pilot.pause()
        assert isinstance(app.screen, QuestionScreen)
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert isinstance(app.screen, QuestionScreen), "not even when pressed again"
        await pilot.press("n")
        await pilot.pause()
        assert isinstance(app.screen, EditScreen)
        assert app.screen.holds_text
        await pilot.press("f2")
        await settled(app, pilot)
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert not app.is_running, "with nothing to lose it ends"
    assert "x1-2" in load(bad)


async def test_what_was_changed_elsewhere_meanwhile_is_asked_for_and_kept(started, bad):
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("e")
        await replace_text(pilot, app, GOOD)
        bad.write_text("title: theirs\n", encoding="utf-8")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert isinstance(app.screen, QuestionScreen)
        await pilot.press("y")
        await settled(app, pilot)
    assert load(bad) == GOOD
    assert load(bad.with_name("bad-other-1.sheet")) == "title: theirs\n"


async def test_where_the_file_does_not_take_it_a_copy_is_kept(started, tmp_path):
    path = tmp_path / "gone" / "bad.sheet"
    path.parent.mkdir()
    path.write_text(BAD, encoding="utf-8")
    app = started(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("e")
        await replace_text(pilot, app, GOOD)
        shutil.rmtree(path.parent)
        await pilot.press("f2", "y")
        await pilot.pause()
        assert "can be kept as a copy" in texts(app.screen)
        await pilot.press("n")
        await pilot.pause()
        assert app.screen.query_one(TextArea).text == GOOD, "or it stays on the page"
        await pilot.press("f2", "y", "y")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        assert load(app.screen.sheet.path) == GOOD


async def test_a_bundled_sheet_becomes_one_of_the_dancers_own(started, read_shelf):
    path = folder("routines") / "herring-lane-hello.sheet"
    before = path.read_bytes()
    app = started(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("right", "right", "right", "e", "e")
        await pilot.pause()
        await replace_text(pilot, app, load(path) + "# mine\n")
        await pilot.press("ctrl+s")
        await settled(app, pilot)
        own = app.screen.sheet.path
        assert own == read_shelf / "pasted" / "herring-lane-hello.sheet"
        await pilot.press("q")
        await settled(app, pilot)
        assert app.screen.sheet.path == own
        assert app.screen.stopped.floor.index == 2, "at the same place"
    assert path.read_bytes() == before


async def test_from_the_floor_the_sheet_opens_at_the_present_step_and_the_place_stays(started, tmp_path):
    path = tmp_path / "good.sheet"
    path.write_text(GOOD, encoding="utf-8")
    app = started(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        for _ in range(5):
            await pilot.press("right")
        await pilot.press("l", "e")
        await settled(app, pilot)
        assert app.screen.query_one(SheetText).line == 9
        assert "d" not in dict(app.screen.query_one(KeyLine).keys), "nothing is asked"
        path.write_text(GOOD.replace("5-6     L walk", "# slow\n5-6     L step"), encoding="utf-8")
        await pilot.press("r", "q")
        await settled(app, pilot)
        floor = app.screen
        assert isinstance(floor, FloorScreen)
        assert (floor.stopped.floor.index, floor.stopped.floor.now.name) == (4, "step")
        assert floor.session.looping
        assert floor.stopped.words.line == 10
        await pilot.press("space")
        assert floor.dancing


async def test_a_sheet_without_a_count_left_is_said_and_the_old_one_stays(started, tmp_path):
    path = tmp_path / "good.sheet"
    path.write_text(GOOD, encoding="utf-8")
    app = started(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        floor = app.screen
        await pilot.press("e")
        await settled(app, pilot)
        path.write_text("nothing\n", encoding="utf-8")
        await pilot.press("r", "q")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen)
        await pilot.press("enter")
        assert app.screen is floor
        assert floor.sheet.text == GOOD
        path.unlink()
        await pilot.press("e")
        await settled(app, pilot)
        await pilot.press("r")
        await settled(app, pilot)
        assert isinstance(app.screen, MessageScreen), "a file that is gone is said too"


async def test_from_the_shelf_the_findings_are_read_and_danced(clock, read_shelf, bad):
    app = CallaheadApp(device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        app.shelf.entry_of(bad)
        app.screen.refill()
        await settled(app, pilot)
        await pilot.press("f", *"wrong", "tab", "p")
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        bad.write_text(GOOD, encoding="utf-8")
        await pilot.press("r")
        await settled(app, pilot)
        await pilot.press("d")
        await settled(app, pilot)
        assert app.screen.sheet.text == GOOD
        await pilot.press("q")
        await settled(app, pilot)
        assert isinstance(app.screen, ShelfScreen)


EDITORS = [
    ({}, [], "none is named"),
    ({"EDITOR": "vi"}, ["vi"], "the usual one"),
    ({"EDITOR": "vi", "VISUAL": "code --wait"}, ["code", "--wait"], "the one for screens first, with its options"),
    ({"EDITOR": "'unclosed"}, [], "one that cannot be read"),
]


@pytest.mark.parametrize(("named", "command", "why"), EDITORS)
def test_the_dancers_own_editor(monkeypatch, named, command, why):
    for name in ("EDITOR", "VISUAL"):
        monkeypatch.delenv(name, raising=False)
    for name, value in named.items():
        monkeypatch.setenv(name, value)
    assert editor() == command, why


async def test_a_terminal_that_cannot_be_handed_over_is_said(started, bad, monkeypatch):
    monkeypatch.setenv("EDITOR", sys.executable)
    monkeypatch.delenv("VISUAL", raising=False)
    app = started(bad)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert ("o", "own editor") in app.screen.query_one(KeyLine).keys
        await pilot.press("o")
        await pilot.pause()
        assert isinstance(app.screen, MessageScreen)
        assert "edit the sheet here" in texts(app.screen)
    assert os.path.exists(bad)
