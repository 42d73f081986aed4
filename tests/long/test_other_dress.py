"""The sheets in another dress that the default run leaves out."""

from collections.abc import Callable

import pytest

from tests.shares import others
from tests.sheet.prose.test_other_dress import ROWS, hold_alike


@pytest.mark.parametrize(("dress", "name"), others(ROWS, 3))
def test_a_sheet_is_danced_alike_in_another_dress(dress: Callable[[str], str], name: str) -> None:
    hold_alike(dress, name)
