"""Single items in the wordings of many teachers: labels, weight before, words, what is danced, and why.

The tables stand in `tests/data/wordings/items/`, a file a theme; events are told with their moves where the move is the
point ("walk:R/R"), else by foot, weight and turn ("R/R+1/4"). No events: the foot that carries would have to step.
"""

from pathlib import Path

import pytest

from tests.sheet.prose.walking import danced, item, told

TABLES = sorted((Path(__file__).parents[2] / "data" / "wordings" / "items").glob("*.tsv"))
ROWS = [
    pytest.param(*line.split("\t"), id=f"{path.stem}-{number}")
    for path in TABLES
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines()[1:], 2)
]


def test_there_are_wordings() -> None:
    assert len(TABLES) >= 7
    assert len(ROWS) > 400


@pytest.mark.parametrize(("labels", "weight", "words", "expected", "why"), ROWS)
def test_item(labels: str, weight: str, words: str, expected: str, why: str) -> None:
    found = danced(item(words.replace("\\n", "\n"), labels), weight)
    assert (told(found[0], named=":" in expected) if found else "") == expected, why or words
