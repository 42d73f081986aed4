"""Hours of a list that says o'clock once, at its end: "walls 1 and 2 (12 and 9 o'clock)", "at 3, 6 and 9 o'clock"."""

from collections.abc import Sequence

from trainer.sheet.prose.facing.walls_named import HOURS, OCLOCK
from trainer.sheet.prose.words import Token

_JOINS = {"and", "&", "or", "+"}
_LEADS = {"(", "[", "at", "to", "from", "facing", "face", "faces", "start", "begin", "starting", "-", ":"}
_WALLS = {"wall", "walls"}
_NEAR = 3
"""Tokens before the numbers of the walls."""


def listed_before(tokens: Sequence[Token], at: int) -> int:
    """Return of how many tokens, hours and what joins them, the list is made that leads from a token to an o'clock."""
    before = tokens[at - 1] if at else None
    walls = before is not None and before.text == "," and any(token.low in _WALLS for token in tokens[:at])
    if before is None or not (walls or before.low in _LEADS):
        return 0
    end = at
    while end + 1 < len(tokens) and tokens[end].text in HOURS and tokens[end + 1].text == ",":
        end += 2
    if end + 1 < len(tokens) and tokens[end].text in HOURS and tokens[end + 1].low in _JOINS:
        end += 2
    if _of_walls(tokens, at, end):
        return end - at + 1
    last = tokens[end - 1 : end + 2]
    told = len(last) == 3 and last[0].low in _JOINS and last[1].text in HOURS and last[2].low in OCLOCK
    return end - at if told else 0


def _of_walls(tokens: Sequence[Token], at: int, end: int) -> bool:
    """Whether hours fill the brackets behind the walls that begin with them: "walls 1 and 2 (12 and 9)"."""
    filled = tokens[at - 1].text == "(" and [token.text for token in tokens[end + 1 : end + 2]] == [")"]
    if not filled or end == at or end >= len(tokens) or tokens[end].text not in HOURS:
        return False
    walls = [token for token in tokens[max(at - 2 * (end - at) - _NEAR, 0) : at - 1] if token.kind != "mark"]
    numbers = sum(token.kind == "number" for token in walls)
    hours = sum(token.text in HOURS for token in tokens[at : end + 1])
    return any(token.low in _WALLS for token in walls) and numbers == hours
