"""Headings with numbers over counted lines, and extras told inside the dance: what is danced, and no false alarm."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from trainer.dance.proof import proofread
from trainer.problems import loud
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.page.range_heads import with_range_heads
from trainer.sheet.prose.reader import read_prose
from trainer.sheet.prose.text.layout import clean_lines

PAGES = tomllib.loads(Path(__file__).with_name("inner_extras.toml").read_text("utf-8"))["page"]


@pytest.mark.parametrize("page", PAGES, ids=[page["why"] for page in PAGES])
def test_the_dance_goes_on_after_what_is_told_inside_it(page: dict[str, Any]) -> None:
    routine, problems = read_prose(page["text"])
    placed = [
        f"wall {line.passes[0]} after {one.after}: {' '.join(insert.kind for insert in one.inserts) or one.leave}"
        for line in routine.order
        for one in line.departures
    ]
    assert [section.counts for part in routine.parts for section in part.sections] == page["sections"]
    assert [f"{extra.kind} {extra.counts}" for extra in routine.extras] == page["extras"]
    assert placed == page["placed"]
    assert not [problem.message for problem in loud((*problems, *proofread(routine)))]


def test_there_are_pages() -> None:
    assert len(PAGES) > 5


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        ("and go on with count 25.", 0),
        ("carry on with count 17", 0),
        ("dance up to count 12", 0),
        ("pick the dance up again at count 17", 0),
        ("Then resume at 25.", 0),
        ("as far as count 8", 0),
        ("then back in at count 9", 0),
        ("step back on counts 7 and 8", 1),
        ("touch up on count 4", 1),
        ("step left with count 3", 1),
        ("go forward to the right on count 5", 1),
        ("on counts 5 to 8 walk", 1),
    ],
)
def test_a_number_that_only_refers_to_a_count_is_no_mark(text: str, marks: int) -> None:
    assert len(marks_in(clean_lines(text)[0].tokens, 0)) == marks


@pytest.mark.parametrize(
    ("text", "heads"),
    [
        ("Bars 1 and 2: Two walks\n1-2-3 walk\n4-5-6 walk\nBars 3 and 4\n1-2-3 walk\n4-5-6 walk", [1, 4]),
        ("Counts 1 to 4\n1-2 walk\n3-4 walk\nCounts 5 to 8\n5-6 walk\n7-8 walk", [1, 4]),
        ("Counts 1-4: walk R, L, R, L\nCounts 5-8: walk R, L, R, L", []),
        ("Count 1: step R\nCount 2: step L\nCounts 3 & 4: shuffle R", []),
        ("Bars 1-2: walk on 1-2-3 and on 4-5-6\nBars 3-4: the same again on 1-2-3 and on 4-5-6", []),
    ],
)
def test_a_heading_stands_over_lines_that_count_inside_it(text: str, heads: list[int]) -> None:
    assert [line.number for line in with_range_heads(clean_lines(text)) if line.heads] == heads
