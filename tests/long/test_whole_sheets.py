"""Whole sheets that were read as they should be when they came are read so still, and those the default run leaves out.

The former are `tests/data/by_walls/guards`.
"""

from typing import Any

import pytest

from tests.shares import others
from tests.sheet.prose.by_walls import GUARDS, as_danced, sheets
from tests.sheet.prose.test_by_walls import SHEETS as DEFAULT

SHEETS = [*(pytest.param(row, id=f"guards {name}") for name, row in sheets(GUARDS)), *others(DEFAULT, 9)]


def test_there_are_sheets() -> None:
    assert len(SHEETS) > 200


@pytest.mark.parametrize("row", SHEETS)
def test_a_sheet_is_danced_as_it_is_told(row: dict[str, Any]) -> None:
    walls, findings = as_danced(row["text"], len(row["walls"]))
    assert walls == row["walls"]
    assert findings == 0
