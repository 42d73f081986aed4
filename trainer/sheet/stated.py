"""Facings and turns as a sheet states them: clock times, and amounts with a side.

A facing that no clock time says exactly is written as a fraction of a whole turn to the right of 12:00.
"""

import re
from fractions import Fraction

from trainer.dance.facing import clock, read_clock, turn_text

_FRACTION = re.compile(r"-?\d{1,18}(?:/[1-9]\d{0,17})?")
_TURN = re.compile(r"(?:(full|\d{1,4})\s+)?(?:(\d{1,4})/([1-9]\d{0,3})\s+)?(right|left)")


def facing_of(text: str) -> Fraction | None:
    """Return the facing that a text states, or None."""
    facing = read_clock(text)
    if facing is None and "/" in text and _FRACTION.fullmatch(text):
        facing = Fraction(text)
    return facing


def facing_told(facing: Fraction) -> str:
    """Return a facing as a fair copy states it."""
    text = clock(facing)
    return text if read_clock(text) == facing else f"{facing.numerator}/{facing.denominator}"


def turn_of(text: str) -> Fraction | None:
    """Return the signed turn of a text such as "1/8 right", or None."""
    match = _TURN.fullmatch(text.strip().casefold())
    if match is None or not (match[1] or match[2]):
        return None
    whole = Fraction(1) if match[1] == "full" else Fraction(match[1] or 0)
    amount = whole + (Fraction(int(match[2]), int(match[3])) if match[2] else 0)
    return amount if match[4] == "right" else -amount


def turn_told(turn: Fraction) -> str:
    """Return a signed turn as a fair copy states it; none is "0 right"."""
    return turn_text(turn) or "0 right"
