"""Rows that hang under the second cell of the row above, with which their sentence goes on, told as one row.

"Third wall.    All 36 counts.  The band stops:" over "hold for three counts", set in as far as "All". Common
practice, no source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.text.rows import Row

_LABEL = re.compile(r"\S(?:.*?\S)??(?: {2,}|\t+)(?=\S)")
_CELLS = re.compile(r"\S {3,}\S|\||\S\t")
_ENDS = (".", "!", "?", ")", "]")
_LEAST = 2
_NAMED = re.compile(r"[A-Za-z]{3}")
_GOES_ON = re.compile(r"\s*[a-z]")


def with_hanging_rows(rows: Sequence[Row]) -> list[Row]:
    """Return the rows, such joined; two rows of a page at least hang so, under labels that are no counts."""
    hung = [at for at in range(1, len(rows)) if _hangs(rows, at)]
    if len(hung) < _LEAST:
        return list(rows)
    done: list[Row] = []
    for at, row in enumerate(rows):
        if at in hung:
            done[-1] = done[-1].joined(row)
        else:
            done.append(row)
    return done


def _hangs(rows: Sequence[Row], at: int) -> bool:
    above, row = rows[at - 1].text, rows[at].text
    label = _LABEL.match(above)
    if label is None or not _NAMED.search(label[0]) or "\t" in above or above.rstrip().endswith(_ENDS):
        return False
    in_cells = _CELLS.search(row.lstrip())
    return bool(_GOES_ON.match(row)) and not in_cells and len(row) - len(row.lstrip()) == label.end()
