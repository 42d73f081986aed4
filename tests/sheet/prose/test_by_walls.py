"""Whole sheets in many teachers' hands: each wall is danced as it is told, and nothing is found wrong.

One of six is read here, the rest in `tests/long`.
"""

from typing import Any

import pytest

from tests.shares import share
from tests.sheet.prose.by_walls import FOLDER, as_danced, sheets

SHEETS = [pytest.param(row, id=name) for name, row in sheets(FOLDER)]


def test_there_are_sheets() -> None:
    assert len(SHEETS) > 10


@pytest.mark.parametrize("row", share(SHEETS, 9))
def test_a_sheet_is_danced_as_it_is_told(row: dict[str, Any]) -> None:
    walls, findings = as_danced(row["text"], len(row["walls"]))
    assert walls == row["walls"]
    assert findings == 0
