"""What is told of walls in the words of one teacher is read as the order that a fair copy of it writes.

Each row of `sayings_*.toml` is a paragraph below the steps of an invented dance, and the lines of the order, with the
counts of extras that are told in it.
"""

import tomllib
from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.fair import fair
from trainer.sheet.opening import opened

DATA = Path(__file__).parents[2] / "data" / "paragraphs" / "dances"
TABLES = sorted(Path(__file__).parent.glob("sayings_*.toml"))
ROWS = [row for table in TABLES for row in tomllib.loads(table.read_text(encoding="utf-8"))["row"]]


def test_there_are_rows() -> None:
    assert len(TABLES) > 1
    assert len(ROWS) > 10


@pytest.mark.parametrize("row", ROWS, ids=[row["told"][:60] for row in ROWS])
def test_a_saying_is_read(row: dict[str, str]) -> None:
    dance = (DATA / f"{row.get('below', 'K1')}.txt").read_text(encoding="utf-8")
    sheet = opened(Path("told.txt"), dance.replace("@@", row["told"]))
    extras = [
        f"{extra.name}: " + " ".join(f"{one.label}{one.foot or '?'}" for one in extra.events)
        for extra in sheet.routine.extras
    ]
    order = fair(sheet.routine).partition("== order\n")[2].strip().split("\n")
    assert [*extras, *order] == row["means"].strip().split("\n")
    assert not loud(sheet.problems)
