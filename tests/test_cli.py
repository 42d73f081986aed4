"""The plain commands: what they print where, and their exit codes."""

import json
from pathlib import Path

import pytest

from trainer.cli import main
from trainer.resources import folder
from trainer.routine import Routine
from trainer.sheet.opening import open_sheet

SOUND = sorted(folder("routines").glob("*.sheet"))[0]
FAULTY = """\
title: Slip
tempo: 96
counts: 8
== 1
1-2     R walk, R walk
3-4     L walk, R walk
5-8     L walk, R walk, L walk, R touch together
"""


@pytest.fixture
def faulty(tmp_path: Path) -> Path:
    path = tmp_path / "slip.sheet"
    path.write_text(FAULTY, encoding="utf-8")
    return path


def test_check_says_that_a_sound_sheet_is_sound(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(SOUND)]) == 0
    assert capsys.readouterr().out.endswith("Nothing is wrong in this sheet\n")


def test_check_shows_the_line_and_a_caret(faulty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(faulty)]) == 1
    out = capsys.readouterr().out.splitlines()
    assert out[0].startswith("line 5, column 17: error (weight): Count 2 asks R to step, but R has the weight")
    assert out[1:3] == ["    1-2     R walk, R walk", " " * 20 + "^"]
    assert out[-1] == "1 finding"


def test_check_json_gives_the_fields_in_order(faulty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(faulty), "--json"]) == 1
    (row,) = map(json.loads, capsys.readouterr().out.splitlines())
    assert list(row) == ["level", "kind", "line", "column", "message", "hint"]


def test_unroll_prints_what_it_could_read_and_findings_on_stderr(
    faulty: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["unroll", str(faulty), "--json", "--walls", "2"]) == 1
    shown = capsys.readouterr()
    rows = [json.loads(line) for line in shown.out.splitlines()]
    assert len(rows) == 16
    keys = "wall part section extra count foot weight facing turn step beat seconds"
    assert list(rows[0]) == keys.split()
    assert "asks R to step" in shown.err


def test_unroll_for_reading_names_walls_sections_and_extras(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["unroll", str(folder("routines") / "tide-under-the-door.sheet"), "--walls", "2"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("wall 1\n  intro\n     1  R  weight R   3:00  sway\n")
    assert "  bridge Wait\n" in out
    assert "forward 1/4 left + R sweep\n" in out


def test_fair_reads_back_equal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fair", str(SOUND)]) == 0
    copy = tmp_path / "copy.sheet"
    copy.write_text(capsys.readouterr().out, encoding="utf-8")
    assert open_sheet(copy).routine == open_sheet(SOUND).routine


def test_a_routine_goes_out_and_in_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fair", str(SOUND), "--json"]) == 0
    copy = tmp_path / "copy.json"
    copy.write_text(capsys.readouterr().out, encoding="utf-8")
    assert open_sheet(copy).routine == open_sheet(SOUND).routine
    assert main(["check", str(copy)]) == 0


def test_the_schema_is_that_of_the_routine(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fair", "--schema"]) == 0
    assert json.loads(capsys.readouterr().out) == Routine.model_json_schema()


@pytest.mark.parametrize(
    ("make", "said", "why"),
    [
        (lambda path: None, "", "a missing file"),
        (lambda path: path.mkdir(), "", "a folder"),
        (lambda path: path.write_bytes(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"), "", "a picture"),
    ],
)
def test_what_is_no_text_is_an_error(
    make: object, said: str, why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "sheet.txt"
    make(path)  # type: ignore[operator]
    assert main(["check", str(path)]) == 2, why
    shown = capsys.readouterr()
    assert shown.out == ""
    assert len(shown.err.strip()) > 20


def test_json_that_is_no_routine_is_an_error(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "x.json"
    path.write_text('{"title": 3, "colour": "red"}', encoding="utf-8")
    assert main(["check", str(path)]) == 2
    assert "colour" in capsys.readouterr().err
