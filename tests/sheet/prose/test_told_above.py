"""What tells the order and the extras may stand above the dance as well as below it."""

import json
from typing import Any

import pytest

from tests.sheet.prose.paragraphs import FOLDER, alike, danced, read, wanted

FILES = ("extras_and_holds", "waltz_and_lists")
PARAGRAPHS = [
    pytest.param(one, id=f"{stem} {place}")
    for stem in FILES
    for place, one in enumerate(json.loads((FOLDER / f"{stem}.json").read_text(encoding="utf-8")))
]
EVERY = 3
"""One of so many is held here; below the dance all are (`test_paragraphs.py`)."""


@pytest.mark.parametrize("truth", PARAGRAPHS[::EVERY])
def test_a_paragraph_above_the_dance_is_danced_as_it_is_told(truth: dict[str, Any]) -> None:
    walls = wanted(truth)
    got = danced(read(truth["on"], truth["text"], above=True), len(walls))
    for number, (want, one) in enumerate(zip(walls, got, strict=True)):
        assert alike(want, one), (number + 1, want, one)


def test_what_is_told_above_is_found_where_it_stands() -> None:
    routine = read("K1", "TAG after wall 2\n1-2 Stomp R, clap\n3-4 Stomp L, clap", above=True)
    tag = routine.extras[0]
    assert [tag.span and tag.span.line, *(event.span and event.span.line for event in tag.events)] == [4, 5, 5, 6, 6]
