"""Facings as fractions of a whole turn, and their clocks.

12:00 is what count 1 of wall 1 faces; a quarter turn right is three hours. Finer than an eighth comes out as the clock
time that its angle has.
"""

import re
from fractions import Fraction

HOME = Fraction(0)
BACK = Fraction(1, 2)

_CLOCK = re.compile(r"(\d{1,2}):([0-5]\d)(?::([0-5]\d))?")


def turned(facing: Fraction, turn: Fraction) -> Fraction:
    """Return the facing after a signed turn, in [0, 1)."""
    return (facing + turn) % 1


def is_diagonal(facing: Fraction) -> bool:
    """Return whether a facing lies halfway between two walls: 1:30, 4:30, 7:30 or 10:30."""
    return facing * 8 % 2 == 1


def between(start: Fraction, end: Fraction) -> Fraction:
    """Return the smallest signed turn from one facing to another; half a turn is to the right."""
    turn = (end - start) % 1
    return turn - 1 if turn > Fraction(1, 2) else turn


def clock(facing: Fraction) -> str:
    """Return a facing as a clock time: 12:00, 1:30, 3:00; seconds only where minutes do not do."""
    minutes, rest = divmod(facing % 1 * 720, 1)
    hours, minute = divmod(int(minutes), 60)
    text = f"{hours or 12}:{minute:02}"
    seconds = round(rest * 60)
    return f"{text}:{seconds:02}" if seconds else text


def read_clock(text: str) -> Fraction | None:
    """Return the facing of a clock time such as 1:30, or None if it is none."""
    match = _CLOCK.fullmatch(text.strip())
    if match is None or not 1 <= int(match[1]) <= 12:
        return None
    return Fraction(int(match[1]) % 12 * 3600 + int(match[2]) * 60 + int(match[3] or 0), 12 * 3600)


def amount(turn: Fraction) -> str:
    """Return the size of a turn in words of the trade: 1/4, 1 1/2, "full"."""
    whole, rest = divmod(abs(turn), 1)
    if not rest:
        return "full" if whole == 1 else str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def turn_text(turn: Fraction) -> str:
    """Return a signed turn as "1/4 right" or "full left"; an empty text for none."""
    if not turn:
        return ""
    return f"{amount(turn)} {'right' if turn > 0 else 'left'}"


def walls_home(net: Fraction) -> int:
    """Return after how many walls of one net turn the dance faces where it began: 8/gcd(8, k) for k eighths."""
    return (net % 1).denominator


def mirrored(facing: Fraction) -> Fraction:
    """Return the facing of a dancer seen in a mirror: 3:00 becomes 9:00."""
    return -facing % 1
