"""Steps told by the sides of a room as well: "rock back towards the door side" where "door side = 6 o'clock".

Where a clause says its way besides, or turns, the side of the room says it once more. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_SIDES = {"side", "wall", "end"}
_HOURS = {"12", "3", "6", "9", "12:00", "3:00", "6:00", "9:00"}
_LEAST = 3
"""Sides of a room that a sheet names."""
_TO = {"to", "towards", "toward", "at"}
_WAYS = {
    "forward", "forwards", "back", "backward", "backwards", "sideways", "behind", "over", "across", "beside", "turn",
    "pivot", "right", "left", "together", "closes", "close", "turning", "pivots",
}  # fmt: skip
_ENDS = {",", ".", ";", ":", "(", ")"}


def with_sides_once(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counted ones without sides of the room that only say a way once more."""
    names = {name for line in lines if (name := _named(line))}
    if len(names) < _LEAST:
        return tuple(lines)
    return tuple(
        replace(line, tokens=told, source="")
        if marks_in(line.tokens, 0) and (told := _told(line.tokens, names)) != line.tokens
        else line
        for line in lines
    )


def _named(line: Line) -> str:
    """Return the word that names a side of the room in a line of the key: "bar side = 3 o'clock"."""
    tokens = [token for token in line.tokens if token.low not in ("the", "o'clock", "clock", "o", "'")]
    named = len(tokens) > _LEAST and tokens[1].low in _SIDES and tokens[2].text in ("=", ":")
    return tokens[0].low if named and tokens[3].text in _HOURS else ""


def _told(tokens: tuple[Token, ...], names: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        end = _phrase(tokens, at, names)
        if end and _says_a_way(tokens, at, end):
            at = end
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _phrase(tokens: Sequence[Token], at: int, names: set[str]) -> int:
    """Return the index after "towards the bar side" or "towards the bar"; 0 where no such phrase stands."""
    if tokens[at].low not in _TO:
        return 0
    name = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].low == "the")
    if name >= len(tokens) or tokens[name].low not in names:
        return 0
    return name + 1 + (name + 1 < len(tokens) and tokens[name + 1].low in _SIDES)


def _says_a_way(tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether the clause about a phrase says a way of its own, other than which foot acts."""
    begin = first
    while begin and tokens[begin - 1].text not in _ENDS:
        begin -= 1
    while last < len(tokens) and tokens[last].text not in _ENDS:
        last += 1
    clause = tokens[begin:last]
    feet = {at for at, token in enumerate(clause[:-1]) if clause[at + 1].low == "foot"}
    return any(token.low in _WAYS for at, token in enumerate(clause) if at not in feet)
