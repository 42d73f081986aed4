"""What the README says is so: its sheet is sound, its commands and keys exist, its pictures are there."""

import re
from pathlib import Path

import pytest

from trainer.cli import main
from trainer.screens.keys import PAGES
from trainer.sheet.opening import opened

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_small_sheet_is_sound() -> None:
    block = re.search(r"## A small sheet\n\n((?:    .*\n|\n)+)", README)
    assert block is not None
    text = re.sub(r"^    ", "", block[1], flags=re.MULTILINE)
    sheet = opened(Path("rope-walk.sheet"), text)
    assert sheet.routine.title == "Rope Walk"
    assert [problem.message for problem in sheet.problems] == []


def test_both_commands_are_those_that_are_run() -> None:
    assert "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/callahead" in README
    test = "python3 -m venv .venv && .venv/bin/pip install '.[test]' && .venv/bin/python -m pytest"
    assert test in README
    run = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert all(part.strip() in run for part in ("pip install -q '.[test]'", ".venv/bin/python -m pytest"))


def test_every_key_of_the_table_is_a_key_of_the_floor() -> None:
    table = README.partition("## Keys on the floor screen")[2].partition("## Commands")[0]
    shown = {name for row in re.findall(r"^\| ([^|]+) \|", table, re.MULTILINE)[2:] for name in row.split(", ")}
    known = {part for key in PAGES["floor"] for part in (key.shown, *key.shown.split("/"))}
    assert shown <= known


def test_every_key_of_the_shelf_is_one() -> None:
    told = re.search(r"On the shelf Enter opens.*?\n\n", README, re.DOTALL)
    assert told is not None
    named = re.findall(r"`(.)`", told[0])
    assert len(named) >= 5
    assert {"Enter", *named} <= {key.shown for key in PAGES["shelf"]}


@pytest.mark.parametrize("command", sorted(set(re.findall(r"`callahead (\w+)", README))))
def test_every_command_of_the_table_is_known(command: str) -> None:
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0


def test_the_pictures_are_there() -> None:
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert pictures
    assert all((ROOT / picture).is_file() for picture in pictures)
