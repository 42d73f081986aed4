"""Rows that only number the walls, some with a mark for a note: "Seven walls:  1  2  3*  4  5  6**  7".

The numbers say nothing that the notes do not; the words before them stay. Where the row below says as many things, it
tells how far each wall is danced: "Wall: 1 2 3 4" over "Counts: 32 32 16 32". Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token, TokenKind

_WALLS = frozenset({"wall", "walls", "rounds", "times"})
_MARKS = frozenset({"*", "+", "#", "†", "‡", "§", "^", ",", "-", ">", "(", ")", "[", "]", "|", BREAK, ".", "°"})
_FEWEST = 3


_TOLD: tuple[tuple[TokenKind, str], ...] = (("word", "walls"), ("mark", ","))


def with_rows_told(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, walls in a row over what is danced of them told each with its length."""
    done: list[Line] = []
    for line in lines:
        numbers = _row(done[-1].tokens, _WALLS | {"w"}) if done and line.number == done[-1].number + 1 else []
        values = _row(line.tokens, _DANCED) if len(numbers) >= _FEWEST else []
        in_order = [token.text for token in numbers] == [str(number) for number in range(1, len(numbers) + 1)]
        if not in_order or not values or len(values) != len(numbers):
            done.append(line)
            continue
        above = done.pop()
        wall, comma = (replace(line.tokens[0], kind=kind, text=text, low=text) for kind, text in _TOLD)
        pairs = zip(numbers, values, strict=True)
        told = [(comma, replace(one, line=wall.line, glued=False), replace(value, glued=False)) for one, value in pairs]
        colon = replace(comma, text=":", low=":")
        tokens = (wall, colon, *[token for item in told for token in item][1:])
        done.append(replace(line, number=above.number, tokens=tokens))
    return done


_DANCED = frozenset({"counts", "count", "cts", "beats", "dance", "danced", "length"})


def _row(tokens: tuple[Token, ...], labels: frozenset[str]) -> list[Token]:
    """Return what stands in a row after its label, without the marks between."""
    rest = [token for token in tokens[1:] if token.text not in _MARKS | {":", "/"}]
    plain = all(token.kind == "number" or token.low in _ALL for token in rest)
    return rest if tokens[0].low in labels and plain else []


_ALL = frozenset({"all", "full", "whole"})


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
