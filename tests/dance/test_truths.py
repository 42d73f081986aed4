"""Teachers' dances, told count by count by people who had not seen the program, and danced by another program."""

from pathlib import Path

import pytest

from tests.dance.truths import routine_of, truths
from trainer.dance.proof import proofread
from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud


def by_name(path: Path) -> str:
    return path.name.removesuffix(".truth.json")


def test_there_are_many() -> None:
    assert len(truths()) > 20


@pytest.mark.parametrize("path", truths(), ids=by_name)
def test_it_is_danced_as_its_scorer_dances_it_and_nothing_is_wrong_in_it(path: Path) -> None:
    routine, walls = routine_of(path)
    danced: list[list[list[str]]] = [[] for _ in walls]
    for row in as_rows(unroll(routine, len(walls)), routine.tempo):
        danced[row["wall"] - 1].append([row["count"], row["foot"], row["weight"], row["facing"]])
    assert danced == walls
    assert loud(proofread(routine)) == []
