"""What a cell of a table holds, told from the cell alone: counts, feet, a facing, or nothing new.

A facing may stand as 3, 3:00, 3 o'clock, E, "right-hand wall" or as an arrow; which of these a column means is told
from all of its cells (`roles.py`). Facings are in parts of a whole turn, 12 o'clock is 0.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.facing import clock
from trainer.sheet.prose.number_words import numeral
from trainer.sheet.prose.words import Token

Cell = tuple[Token, ...]


def words_in(text: str) -> frozenset[str]:
    """Return the words of a text as a set."""
    return frozenset(text.split())


DITTO = frozenset({'"', "''", "'", "~", "ditto", "do", "same", ",,", "idem"})
NOTHING = frozenset({"-", "/", ".", "•", "_", "x"})
_COUNT_WORDS = frozenset(
    {"a", "e", "and", "&", "to", "count", "counts", "ct", "cts", "beat", "beats", "thru", "through"}
)
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
NUMBERED = frozenset({"step", "no", "nr", "#", "number"})
"""Words before the number of a count."""
_ROUND_WALLS = words_in("wall walls w round pass go time repetition rotation no nr number # the st nd rd th . : ) ( -")
"""What may stand beside the number of a wall."""
_HOW_MUCH = words_in(
    "- to through thru count counts ct cts beat beats all full whole ( ) up only first the of it dance everything "
    "complete entire half just as far until"
)
_COUNT_MARKS = frozenset("-+/,.:)(•&>")
_HIGHEST = 160

_FEET = {
    "r": "R", "rf": "R", "right": "R", "l": "L", "lf": "L", "left": "L", "b": "both", "both": "both", "bf": "both",
}  # fmt: skip
_FEET_GLUE = frozenset({"-", "&", ",", "/", "+", ".", "foot", "feet", "then", "and", "(", ")", "hold", ">"})

ROOM = {
    "front": Fraction(0), "home": Fraction(0), "stage": Fraction(0), "right": Fraction(1, 4), "back": Fraction(1, 2),
    "rear": Fraction(1, 2), "left": Fraction(3, 4),
}  # fmt: skip
COMPASS = {
    "n": Fraction(0), "ne": Fraction(1, 8), "e": Fraction(1, 4), "se": Fraction(3, 8), "s": Fraction(1, 2),
    "sw": Fraction(5, 8), "w": Fraction(3, 4), "nw": Fraction(7, 8),
    "north": Fraction(0), "east": Fraction(1, 4), "south": Fraction(1, 2), "west": Fraction(3, 4),
}  # fmt: skip
SIDES = {"f": Fraction(0), "b": Fraction(1, 2), "r": Fraction(1, 4), "l": Fraction(3, 4), "h": Fraction(0)}
"""Letters for the walls of a room; they are facings only where the column is one."""
_ARROWS = {
    "^": Fraction(0), "↑": Fraction(0), ">": Fraction(1, 4), "↓": Fraction(1, 2), "v": Fraction(1, 2),
    "<": Fraction(3, 4), "←": Fraction(3, 4), "↗": Fraction(1, 8), "↘": Fraction(3, 8), "↙": Fraction(5, 8),
    "↖": Fraction(7, 8),
}  # fmt: skip
_ROUND_FACINGS = words_in(
    "( ) [ ] { } facing face faces see sees to at the wall hand - h o'clock o'clk o'cl o'c oclock clock o "
    "still now = . : * side you stay again same hrs towards looking look °"
)
HOURS = {str(hour): Fraction(hour % 12, 12) for hour in range(1, 13)}
_LONGEST_FACING = 10
"""Tokens of a cell; what is longer tells more than a facing."""
QUARTERS = frozenset({"12", "3", "6", "9"})


def number_of(token: Token) -> int | None:
    """Return the number that a token is, in digits or in a word up to eight."""
    if token.kind == "number":
        return int(token.text[:6])
    return _NUMBERS.index(token.low) + 1 if token.low in _NUMBERS else None


def numbers_in(cell: Sequence[Token]) -> list[int]:
    """Return the numbers of a cell."""
    return [number for token in cell if (number := number_of(token)) is not None]


def wall_number(cell: Sequence[Token]) -> int | None:
    """Return the number of the wall that a cell names and nothing else: "3", "wall 3", "W3", "3rd", "third", "III"."""
    words = [token for token in cell if token.low not in _ROUND_WALLS]
    if len(words) != 1 or words[0].kind not in ("number", "word"):
        return None
    low = words[0].low
    if low.isdecimal():
        return int(low[:3])
    joined = low[1:] if low[0] == "w" and low[1:].isdecimal() else ""
    return int(joined[:3]) if joined else numeral(low) or None


def says_how_much(cell: Sequence[Token]) -> bool:
    """Whether a cell of a table of walls says how much is danced: "1-16", "16 counts, ...", "first 8", "everything"."""
    return cell[0].kind == "number" or all(token.kind == "number" or token.low in _HOW_MUCH for token in cell)


def is_count(cell: Sequence[Token]) -> bool:
    """Whether a cell holds counts and nothing else: "1&2", "5-6", "& 7", "count 3", "one"."""
    words = [token for token in cell if token.text not in _COUNT_MARKS or token.kind == "amp"]
    words = words[1:] if len(words) > 1 and words[0].low in NUMBERED else words
    number = any(token.kind == "amp" or number_of(token) is not None for token in words)
    lone = len(words) == 1 and words[0].text in ("a", "e", "and")
    return (number or lone) and all(
        token.kind == "amp" or token.low in _COUNT_WORDS or (number_of(token) or _HIGHEST + 1) <= _HIGHEST
        for token in words
    )


def feet_of(cell: Sequence[Token]) -> tuple[Token, ...]:
    """Return the feet of a cell that holds nothing else, as tokens R, L and both: "R L R", "RLR", "right foot"."""
    feet: list[Token] = []
    for token in cell:
        name = _FEET.get(token.low)
        if name is not None:
            feet.append(replace(token, kind="word", text=name, low=name.lower(), glued=False))
        elif token.kind == "word" and 1 < len(token.text) < 9 and set(token.text) <= {"R", "L"}:
            feet += [
                replace(token, text=foot, low=foot.lower(), column=token.column + at, glued=False)
                for at, foot in enumerate(token.text)
            ]
        elif token.low not in _FEET_GLUE and token.kind != "amp":
            return ()
    return tuple(feet)


def is_nothing(cell: Sequence[Token]) -> bool:
    """Whether a cell is empty or holds a dash."""
    return all(token.text in NOTHING for token in cell)


def is_ditto(cell: Sequence[Token]) -> bool:
    """Whether a cell says that the one above it holds here too."""
    return bool(cell) and all(token.low in DITTO for token in cell)


def facing_of(cell: Sequence[Token], key: dict[str, Fraction]) -> Fraction | None:
    """Return the facing that a cell states and nothing else; `key` gives the sheet's own marks for facings."""
    if len(cell) > _LONGEST_FACING:
        return None
    change = next((at for at, token in enumerate(cell) if token.text in (">", "/") and 0 < at < len(cell) - 1), None)
    if change is not None and facing_of(cell[:change], key) is not None:
        return facing_of(cell[change + 1 :], key)  # "12 > 9": the facing at the end
    stated = next((token.value for token in cell if token.kind in ("clock", "facing")), None)
    words = [token for token in cell if token.low not in _ROUND_FACINGS]
    if stated is not None:
        rest = [token for token in words if token.kind not in ("clock", "facing") and token.low not in ROOM]
        return stated if not rest else None
    if not words and len(cell) == 1:
        words = list(cell)
    if len(words) != 1:
        hour = [HOURS[token.text] for token in words if token.text in HOURS]
        named = all(token.text in HOURS or token.low in ROOM or token.low in key for token in words)
        return hour[0] if len(hour) == 1 and named else None
    low = words[0].low
    return next((table[low] for table in (key, HOURS, ROOM, COMPASS, SIDES, _ARROWS) if low in table), None)


def as_facing(cell: Sequence[Token], value: Fraction) -> Token:
    """Return a cell that states a facing as one token; its word is the hour, which no key of the sheet can explain."""
    first = cell[0]
    text = "".join(token.text if token.glued else f" {token.text}" for token in cell).strip()
    return Token("facing", text, clock(value), first.line, first.column, first.glued, value)
