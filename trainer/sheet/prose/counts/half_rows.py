"""Half beats with counts of a row about them: "AND 27 28 | R.F. TO SIDE", "2 AND A | ROCK BEHIND", "7 and a 8".

In running words "and" joins two steps and a is an article; in its own cell, or between two counts, each is a half beat.
"""

from collections.abc import Callable, Sequence

from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_SIGNS = ("-", ":", "=", ".")
_ENDS = (BREAK, ":", ")", "]")
_JOINS = (",", "-", "/", "to", "and", "&", "+")

Number = Callable[[int], int | None]
"""Returns the number at a token, by its index."""


def opens_its_row(line: Sequence[Token], number: Number) -> bool:
    """Whether the "and" that opens a line is a half beat, as numbers open the rows about it."""
    if is_and_a(line, 0, number, None):
        return number(2) is None or _fills_a_cell(line, 2, number)
    return (len(line) > 1 and line[1].text in _SIGNS) or _fills_a_cell(line, after_half(line, 0), number)


def after_half(line: Sequence[Token], at: int) -> int:
    """Return the index after a half beat that opens its row, and the comma behind it: "and, three, four"."""
    return at + 1 + (at + 1 < len(line) and line[at + 1].text == ",")


def is_and_a(line: Sequence[Token], at: int, number: Number, last: int | None) -> bool:
    """Whether "and a" are two half beats and no article; `last` is the number before them, if there is one."""
    if at + 2 >= len(line) or line[at + 1].low != "a":
        return False
    after = number(at + 2)
    return line[at + 2].text in _ENDS or (after is not None and last in (None, after - 1))


def is_last_half(line: Sequence[Token], at: int, number: Number, last: int | None) -> bool:
    """Whether the a after an & is a half beat: 1&a, "1 & a 2", "2 & a | run", "2 & a  run" after two blanks."""
    half, after, value = line[at + 1], line[at + 2] if at + 2 < len(line) else None, number(at + 2)
    if half.glued or (value is not None and last in (None, value - 1)):
        return True
    return after is None or after.kind == "mark" or after.column > half.column + 2


def _fills_a_cell(line: Sequence[Token], at: int, number: Number) -> bool:
    """Whether counts that go on are all that stands from a token on in its cell, or before a colon: "three, four"."""
    value = number(at)
    while value is not None and number(at) == value:
        at, value = at + 1, value + 1
        joined = at + 1 < len(line) and line[at].low in _JOINS and number(at + 1) == value
        at += joined
    return value is not None and at < len(line) and line[at].text in (BREAK, ":", "=")
