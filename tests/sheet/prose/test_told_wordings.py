"""One thing told in many ways: the wordings of different teachers for restarts, tags, bridges, changes, holds, ends."""

import re
from typing import Any

import pytest

from tests.sheet.prose.telling_text import as_text, known, rows_of, told_of
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.order.told import read_order
from trainer.sheet.prose.text.layout import clean_lines

ROWS = rows_of(
    "told_wordings.toml", "restarts", "extras", "changes", "mixed", "voices", "chatter", "letters", "notes", "replies"
)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"])
def test_a_wording_tells_its_order(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], known(32, walls=2))) == row["tells"], row["reason"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"])
def test_a_wording_tells_the_same_once_its_facings_were_found(row: dict[str, Any]) -> None:
    lines = [line.tokens for line in with_facings(clean_lines(row["text"]))]
    assert read_order(lines, known(32, walls=2)).order == told_of(row["text"], known(32, walls=2)).order


SLIPS = [
    row for row in ROWS if re.search(r"(?<![\d:-])16(?![\d:])", row["text"]) and "after 16" in "".join(row["tells"])
]


@pytest.mark.parametrize("row", SLIPS, ids=lambda row: row["text"])
def test_a_slip_of_digits_in_a_place_is_found_at_its_line(row: dict[str, Any]) -> None:
    slipped = re.sub(r"(?<![\d:-])16(?![\d:])", "61", row["text"], count=1)
    line = slipped[: slipped.index("61")].count("\n") + 1
    found = [problem for problem in told_of(slipped, known(32, walls=2)).problems if problem.kind == "order"]
    assert [(problem.level, problem.line) for problem in found[:1]] == [("error", line)]
