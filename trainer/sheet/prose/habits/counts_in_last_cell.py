"""Rows whose sentences end before the cell of their counts: "Walk forward: right, left.   Counts 1 2".

Behind a full stop counts would be those of the sentence that follows; so they are told before the words of their row.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import is_count
from trainer.sheet.prose.text.layout import BREAK, Line

_LEAST = 3
"""Fewer rows show nothing."""
_MOSTLY = 0.6
"""The share of rows with counts in their last cells that end their sentence before it."""


def with_last_counts_first(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, rows of sentences and then a cell of counts with the counts first."""
    cells = {at: cell for at, line in enumerate(lines) if (cell := _counted(line))}
    stops = sum(lines[at].tokens[cell - 1].text in (".", ";") for at, cell in cells.items())
    if stops < _LEAST or stops < _MOSTLY * len(cells):
        return tuple(lines)
    return tuple(_turned(line, cells[at]) if at in cells else line for at, line in enumerate(lines))


def _counted(line: Line) -> int:
    """Return the index of the break before a last cell of counts, the only one behind words; 0 where none stands."""
    breaks = [at for at, token in enumerate(line.tokens) if token.text == BREAK]
    if len(breaks) != 1 or breaks[0] < _LEAST or not line.tokens[breaks[0] + 1 :]:
        return 0
    words = line.tokens[: breaks[0]]
    return breaks[0] if is_count(line.tokens[breaks[0] + 1 :]) and words[0].kind == "word" else 0


def _turned(line: Line, cell: int) -> Line:
    """Return a row with its counts first; it is no table's any more."""
    return replace(line, tokens=(*line.tokens[cell + 1 :], line.tokens[cell], *line.tokens[:cell]), source="")
