"""Counts that are tied to words in running prose, before, after and among them: each way of teachers is danced."""

import tomllib
from pathlib import Path

import pytest

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.sheet.prose.reader import read_prose

WAYS = tomllib.loads(Path(__file__).with_name("running_counts.toml").read_text("utf-8"))["way"]
HEAD = "LANTERN ROAD\n8 counts, beginner\nWeight on the left.\n\n"


def danced(text: str) -> tuple[str, list[str]]:
    """Return the counts of the first wall with the foot that takes the weight on each, and the findings."""
    routine, problems = read_prose(HEAD + text)
    told, weight = [], "L"
    for row in as_rows(unroll(routine, 1), 100):
        moved = row["weight"] in ("R", "L") and row["weight"] != weight
        weight = str(row["weight"] or weight)
        told.append(f"{row['count']}{weight if moved else '-'}")
    return " ".join(told), [problem.message for problem in loud(problems)]


@pytest.mark.parametrize("way", WAYS, ids=[way["why"] for way in WAYS])
def test_running_counts_are_danced_as_told(way: dict[str, str]) -> None:
    assert danced(way["text"]) == (way["danced"], [])


def test_there_are_ways_to_read() -> None:
    assert len(WAYS) > 15


def test_a_count_told_twice_in_a_sentence_is_found() -> None:
    text = "First eight. On 1 step right, on 2 step left, on 2 step right, on 4 step left.\nOn 5-8 walk R, L, R, L.\n"
    assert any("2" in message for message in danced(text)[1])
