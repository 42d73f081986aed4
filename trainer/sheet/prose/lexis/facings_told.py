"""Facings and walls of the room in a sentence about the order: "9 o'clock", "the back", "the right-hand wall"."""

import re
from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES, NUMBERS
from trainer.sheet.prose.words import Token

_OCLOCK = {"o'clock", "oclock", "h", "clock", "o'clk"}
WAYS = {
    "back": Fraction(1, 2), "rear": Fraction(1, 2), "front": Fraction(0), "home": Fraction(0),
    "opposite": Fraction(1, 2), "right": Fraction(1, 4), "left": Fraction(3, 4),
}  # fmt: skip
WALL_WORDS = {"wall", "walls"}
_TOWARDS = {"facing", "face", "faces", "faced", "looking", "look", "at", "to", "towards", "on", "see", "sees", "turned"}
_COMING = {"come", "comes", "came", "are", "you're", "ur"}


def facing_lexeme(tokens: Sequence[Token], at: int) -> Lexeme | None:
    token = tokens[at]
    low = [one.low for one in tokens[at : at + 4]] + [""] * 4
    if token.kind in ("clock", "facing") and token.value is not None:
        named = next((word for word in ("walls", "wall") if token.low.endswith(word)), "")
        if named:
            return Lexeme("f", at, at + 1, facing=token.value, text=named)
        return _faced(tokens, at, at + 1 + (low[1] in _OCLOCK), token.value)
    if (
        token.low == "o"
        and at + 1 < len(tokens)
        and tokens[at + 1].glued
        and (hour := hour_of(tokens[at + 1])) is not None
    ):
        return Lexeme("f", at, at + 2, facing=hour)
    hour = hour_of(token)
    if hour is not None:
        if low[1] in _OCLOCK:
            return _faced(tokens, at, at + 2, hour)
        if low[1] == "o" and low[2:4] == ["'", "clock"]:
            return _faced(tokens, at, at + 4, hour)
    if low[0] in ("new", "other") and low[1] in ("front", "back"):
        return Lexeme("", at, at + 2)
    if low[0] == "back" and low[1] in ("at", "on", "to", "facing") and {"front", "home", "12"} & set(low[2:4]):
        return Lexeme("", at, at + 1)
    way = WAYS.get(low[0])
    if way is None or low[1] in ("of", "foot", "rock", "toe", "heel"):
        return None
    return _way(tokens, at, way, low)


def _way(tokens: Sequence[Token], at: int, way: Fraction, low: Sequence[str]) -> Lexeme | None:
    """A wall of the room by its name, or a word that says where one looks."""
    if low[1] in WALL_WORDS:
        return Lexeme("f", at, at + 2, facing=way, text=low[1])
    if low[1:3] == ["-", "hand"] and low[3] in WALL_WORDS:
        return Lexeme("f", at, at + 4, facing=way, text=low[3])
    before = [one.low for one in tokens[max(at - 2, 0) : at]]
    if low[0] in ("right", "left"):
        return None
    if low[0] == "home" and before[-1:] and before[-1] in _COMING:
        return Lexeme("f", at, at + 1, facing=way)
    numbered = at > 1 and tokens[at - 1].kind == "number" and tokens[at - 2].low in WALL_WORDS | {"w"}
    if numbered and (at + 1 == len(tokens) or tokens[at + 1].kind == "mark" or low[1] in ("with", "again", "and")):
        return Lexeme("f", at, at + 1, facing=way)
    aimed = before[-1:] == ["the"] or (bool(before) and before[-1] in _TOWARDS - {"to", "on"})
    return Lexeme("f", at, at + 1, facing=way) if aimed or low[0] == "front" else None


def _faced(tokens: Sequence[Token], at: int, last: int, facing: Fraction) -> Lexeme:
    """A clock time; with the word wall after it it names a wall of the room."""
    after = tokens[last] if last < len(tokens) else None
    numbered = last + 1 < len(tokens) and tokens[last + 1].kind == "number"
    if after is not None and after.low in WALL_WORDS and not numbered:
        return Lexeme("f", at, last + 1, facing=facing, text=after.low)
    return Lexeme("f", at, last, facing=facing)


def hour_of(token: Token) -> Fraction | None:
    written = token.kind == "number" and len(token.text) < 3
    number = int(token.text) if written else NUMBERS.get(token.low, 0)
    return Fraction(number % 12, 12) if 1 <= number <= 12 else None


_HOURS = {12: Fraction(0), 3: Fraction(1, 4), 6: Fraction(1, 2), 9: Fraction(3, 4)}
_NO_HOUR = {"count", "counts", "ct", "cts", "beat", "beats", "-", "to", "&", "of", "onwards", "on"}


_STARTS = {"start", "starts", "begin", "begins", "started", "starting", "beginning"}
_WALL = {"wall", "it", "the", "last", *EIGHT_PLACES, "ninth"}


def _begun_at(tokens: Sequence[Token], at: int, kinds: str) -> bool:
    """Whether "at" before a bare hour follows words of beginning a wall, or of a restart told with another hour."""
    if tokens[at - 1].low != "at":
        return False
    first = at - 1
    while first and (tokens[first - 1].low in _WALL or (tokens[first - 1].kind == "number" and first > at - 4)):
        first -= 1
    verb = tokens[first - 1].low if first else ""
    again = verb in ("restart", "restarts", "restarting") and tokens[at].kind == "word" and "f" in kinds
    return (verb in _STARTS and first < at - 1) or again


def hour_lexeme(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """A bare hour from which a wall is danced, straight after its number: "third wall from 12", "wall 2 (from 3)".

    Or at which it is begun: "you start wall 3 at six and restart at twelve".
    """
    named = "ot" if at and tokens[at - 1].low == "at" else "(?:wn|o[wt])"
    led = at and tokens[at - 1].low in ("from", "at")
    kinds = "".join(one.kind for one in found)
    if not led or not (re.search(named + "[,(]?I$", kinds) or _begun_at(tokens, at, kinds)):
        return None
    value, last, ordinal = number_at(tokens, at)
    after = tokens[last].low if last < len(tokens) else ""
    if last == at or ordinal or value not in _HOURS or after in _NO_HOUR:
        return None
    return Lexeme("f", at, last, facing=_HOURS[value])
