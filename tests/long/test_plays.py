"""The plays of phrased dances that the default run leaves out."""

from typing import Any

import pytest

from tests.shares import others
from tests.sheet.prose.test_plays import ROWS, hold_as_told


@pytest.mark.parametrize("row", others(ROWS, 12), ids=lambda row: row["text"][:40])
def test_a_play_is_danced_as_it_is_told(row: dict[str, Any]) -> None:
    hold_as_told(row)
