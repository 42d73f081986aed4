"""The page of findings: every finding with its line, a caret, its hint; a key dances the sheet all the same."""

import pytest
from textual.content import Content

from tests.screens.test_shelf_screen import settled, texts
from trainer.problems import Problem
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.problems_screen import ProblemsScreen, excerpt, finding

EXCERPTS = [
    ("1-2     R walk, L walk", 9, 40, "1-2     R walk, L walk", 8, "a line that fits stays whole"),
    ("1-2\tR walk", 5, 40, "1-2 R walk", 4, "a tab is one column"),
    ("abcdefghij", 1, 5, "abcd…", 0, "cut at the right"),
    ("abcdefghij", 10, 5, "…ghij", 4, "cut at the left"),
    ("abcdefghij", 5, 5, "…def…", 2, "cut at both ends, the column in the middle"),
    ("", 1, 5, "", 0, "an empty line"),
    ("abc", 9, 20, "abc", 8, "a column behind the end of the line"),
]


@pytest.mark.parametrize(("line", "column", "columns", "shown", "place", "why"), EXCERPTS)
def test_the_column_stays_in_view(line, column, columns, shown, place, why):
    assert excerpt(line, column, columns) == (shown, place), why


def test_a_finding_in_full():
    problem = Problem(level="error", kind="weight", line=2, column=9, message="R has the weight.", hint="L walk?")
    shown = finding(problem, ["title: x", "1       R walk"], 60)
    assert isinstance(shown, Content)
    assert shown.plain.splitlines() == [
        "error  line 2, weight: R has the weight.",
        "    1       R walk",
        "            ^",
        "    L walk?",
    ]


def test_a_finding_that_has_no_line():
    problem = Problem(level="note", kind="text", line=0, column=0, message="No tempo is stated: 100 is assumed.")
    assert finding(problem, [], 60).plain == "note  text: No tempo is stated: 100 is assumed."


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


@pytest.fixture
def bad(tmp_path):
    path = tmp_path / "bad.sheet"
    path.write_text(BAD, encoding="utf-8")
    return path


async def test_a_sheet_with_errors_shows_them_all_first(clock, read_shelf, bad):
    app = CallaheadApp(bad, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        assert isinstance(app.screen, ProblemsScreen)
        said = texts(app.screen)
        assert said.startswith("Wrong Foot Wharf: ")
        for problem in app.screen.sheet.problems:
            assert problem.message in said
            assert problem.hint in said
        assert "    1-2     R walk, R walk" in said
        assert "[bold]L walk" in said, "text of the sheet is never taken for markup"


async def test_it_can_be_danced_all_the_same(clock, read_shelf, bad):
    app = CallaheadApp(bad, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press("d")
        await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        for _ in range(12):
            await pilot.press("right")
        await pilot.press("space")
        assert app.screen.dancing


@pytest.mark.parametrize("key", ["q", "escape"])
async def test_back_from_the_findings(clock, read_shelf, bad, key):
    app = CallaheadApp(bad, device="silent", clock=clock, data=read_shelf)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(app, pilot)
        await pilot.press(key)
        await settled(app, pilot)
    assert app.return_code == 0
