"""A number of the head begins no run of counts, and a view is not better for steps that it leaves out."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened

HEADS = [
    "32 cts 4 walls beginner, song = Second Cup, count 16 & go, left foot stays put so R starts",
    "It rolls, so the a is the late one just before the next number, and where I write & after a 2 it is half of it.",
    "The song is quiet on counts 1 & 2, then count 16 & go. 32 counts, 4 walls, weight on the left",
]
STEPS = """
R side 1, L together 2, R forward 3, hold 4
L side 5, R together 6, L back 7, hold 8

R back 1, L together 2, R forward 3, L brush 4
L forward 5, R lock behind 6, L forward 7, R brush 8

R forward 1, 1/4 pivot left 2 (9:00), R cross over 3, hold 4
L side 5, R behind 6, L side 7, R touch 8

R heel 1, R in place 2, L heel 3, L in place 4
R stomp 5, L stomp 6, clap 7, clap 8
"""


@pytest.mark.parametrize("head", HEADS)
def test_the_numbers_of_a_head_count_nothing(head: str) -> None:
    sheet = opened(Path("cup.txt"), f"morning all, BREW UP as promised\n{head}\n{STEPS}")
    events = [event for section in sheet.routine.parts[0].sections for event in section.events]
    assert not loud(sheet.problems)
    assert [event.label for event in events] == list("12345678" * 4)


def test_a_wrong_foot_is_not_hidden_by_a_head_that_takes_its_line_away() -> None:
    wrong = STEPS.replace("R side 1, L together 2", "L side 1, R side 2, R together 2", 1)
    sheet = opened(Path("cup.txt"), f"BREW UP, weight on the left\n{wrong}")
    assert loud(sheet.problems)
