"""The wait before the first step, in the words of many teachers, as a number of counts.

The lines stand in `tests/data/wordings/waits.tsv`. Common practice, no source.
"""

from pathlib import Path

import pytest

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.text.layout import clean_lines

ROWS = [
    line.split("\t")
    for line in (Path(__file__).parents[2] / "data" / "wordings" / "waits.tsv").read_text(encoding="utf-8").splitlines()
][1:]


def test_there_are_waits() -> None:
    assert len(ROWS) > 50


@pytest.mark.parametrize(("wait", "words"), ROWS)
def test_wait(wait: str, words: str) -> None:
    facts = header_facts([line.tokens for line in clean_lines(words)])
    assert facts.wait == int(wait)


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("Thirty-six counts in waltz time, four walls", "the length of the dance"),
        ("32 counts in 4 sections, 2 walls", "the same"),
        ("A dance in three pieces, one in the middle for the fiddle", "no number of counts"),
        ("Wall 3: dance 16 counts and then start again", "a restart"),
        ("The first wall has 32 counts, then the tag", "how far a wall goes"),
    ],
)
def test_no_wait(words: str, why: str) -> None:
    assert header_facts([line.tokens for line in clean_lines(words)]).wait is None, why


def test_bars_of_a_waltz_have_three_counts() -> None:
    lines = clean_lines("A waltz for two walls\nWait eight bars, weight on the right")
    assert header_facts([line.tokens for line in lines]).wait == 24


def test_a_danced_intro_is_no_wait() -> None:
    lines = clean_lines("Intro 8 counts, danced once\nWait 16 counts, weight on the left")
    assert header_facts([line.tokens for line in lines]).wait == 16
