"""Paragraphs in many teachers' words about tags, holds and restarts, each read right within a whole sheet.

One of six is read here, the others in `tests/long`.
"""

import json
from typing import Any

import pytest

from tests.shares import share
from tests.sheet.prose.paragraphs import FOLDER, alike, danced, read, wanted

FILES = sorted(path for path in FOLDER.glob("*.json") if path.stem != "plays")
"""Those of plays are held by `test_plays.py`."""
PARAGRAPHS = [
    pytest.param(one, id=f"{path.stem} {place}")
    for path in FILES
    for place, one in enumerate(json.loads(path.read_text(encoding="utf-8")))
]


def test_there_are_paragraphs() -> None:
    assert PARAGRAPHS


@pytest.mark.parametrize("truth", share(PARAGRAPHS, 9))
def test_a_paragraph_is_danced_as_it_is_told(truth: dict[str, Any]) -> None:
    walls = wanted(truth)
    for number, (want, got) in enumerate(zip(walls, danced(read(truth["on"], truth["text"]), len(walls)), strict=True)):
        assert alike(want, got), (number + 1, want, got)
