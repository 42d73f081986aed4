"""Extras whose place and steps are told in one paragraph, and remarks on the walls that tell nothing."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from trainer.dance.proof import proofread
from trainer.problems import loud
from trainer.routine import Departure, Extra, Routine
from trainer.sheet.reading import read

_ROWS: dict[str, Any] = tomllib.loads(Path(__file__).with_name("told_at_once.toml").read_text(encoding="utf-8"))
_SWAYS = [("1", "R"), ("2", "L"), ("3", "R"), ("4", "L")]


def _routine_of(text: str) -> Routine:
    """Read the dance with a paragraph below it; there is nothing wrong with either."""
    routine, problems = read(f"{_ROWS['dance']}\n{text}\n")
    assert [problem.message for problem in loud((*problems, *proofread(routine)))] == []
    assert sum(part.counts for part in routine.parts) == 32
    return routine


def _only_extra(routine: Routine) -> tuple[Extra, tuple[int, ...], Departure]:
    """The one extra of a routine, the walls and the place in which it is danced."""
    told = [(line.passes, departure) for line in routine.order for departure in line.departures]
    assert (len(routine.extras), len(told)) == (1, 1)
    return routine.extras[0], *told[0]


def _steps(extra: Extra) -> list[tuple[str, str]]:
    return [(event.label, str(event.foot)) for event in extra.events]


@pytest.mark.parametrize("text", _ROWS["tag"])
def test_a_tag_told_at_once(text: str) -> None:
    extra, walls, departure = _only_extra(_routine_of(text))
    assert (_steps(extra), walls, departure.after, departure.leave) == (_SWAYS, (3,), 32, "continue")


@pytest.mark.parametrize("text", _ROWS["bridge"])
def test_a_bridge_told_at_once(text: str) -> None:
    extra, walls, departure = _only_extra(_routine_of(text))
    assert (_steps(extra), walls, departure.after, departure.leave) == (_SWAYS, (5,), 24, "continue")


@pytest.mark.parametrize("text", _ROWS["again"])
def test_counts_of_the_dance_danced_again(text: str) -> None:
    routine = _routine_of(text)
    extra, walls, departure = _only_extra(routine)
    first = [(event.label, event.foot, event.move) for event in routine.parts[0].sections[0].events[:4]]
    assert [(event.label, event.foot, event.move) for event in extra.events] == first
    assert (walls, departure.after, departure.leave) == ((3,), 32, "continue")


@pytest.mark.parametrize("text", _ROWS["change"])
def test_a_change_told_at_once(text: str) -> None:
    extra, walls, departure = _only_extra(_routine_of(text))
    assert [label for label, _ in _steps(extra)] == ["7", "8"]
    assert (walls, departure.after, departure.leave) == ((5,), 24, "restart")


@pytest.mark.parametrize("text", _ROWS["remark"])
def test_a_remark_claims_nothing(text: str) -> None:
    routine = _routine_of(text)
    assert not routine.extras
    assert not [line for line in routine.order if line.departures]
