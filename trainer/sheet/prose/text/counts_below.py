"""Counts in a line of their own under their steps, "Rock right back, recover left | (1-2)", put behind them.

A page is known for one written so where every block of lines that has such counts ends with them: counts that stand
over their steps end none.
"""

import re
from collections.abc import Sequence
from itertools import groupby, pairwise

from trainer.sheet.prose.text.rows import Row

_ALONE = re.compile(r"(?!\S.* {3,}\S)\s*[(\[]?\d[\d&+,\-– ]*[)\]]?\s*")
"""By itself; a row of a table has gaps."""
_LEAST = 4
"""Lines of counts, at least."""


def with_counts_behind(rows: Sequence[Row]) -> list[Row]:
    """Return the rows, counts that stand under their steps behind them."""
    blocks = [list(block) for said, block in groupby(rows, key=lambda row: bool(row.text.strip())) if said]
    counted = [block for block in blocks if any(map(_alone, block))]
    if sum(_alone(row) for block in counted for row in block) < _LEAST or not all(map(_ends_so, counted)):
        return list(rows)
    done: list[Row] = []
    for row in rows:
        if _alone(row):
            done[-1] = done[-1].joined(row)
        else:
            done.append(row)
    return done


def _alone(row: Row) -> bool:
    return bool(_ALONE.fullmatch(row.text))


def _ends_so(block: Sequence[Row]) -> bool:
    """Whether a block ends with counts, and each line of counts has one of words above it."""
    led = all(any(letter.isalpha() for letter in over.text) for over, row in pairwise(block) if _alone(row))
    return _alone(block[-1]) and not _alone(block[0]) and led
