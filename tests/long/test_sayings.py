"""The sayings of teachers that the default run leaves out."""

import pytest

from tests.shares import others
from tests.sheet.prose.test_sayings import ROWS, hold_as_told


@pytest.mark.parametrize("row", others(ROWS, 3), ids=lambda row: row["told"][:60])
def test_a_saying_is_read(row: dict[str, str]) -> None:
    hold_as_told(row)
