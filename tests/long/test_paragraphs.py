"""Paragraphs in many teachers' words that are read as they tell: the guards, and those the default run leaves out."""

import json
from typing import Any

import pytest

from tests.shares import others
from tests.sheet.prose.paragraphs import FOLDER, alike, danced, read, wanted
from tests.sheet.prose.test_paragraphs import PARAGRAPHS as DEFAULT

GUARDS = [
    pytest.param(one, id=f"{path.stem} {place}")
    for path in sorted((FOLDER / "guards").glob("*.json"))
    for place, one in enumerate(json.loads(path.read_text(encoding="utf-8")))
]
PARAGRAPHS = [*GUARDS, *others(DEFAULT, 9)]


def test_there_are_paragraphs() -> None:
    assert len(PARAGRAPHS) > 100


@pytest.mark.parametrize("truth", PARAGRAPHS)
def test_a_paragraph_is_danced_as_it_is_told(truth: dict[str, Any]) -> None:
    walls = wanted(truth)
    for number, (want, got) in enumerate(zip(walls, danced(read(truth["on"], truth["text"]), len(walls)), strict=True)):
        assert alike(want, got), (number + 1, want, got)
