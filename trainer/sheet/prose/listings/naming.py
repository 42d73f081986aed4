"""How a row of a list names its wall: "Wall 3:", "W3 -", "(3)", "3rd wall", "Round 3:", "Third wall,", "6:00 |"."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import ROMAN
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

WALLS = words_in("wall walls w round rounds go pass repetition rep lap time rotation turn")
"""Words for one time through the dance; "turn" and "time" only after a number or before one."""
_SIDES = {
    "front": Fraction(0), "home": Fraction(0), "back": Fraction(1, 2), "rear": Fraction(1, 2),
}  # fmt: skip
_WAYS = {"right": Fraction(1, 4), "left": Fraction(3, 4)}
"""Sides of the room, where nothing but a mark follows."""
_PARTS = frozenset({":", ".", ")", "-", "=", BREAK, ",", ">", "]", "/"})
_SUFFIXES = frozenset({"st", "nd", "rd", "th"})
_UNITS = words_in(
    "eight eights six section sections half set block figure part phrase sixteen bar verse chorus count counts"
)
"""After a number these say that it names no wall: "First eight"."""
_OPENS = frozenset({"(", "[", "#", "•", "*", "-", BREAK, "{"})
_MOST = 30
"""Walls of a list."""


@dataclass(frozen=True, slots=True)
class Naming:
    """The name of a row's wall."""

    last: int
    """Index after it and the mark that parts it from the rest."""
    number: int | None
    """None: named by the facing that it begins with."""
    facing: Token | None = None
    worded: bool = False
    """A word for a wall stands in it, or a facing: it is no count."""
    parted: bool = True
    """A mark stands after it."""


def naming_of(tokens: Sequence[Token]) -> Naming | None:
    """Return how a line names a wall, if it begins so."""
    at = 0
    while at < len(tokens) and (tokens[at].text in _OPENS or is_picture(tokens[at])):
        at += 1
    named = _by_facing(tokens, at) or _by_roman(tokens, at) or _by_number(tokens, at)
    if named is None:
        return None
    last = named.last
    while last < len(tokens) and is_picture(tokens[last]):
        last += 1
    parted = False
    while last < len(tokens) and tokens[last].text in _PARTS and not (parted and tokens[last].text == BREAK):
        parted = True
        last += 1
    return Naming(last, named.number, named.facing, named.worded, parted)


def is_picture(token: Token) -> bool:
    """Whether a token is a small picture rather than a mark of writing."""
    return token.kind == "mark" and ord(token.text[0]) > 0x2000 and token.text not in ("✓", "✔", "✗", "✘")


def _by_number(tokens: Sequence[Token], at: int) -> Naming | None:
    start = at = _past_sign(tokens, at)
    worded = at < len(tokens) and tokens[at].low in WALLS
    at += worded
    if worded and at < len(tokens) and tokens[at].low in ("#", "no", "number", "nr", "."):
        at += 1
    if not worded and at < len(tokens) and tokens[at].low == "the":
        at += 1
    if at >= len(tokens):
        return None
    value, last, ordinal = number_at(tokens, at)
    if last == at or not 0 < value <= _MOST or (tokens[start].low in ("turn", "time", "go") and not worded):
        return None
    if not worded and last < len(tokens) and tokens[last].low in _UNITS:
        return None
    beyond = last
    while (
        not worded and beyond < len(tokens) and (is_picture(tokens[beyond]) or tokens[beyond].text in (".", ")", ":"))
    ):
        beyond += 1
    if (
        not worded
        and beyond + 1 < len(tokens)
        and tokens[beyond].low in WALLS
        and tokens[beyond + 1].text == str(value)
    ):
        # A number of the line before that of the wall: "1. Wall 1: all".
        return Naming(beyond + 2, value, None, worded=True)
    if last < len(tokens) and tokens[last].low in _SUFFIXES and tokens[last].glued:
        last, ordinal = last + 1, True
    if not worded and last < len(tokens) and tokens[last].low in WALLS:
        if not ordinal:
            return None
        last, worded = last + 1, True
        if tokens[last - 1].low == "time" and last < len(tokens) and tokens[last].low in ("through", "round"):
            last += 1
    return Naming(last, value, None, worded or ordinal)


def _past_sign(tokens: Sequence[Token], at: int) -> int:
    """Return the index after the sign of a number: "No. 1", "Nr 2"."""
    beyond = at + 1
    if at < len(tokens) and tokens[at].low in ("no", "nr", "number"):
        beyond += beyond < len(tokens) and tokens[beyond].text == "."
        return beyond if beyond < len(tokens) and number_at(tokens, beyond)[1] > beyond else at
    return at


def _by_roman(tokens: Sequence[Token], at: int) -> Naming | None:
    """Return a small Roman number with a mark behind it: "ii.", "iv)"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    marked = after is not None and after.text in (".", ")", ":", BREAK) and tokens[at].text in ROMAN
    return Naming(at + 1, ROMAN[tokens[at].text], None) if marked else None


def _by_facing(tokens: Sequence[Token], at: int) -> Naming | None:
    """Return a name such as "12:00", "Front wall (1)", "Nine o'clock (4)", "Front wall again (6)"."""
    facing, last = facing_at(tokens, at)
    if facing is None and at + 1 < len(tokens) and tokens[at].low in _WAYS and tokens[at + 1].text in (":", "="):
        facing, last = _as_facing(tokens[at], _WAYS[tokens[at].low]), at + 1
    if facing is None:
        return None
    while last < len(tokens) and tokens[last].low in ("wall", "again", "once", "more"):
        last += 1
    number = None
    if last + 2 < len(tokens) and tokens[last].text == "(" and tokens[last + 1].kind == "number":
        if tokens[last + 2].text != ")":
            return None
        number, last = int(tokens[last + 1].text[:3]), last + 3
    return Naming(last, number, facing, worded=True)


_NO_SIDE = {"half", "rock", "to", "into", "over", "foot", "step", "together", "coaster", "shuffle"}
"""Words after a side with which it is no wall: "back to the start", "left foot"."""


def facing_at(tokens: Sequence[Token], at: int) -> tuple[Token | None, int]:
    """Return the facing that stands at an index, as a token of that kind, and the index after it."""
    if at < len(tokens) and tokens[at].low == "the":
        at += 1
    if at >= len(tokens):
        return None, at
    token = tokens[at]
    if token.kind in ("clock", "facing"):
        return token, at + 1
    if token.low in _SIDES and (at + 1 == len(tokens) or tokens[at + 1].low not in _NO_SIDE):
        return _as_facing(token, _SIDES[token.low]), at + 1
    value, last, ordinal = number_at(tokens, at)
    if last > at and not ordinal and value in (12, 3, 6, 9) and last < len(tokens) and tokens[last].low == "o'clock":
        return _as_facing(token, Fraction(value % 12, 12)), last + 1
    return None, at


def _as_facing(token: Token, value: Fraction) -> Token:
    hour = (value.numerator * 12 // value.denominator) or 12
    text = f"{hour}:00"
    return Token(kind="clock", text=text, low=text, line=token.line, column=token.column, value=value)
