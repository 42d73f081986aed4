"""Plays of a phrased dance as a hundred teachers tell them: lists, tables, stories, with cut parts and extras.

Each paragraph of `plays.json` stands below the parts of the same dance; `play` holds a part's name, a part with the
counts danced of it, or + and the name of an extra, whose events are rows of count, foot and weight. One of eight is
read here, the others in `tests/long`.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.shares import share
from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.sheet.opening import opened

_DATA = Path(__file__).parents[2] / "data" / "paragraphs"
_DANCE = (_DATA / "phrased.txt").read_text(encoding="utf-8")
ROWS = json.loads((_DATA / "plays.json").read_text(encoding="utf-8"))

Event = list[Any]


def _danced(text: str, walls: int) -> tuple[list[list[Event]], list[str]]:
    """The events of each part danced, and what is wrong with the sheet."""
    sheet = opened(Path("sheet.txt"), _DANCE.replace("@@", text))
    found: list[list[Event]] = [[] for _ in range(walls)]
    for row in as_rows(unroll(sheet.routine, walls), sheet.routine.tempo):
        if row["wall"] <= walls:
            found[row["wall"] - 1].append([row["count"], row["foot"], row["weight"]])
    return found, [problem.message for problem in loud(sheet.problems)]


_A, _B = _danced("Order: A, B", 2)[0]


def _wanted(row: dict[str, Any]) -> list[list[Event]]:
    parts = {"A": _A, "B": _B}
    found: list[list[Event]] = []
    for item in row["play"]:
        if isinstance(item, str) and item.startswith("+"):
            if not found:
                found.append([])
            found[-1] = found[-1] + row["extras"][item[1:]]
        else:
            name, counts = item if isinstance(item, list) else (item, None)
            found.append(parts[name][:counts])
    return found


def _same(one: Event, other: Event) -> bool:
    """Whether two events are danced alike; which foot makes a gesture that a sheet leaves open does not matter."""
    labels = one[0] == other[0] or (one[0].isdigit() and other[0].isdigit())
    feet = one[1] == other[1] or (one[2] == other[2] and one[2] is not None)
    return bool(labels and feet and one[2] == other[2])


@pytest.mark.parametrize("row", share(ROWS, 12), ids=lambda row: row["text"][:40])
def test_a_play_is_danced_as_it_is_told(row: dict[str, Any]) -> None:
    """The parts come in the order told, cut where they are cut, with the extras between them, and nothing is wrong."""
    hold_as_told(row)


def hold_as_told(row: dict[str, Any]) -> None:
    """Hold that a play is danced as its row tells."""
    wanted = _wanted(row)
    got, wrong = _danced(row["text"], len(wanted))
    assert not wrong
    for number, (told, danced) in enumerate(zip(wanted, got, strict=True), 1):
        assert len(told) == len(danced), f"item {number}"
        assert all(map(_same, told, danced)), f"item {number}"


def test_the_paragraphs_tell_different_plays() -> None:
    """The table is no list of one play's wordings."""
    assert len({json.dumps(row["play"]) for row in ROWS}) > 20


def test_a_last_part_cut_behind_an_eight_that_it_does_not_have_is_found() -> None:
    """The reading without the cut, and without the finish told behind it, must not hide the fault."""
    _, wrong = _danced(
        "We dance A, then B, then A and B again. Then comes the last A, and that one is cut: stop after its seventh "
        "eight, and for the finish step right forward on 1 and stomp left beside right on 2.",
        5,
    )
    assert wrong == ["There is no count 40: part A has 32 counts"]
