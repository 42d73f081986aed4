"""A page that is set close is read as the same page with empty lines between what is apart."""

import re
from pathlib import Path

import pytest
from reached import DATA, read, score_of

from trainer.sheet.opening import opened
from trainer.sheet.prose.text.rows import Row
from trainer.sheet.prose.text.rows_apart import with_rows_apart

CLOSE = [
    ("x10/x10-ottergate", "passages by roman numbers, steps set in under them"),
    ("v1/v1-lamplighter", "sections by numerals, single counts before the steps"),
    ("w3/magpie", "a message from a phone, its sections named in short lines"),
    ("x40/pepperjar", "facts above the first step"),
    ("q2/q2-bellwether", "paragraphs of prose"),
]


@pytest.mark.parametrize(("name", "why"), CLOSE, ids=[name for name, _ in CLOSE])
def test_a_page_set_close_is_read_as_one_set_apart(name: str, why: str) -> None:
    text = (DATA / f"{name}.txt").read_text(encoding="utf-8")
    close = re.sub(r"\n\s*\n", "\n", text)
    assert close != text
    apart = score_of(name, read(name), with_faults=False)
    assert score_of(name, opened(Path(f"{name}.txt"), close), with_faults=False) == apart, why


def test_a_page_that_has_empty_rows_stays() -> None:
    rows = [Row(text, ((0, number, 1),)) for number, text in enumerate(["TAG", "sway right, sway left", "", ""] * 6, 1)]
    assert with_rows_apart(rows) == rows


def test_only_empty_rows_are_put_in_and_each_has_a_place() -> None:
    rows = [
        Row(text, ((0, number, 1),))
        for number, text in enumerate(["The Wicker Chair", "CARD 1", *["Walk right, walk left (1-2)"] * 5] * 3, 1)
    ]
    done = with_rows_apart(rows)
    assert [row for row in done if row.text] == rows
    assert len(done) > len(rows)
    assert all(row.pieces for row in done)
