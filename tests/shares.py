"""What of a long list of sheets the default run reads: one of so many; `tests/long` reads the others.

With `READ_MORE` set, as where coverage is measured, three times as many are read.
"""

import os
from collections.abc import Sequence
from typing import TypeVar

_Row = TypeVar("_Row")


def share(rows: Sequence[_Row], each: int) -> list[_Row]:
    """Return every `each`-th row, the first among them."""
    return list(rows[:: each // 3 if os.environ.get("READ_MORE") and each > 2 else each])


def others(rows: Sequence[_Row], each: int) -> list[_Row]:
    """Return the rows that are not in the share."""
    return [row for place, row in enumerate(rows) if place % each]
