"""A page whose lines are all set apart is read as the same page with its lines together."""

import pytest
from reached import DATA, read, score_of

from trainer.sheet.opening import opened
from trainer.sheet.prose.text.laid_out import laid_out

WIDE = [
    "c1/c1-lamplight",
    "d2/d2-lantern",
    "e2/e2-kites",
    "v5/telegram",
    "x42/slackline",
    "x40/ferryline",
    "m1/m1-hollin",
]


@pytest.mark.parametrize("name", WIDE)
def test_a_wide_page_is_danced_alike(name: str) -> None:
    text = (DATA / f"{name}.txt").read_text(encoding="utf-8")
    sheet = opened(DATA / f"{name}.txt", text.replace("\n", "\n\n"))
    wide, plain = (score_of(name, one, with_faults=False) for one in (sheet, read(name)))
    assert (wide.events, wide.alarms) == (plain.events, plain.alarms)


def test_what_is_found_stands_where_it_was_written() -> None:
    lines = [f"line {number}" for number in range(1, 13)]
    page = laid_out("\n\n".join([*lines[:6], "", *lines[6:]]))
    assert page.text.split("\n") == [*lines[:6], "", *lines[6:]]
    assert page.place(8, 3) == (15, 3)


def test_paragraphs_of_one_line_each_stay() -> None:
    text = "\n\n".join(f"paragraph {number}" for number in range(1, 13))
    assert laid_out(text).text == text
