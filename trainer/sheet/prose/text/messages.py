"""The numbers of a message that was sent in pieces, "(1/5)", "(2/5)", at the starts of lines: they count nothing."""

import re
from collections.abc import Sequence
from itertools import pairwise

_PIECE = re.compile(r"^\s*[(\[]?(\d{1,2}) ?(?:/|of) ?(\d{1,2})[)\]]?[:.]?\s+(?=\S)", re.IGNORECASE)
_LEAST = 3
"""Pieces of a message; a quarter turn may open a line or two."""


def without_piece_numbers(raw: Sequence[str]) -> list[str]:
    """Return the lines with blanks for such numbers, where they go from the first to the last."""
    found = {at: match for at, line in enumerate(raw) if (match := _PIECE.match(line))}
    numbers = [int(match[1]) for match in found.values()]
    rises = numbers[:1] == [1] and all(after == before + 1 for before, after in pairwise(numbers))
    if len(numbers) < _LEAST or not rises or {int(match[2]) for match in found.values()} != {len(numbers)}:
        return list(raw)
    return [" " * found[at].end() + line[found[at].end() :] if at in found else line for at, line in enumerate(raw)]
