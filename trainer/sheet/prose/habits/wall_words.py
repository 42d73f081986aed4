"""A sheet's own short words for the walls: "FW = front wall (12:00), BW = back wall" make FW and BW clock times."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.text.initials import told_walls, with_initials
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST_NAME = 3
"""Letters of a short word for a wall."""

_LONGEST_MEANING = 7
"""Tokens of what it stands for."""

_WALLS = {
    "front": Fraction(0), "home": Fraction(0), "back": Fraction(1, 2), "rear": Fraction(1, 2), "right": Fraction(1, 4),
    "left": Fraction(3, 4),
}  # fmt: skip


def with_wall_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return lines in which the sheet's own words for walls are clock times; the lines that explain them stay."""
    lines = with_initials(lines)
    told, telling = told_walls(lines, _WALLS)
    own = told | dict(pair for line in lines for pair in _explained(line.tokens))
    if not own:
        return tuple(lines)
    return tuple(line if index in telling else _with(line, own) for index, line in enumerate(lines))


def _explained(tokens: Sequence[Token]) -> Iterator[tuple[str, Fraction]]:
    """Yield each short word that a line explains as a wall, and the wall's facing."""
    for at, token in enumerate(tokens):
        if token.text not in ("=", ":") or not at:
            continue
        name = tokens[at - 1]
        short = name.kind == "word" and name.text.isupper() and 1 < len(name.low) <= _LONGEST_NAME
        facing = _facing(tokens[at + 1 :]) if short else None
        if facing is not None:
            yield name.low, facing


def _facing(tokens: Sequence[Token]) -> Fraction | None:
    """Return the facing of the wall that words up to the next pair of a key name; None where they name none."""
    end = next((at for at, token in enumerate(tokens) if token.text in ",;|"), len(tokens))
    meaning = tokens[:end]
    if len(meaning) > _LONGEST_MEANING or not any(token.low == "wall" for token in meaning):
        return None
    clocks = {token.value for token in meaning if token.kind == "clock"}
    sides = {_WALLS[token.low] for token in meaning if token.low in _WALLS}
    found = clocks or sides
    return found.pop() if len(found) == 1 else None


def _with(line: Line, own: dict[str, Fraction]) -> Line:
    if any(name in own for name, _ in _explained(line.tokens)):
        return line
    return replace(line, tokens=tuple(_told(token, own) for token in line.tokens))


def _told(token: Token, own: dict[str, Fraction]) -> Token:
    if token.kind != "word" or token.low not in own or not token.text.isupper():
        return token
    return replace(token, kind="clock", value=own[token.low])
