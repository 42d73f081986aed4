"""Headings with an empty row below each, put close to the steps that they head.

A line that stands alone over steps heads them; elsewhere an empty row parts what is above it. Common practice, no
source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.text.rows import Row
from trainer.sheet.prose.text.rows_apart import tells_counts

_HEADS = 3
"""Headings of a page with an empty row below each; two may be remarks."""
_LABELLED = re.compile(r"\s*(?:(?:[A-H]|tag|bridge|ending|intro) )?\d", re.IGNORECASE)
"""What a row of steps may begin with: its counts, behind the name of what it belongs to."""


def with_heads_near(rows: Sequence[Row]) -> list[Row]:
    """Return the rows without the empty one below each that stands alone over steps, where a page has several so."""
    far = [at for at in range(1, len(rows) - 1) if _parts_a_head(rows, at)]
    if len(far) < _HEADS:
        return list(rows)
    return [row for at, row in enumerate(rows) if at not in far]


def _parts_a_head(rows: Sequence[Row], at: int) -> bool:
    """Whether an empty row stands between one that stands alone and says no step, and one that begins with counts."""
    head, below = rows[at - 1].text, rows[at + 1].text
    alone = at == 1 or not rows[at - 2].text.strip()
    heads = alone and head.strip() and not rows[at].text.strip() and not tells_counts(head)
    return bool(heads and (tells_counts(below) or _LABELLED.match(below)))
