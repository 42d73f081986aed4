"""No expression of the reader runs away on what a stranger may type: a guard against hangs, not a measure of time.

Nested repetitions that can match the same text in many ways double their work with each letter. Every compiled
expression of the packages that read is tried on runs of what sheets are made of.
"""

import importlib
import pkgutil
import re
import time
from collections.abc import Iterator

import pytest

import trainer.dance
import trainer.sheet

RUNS = (
    " ", "1", "a", "&", "-", ",", "/", ".", "(", "[", "|", "=", "*", "x", "n", "c", "w", "s", "m", "H", "I", "?", "U",
    "1 ", "a ", "& ", "- ", ", ", "1-", "1 & ", "1, ", "and ", "wall 1 ", "walls ", "the ", "r ", " | ", "nc", "n-",
    "n,", "n&", "?m", "mI", ">&", "DU", "first ", "restart ",
)  # fmt: skip
TIMES = 26
"""So often each is repeated: enough for a hang to show, and not to come."""
BOUND = 1.0
"""Seconds that no match of so short a text comes near."""


def patterns() -> Iterator[tuple[str, re.Pattern[str]]]:
    """Yield each expression of the modules that read, with where it stands."""
    for package in (trainer.sheet, trainer.dance):
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            for name, value in vars(importlib.import_module(found.name)).items():
                for at, one in enumerate(_within(value)):
                    yield f"{found.name}.{name}[{at}]", one


def _within(value: object, depth: int = 0) -> Iterator[re.Pattern[str]]:
    if isinstance(value, re.Pattern):
        yield value
    elif depth < 3 and isinstance(value, (tuple, list, set, frozenset)):
        for one in value:
            yield from _within(one, depth + 1)
    elif depth < 3 and isinstance(value, dict):
        yield from _within(tuple(value.values()), depth)


PATTERNS = {(one.pattern, one.flags): (name, one) for name, one in patterns()}


def test_there_are_expressions_to_try() -> None:
    assert len(PATTERNS) > 200


@pytest.mark.parametrize("run", RUNS, ids=repr)
def test_no_expression_runs_away(run: str) -> None:
    slow = []
    for name, one in PATTERNS.values():
        begun = time.perf_counter()
        for lead in ("", "1", "wall ", "w"):
            text = lead + run * TIMES + "!"
            one.search(text)
            one.fullmatch(text)
        if time.perf_counter() - begun > BOUND:
            slow.append(name)
    assert not slow


def test_a_wide_row_of_counts_is_no_riddle() -> None:
    from trainer.sheet.prose.text.layout import clean_lines

    row = "  2 3 4        Hold, hold; hold (arms rise)\n"
    assert len(clean_lines("Boiler Lane\n" + 6 * row)) == 7
