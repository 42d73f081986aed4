"""`card` and `figure`: what they print where, what they write, and their exit codes."""

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from trainer.cli import main
from trainer.practice.lookup import families
from trainer.resources import folder

SOUND = folder("routines") / "tide-under-the-door.sheet"
FAULTY = "title: Slip\ntempo: 96\ncounts: 4\n== 1\n1-2     R walk, R walk\n3-4     L walk, R touch\n"


@pytest.fixture
def faulty(tmp_path: Path) -> Path:
    path = tmp_path / "slip.sheet"
    path.write_text(FAULTY, encoding="utf-8")
    return path


def test_a_card_goes_to_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", str(SOUND)]) == 0
    shown = capsys.readouterr()
    assert shown.out.startswith("Tide Under the Door\n")
    assert "the order, wall by wall" in shown.out
    assert shown.err == ""


def test_a_card_goes_to_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pdf, html = tmp_path / "card.pdf", tmp_path / "card.html"
    assert main(["card", str(SOUND), "--pdf", str(pdf), "--html", str(html), "--paper", "letter"]) == 0
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.splitlines()[0].startswith(f"{pdf}: 1 page in type of ")
    assert shown.err.splitlines()[1:] == [f"{html}: an HTML page"]
    (page,) = PdfReader(pdf).pages
    assert (float(page.mediabox.width), float(page.mediabox.height)) == (612, 792)
    assert "size: letter" in html.read_text(encoding="utf-8")


def test_findings_go_to_stderr_and_the_card_is_written_all_the_same(
    faulty: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["card", str(faulty), "--pdf", str(tmp_path / "card.pdf")]) == 1
    assert "asks R to step" in capsys.readouterr().err
    assert len(PdfReader(tmp_path / "card.pdf").pages) == 1


def test_a_card_of_several_pages_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = "1-2 R walk, L walk\n3-4 R walk, L walk\n5-6 R walk, L walk\n7-8 R walk, L walk\n"
    sheet = tmp_path / "long.sheet"
    body = "".join(f"== {number}\n{lines}" for number in range(1, 60))
    sheet.write_text(f"title: Long\ncounts: 472\ntempo: 96\n{body}", encoding="utf-8")
    main(["card", str(sheet), "--pdf", str(tmp_path / "card.pdf")])
    assert "does not fit one page in type that can be read" in capsys.readouterr().err
    assert len(PdfReader(tmp_path / "card.pdf").pages) > 1


def test_letters_that_are_missing_are_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet = tmp_path / "quay.sheet"
    sheet.write_text("title: 東京\ncounts: 4\ntempo: 96\n== 1\n1-4 R vine\n", encoding="utf-8")
    main(["card", str(sheet), "--pdf", str(tmp_path / "card.pdf")])
    assert "has no letters for 京 東: name a font that has them, --font FILE" in capsys.readouterr().err


@pytest.mark.parametrize("option", ["--pdf", "--html"])
def test_the_sheet_is_never_written_over(option: str, faulty: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["card", str(faulty), option, str(faulty)]) == 2
    assert "is the sheet itself" in capsys.readouterr().err
    assert faulty.read_text(encoding="utf-8") == FAULTY


def test_two_cards_do_not_go_to_one_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = str(tmp_path / "card")
    assert main(["card", str(SOUND), "--pdf", path, "--html", path]) == 2
    assert "Two cards in one file" in capsys.readouterr().err
    assert not Path(path).exists()


def test_nothing_is_written_where_one_of_two_files_may_not_be(tmp_path: Path) -> None:
    (tmp_path / "mine").write_text("dear diary", encoding="utf-8")
    assert main(["card", str(SOUND), "--pdf", str(tmp_path / "card.pdf"), "--html", str(tmp_path / "mine")]) == 2
    assert [path.name for path in tmp_path.iterdir()] == ["mine"]


def test_a_step_is_looked_up(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["figure", "coaster", "step", "--foot", "L"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("coaster step  COASTER\n")
    assert "  1  L  back        weight L\n" in out


def test_a_step_is_looked_up_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["figure", "paddle turns", "--json"]) == 0
    (answer,) = map(json.loads, capsys.readouterr().out.splitlines())
    assert list(answer) == ["asked", "found", "also", "near"]
    (entry,) = answer["found"]
    assert entry["name"] == "paddle turn"
    assert [form["ambiguous"] for form in entry["forms"]] == [True, True]
    assert entry["forms"][1]["steps"][1] == {
        "count": "2",
        "foot": "L",
        "step": "pivot",
        "travels": False,
        "weight": "L",
        "open": False,
        "turn": "1/4 left",
    }


def test_a_misspelling_is_an_error_with_a_hint(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["figure", "botofogo"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err == "No step is called botofogo: did you mean botafogo?\n"
    assert main(["figure", "botofogo", "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["near"] == ["botafogo"]


def test_all_steps_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["figure"]) == 0
    assert "turns\n  pivot turn, chase turn, " in capsys.readouterr().out
    assert main(["figure", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {group: list(names) for group, names in families().items()}
