"""The facings in a row of a list of walls: those its wall begins with, and those with which it is left.

Behind a restart or an extra, "all, then tag @6:00", a facing is that of the moment, unless a start is spoken of.
"""

from collections.abc import Sequence

from trainer.sheet.prose.listings.naming import facing_at
from trainer.sheet.prose.listings.told_row import ToldRow
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_LOOKS = words_in("facing faces face at @ from starts start starting begins begin on to looking")
"""Words before where a wall begins."""
_BEGINS = words_in("from starts start starting begins begin")


def faced(row: ToldRow, tokens: Sequence[Token], at: int) -> int:
    """Read a facing into a row, of its wall's start or of where it is left; return the index after it."""
    if tokens[at].low in _LOOKS and at + 1 < len(tokens) and tokens[at + 1].kind in ("clock", "facing"):
        return at + 1
    facing, beyond = facing_at(tokens, at)
    opens = at == 0 or tokens[at - 1].text in (BREAK, ",", ".", "(")
    if facing is None or not (tokens[at].kind in ("clock", "facing") or opens):
        return at
    if (row.leave or row.puts) and row.facing is None and (not at or tokens[at - 1].low not in _BEGINS):
        row.left = facing
    else:
        row.facing = row.facing or facing
    return beyond


def sure_facing(cell: Sequence[Token], at: int) -> Token | None:
    """Return the facing that stands in a cell of starts."""
    return cell[at] if cell[at].kind == "clock" else facing_at(cell, at)[0]
