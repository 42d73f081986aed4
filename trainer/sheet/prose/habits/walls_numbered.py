"""Rows that only number the walls, some with a mark for a note: "Seven walls:  1  2  3*  4  5  6**  7".

The numbers say nothing that the notes do not; the words before them stay. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_WALLS = frozenset({"wall", "walls", "rounds", "times"})
_MARKS = frozenset({"*", "+", "#", "†", "‡", "§", "^", ",", "-", ">", "(", ")", "[", "]", "|", BREAK, ".", "°"})
_FEWEST = 3


def without_wall_numbers(lines: Sequence[Line]) -> list[Line]:
    """Return the lines; of those that number the walls in a row only what stands before the numbers."""
    return [replace(line, tokens=_kept(line.tokens)) for line in lines]


def _kept(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    sign = next((at for at, token in enumerate(tokens) if token.text == ":"), 0)
    if not sign or tokens[sign - 1].low not in _WALLS:
        return tokens
    row = tokens[sign + 1 :]
    numbers = [int(token.text) for token in row if token.kind == "number" and len(token.text) < 3]
    plain = all(token.kind == "number" or token.text in _MARKS for token in row)
    in_order = numbers == list(range(1, len(numbers) + 1))
    return tokens[:sign] if plain and in_order and len(numbers) >= _FEWEST else tokens
