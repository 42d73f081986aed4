"""The facings with which the rows of a list say that their walls begin: "1st time from 12", "2 back, ...", "(c) 6:".

A bare hour or side is no more than a number or a word, so it is one only where every row begins with such and the
first wall at the front. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.listings.naming import facing_at
from trainer.sheet.prose.listings.sources import Source
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

LEADS = words_in("from at starts begins start begin starting beginning facing face faces on to in see you @ ( | wall")
HOURS = {"12": Fraction(0), "3": Fraction(1, 4), "6": Fraction(1, 2), "9": Fraction(3, 4)}
_SIDES = {"front": Fraction(0), "right": Fraction(1, 4), "back": Fraction(1, 2), "left": Fraction(3, 4)}
_CLOSES = frozenset({")", "]", ":", ",", ".", "-", "=", ">", "/", ";", BREAK, "+", "&"})
_ON = words_in("wall side o'clock again oclock hand")
_LEAST = 2
_GOES_ON = words_in("all full whole complete everything then and the only dance as")


def with_starts(rows: Sequence[Source]) -> tuple[Source, ...]:
    """Return the rows with the facing that each of them begins with, where all of them do."""
    if any(row.facing for row in rows):
        return tuple(rows)
    starts = _starts_of([row.tokens for row in rows])
    if not starts:
        return _from_last_cells(rows)
    return tuple(
        replace(row, tokens=row.tokens[last:], facing=facing, worded=True)
        for row, (facing, last) in zip(rows, starts, strict=True)
    )


def _from_last_cells(rows: Sequence[Source]) -> tuple[Source, ...]:
    """Return the rows with the facing that each begins with where their last cells hold such, and no more."""
    bars = [max((at for at, token in enumerate(row.tokens) if token.text == BREAK), default=-1) for row in rows]
    cells = [row.tokens[bar + 1 :] for row, bar in zip(rows, bars, strict=True)]
    starts = _starts_of(cells) if min(bars) > 0 else []
    if not starts or any(last < len(cell) for (_, last), cell in zip(starts, cells, strict=True)):
        return tuple(rows)
    return tuple(
        replace(row, tokens=row.tokens[:bar], facing=facing, worded=True)
        for row, bar, (facing, _) in zip(rows, bars, starts, strict=True)
    )


def without_ends(rows: Sequence[Source]) -> tuple[Source, ...]:
    """Return the rows without the facing behind their start with which their walls end: each is the next row's start.

    So "2nd . 3 . 6" over "3rd . 6 . 9" tells no more than where the walls begin.
    """
    ends = [_start(row.tokens) if row.tokens else None for row in rows]
    starts = [row.facing for row in rows]
    after = [start.value if start is not None else None for start in starts[1:]]
    told = [end[0].value if end is not None else None for end in ends]
    if len(rows) < _LEAST or None in told or None in after or told[:-1] != after:
        return tuple(rows)
    return tuple(
        replace(row, tokens=row.tokens[end[1] :], worded=True) for row, end in zip(rows, ends, strict=True) if end
    )


def _starts_of(rows: Sequence[Sequence[Token]]) -> list[tuple[Token, int]]:
    """Return the facing that each row begins with and the index after it; none unless every row has one."""
    found = [_start(row) for row in rows]
    told = [one for one in found if one is not None]
    if len(told) < len(rows) or not told or told[0][0].value != 0:
        return []
    return told if len({start.value for start, _ in told}) > 1 else []


def _start(row: Sequence[Token]) -> tuple[Token, int] | None:
    at = 0
    while at < len(row) and row[at].low in LEADS:
        at += 1
    at += at < len(row) and row[at].low == "the"
    if at >= len(row):
        return None
    facing, last = facing_at(row, at)
    if facing is None:
        if row[at].text not in HOURS and row[at].low not in _SIDES:
            return None
        facing, last = as_hour(row[at]), at + 1
    while last < len(row) and (row[last].low in _ON or _is_hand(row, last)):
        last += 1 + (row[last].text == "-")
    closed = last == len(row) or row[last].text in _CLOSES or row[last].low in _GOES_ON or row[at].kind != "number"
    if not closed:
        return None
    while last < len(row) and row[last].text in _CLOSES - {"+", "&"}:
        last += 1
    return facing, last


def as_hour(token: Token) -> Token:
    """Return a bare hour, or a side of the room, as a clock time."""
    value = HOURS[token.text] if token.text in HOURS else _SIDES[token.low]
    hour = f"{(value.numerator * 12 // value.denominator) or 12}:00"
    return replace(token, kind="clock", text=hour, low=hour, value=value)


def _is_hand(row: Sequence[Token], at: int) -> bool:
    """Whether a hyphen joins a side with hand: "right-hand wall"."""
    return row[at].text == "-" and at + 1 < len(row) and row[at + 1].low == "hand"
