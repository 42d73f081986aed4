"""Ordinals of walls as they are written elsewhere: "1a wall", "2ª wall", "3. wall", "4e wall" are the 1st to the 4th.

Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ENDS = {"a", "ª", "º", "°", "e", "o", "de", "ème", "eme", "er", "ste", ".", "ra", "da", "ta"}
_WALLS = {"wall", "walls", "round", "time", "repetition"}
_HIGHEST = 24


def with_ordinals(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the ordinals before a word for a wall as English writes them."""
    return [replace(line, tokens=tuple(_told(line.tokens, at) for at in range(len(line.tokens)))) for line in lines]


def _told(tokens: Sequence[Token], at: int) -> Token:
    token = tokens[at]
    if not at or token.low not in _ENDS or not token.glued or at + 1 >= len(tokens):
        return token
    number, wall = tokens[at - 1], tokens[at + 1]
    numbered = number.kind == "number" and number.text.isdecimal() and 0 < int(number.text) <= _HIGHEST
    after = tokens[at + 2] if at + 2 < len(tokens) else None
    named = wall.low in _WALLS and not (after is not None and after.kind == "number")
    # "1. Wall 3 restarts" numbers its line.
    alone = token.text != "." or (wall.text.islower() and (after is None or after.kind == "mark"))
    # "3. Wall: 24 counts" is the third; "1. Walls: 4" numbers its line.
    alone = alone or (wall.low in ("wall", "round", "repetition") and after is not None and after.text == ":")
    return replace(token, kind="word", text="th", low="th") if numbered and named and alone else token
