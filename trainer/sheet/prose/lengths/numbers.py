"""Numbers of a sheet that may say how many counts some words take: "(4)", "4 b.", "- 2 cts", "..... 8", "for two".

Each has its dress: the signs and the noun about it. Numbers in one dress have one meaning through a sheet; what it is
told from all of them (`ways.py`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

UNITS = {
    "b", "bt", "bts", "beat", "beats", "c", "ct", "cts", "cnt", "cnts", "count", "counts", "cs",
}  # fmt: skip
_LEADS = {
    "for", "over", "takes", "take", "taking", "lasts", "to", "till", "til", "until", "by", "upto", "reach", "ends",
    "makes", "in",
}  # fmt: skip
_NOUNS = {"beat", "beats", "count", "counts", "ct", "cts"}
_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_SIGNS = {"/", "*", "=", "-", ">", ":", "~", '"', "'", "#", "@", "+", "\\", "_", "^", BREAK, "•", "!", "."}
_CLOSES = {",", ".", ";", "+", BREAK, ":", "(", "[", "!", ")", "&"}
_JOINS = {"-", "/", "&", "+", ",", "x", "to", "and", "through", "thru"}
"""Between two numbers these make them counts, or a list."""
_ORDINALS = {
    "st", "nd", "rd", "th", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "last", "next",
}  # fmt: skip
_PARTS = {",", ";", ".", ":", "+", BREAK, "and", "then"}
"""What stands before a number that opens a clause."""
_NEAR = 3
"""So near behind a number a facing is stated of its words."""
_MOST = 64


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number and its dress, as tokens first to last (exclusive) of a line."""

    index: int
    """Of its line."""
    first: int
    last: int
    value: int
    dress: tuple[str, ...]
    """What stands about it: the sign or bracket before it, whether a noun follows, the sign after it, its place."""


def numerals_of(lines: Sequence[Line], *, opening: bool) -> list[Numeral]:
    """Return the numbers of some lines that may be lengths, in order: those that open their words, or close them."""
    return [found for index, line in enumerate(lines) for found in _in_line(line.tokens, index, opening=opening)]


def _in_line(tokens: Sequence[Token], index: int, *, opening: bool) -> Iterator[Numeral]:
    end = 0
    for at in range(len(tokens)):
        value = _value(tokens[at])
        if value is None or _counts_on(tokens, at):
            continue
        found = _dressed(tokens, at, index, value, opening=opening)
        if found is not None and found.first >= end:
            end = found.last
            yield found


def _value(token: Token) -> int | None:
    if token.kind == "number" and token.text[0] != "0" and int(token.text) <= _MOST:
        return int(token.text)
    return NUMBERS.get(token.low) if token.kind == "word" else None


def _counts_on(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is one of several counts, or names a section: 1&2, 5-6, 3 4, "five to eight", "2nd 8"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    before = tokens[at - 1] if at else None
    if after is not None and (after.kind == "number" or (after.kind == "amp" and after.glued)):
        return True
    if before is not None and (before.kind == "number" or (before.kind == "amp" and tokens[at].glued)):
        return True
    if before is not None and before.low in _ORDINALS:
        return True
    ahead = tokens[at + 2] if at + 2 < len(tokens) else None
    if after is not None and after.low in _JOINS and ahead is not None and _value(ahead) is not None:
        return True
    behind = tokens[at - 2] if at > 1 else None
    return before is not None and before.low in _JOINS and behind is not None and _value(behind) is not None


def _dressed(tokens: Sequence[Token], at: int, index: int, value: int, *, opening: bool) -> Numeral | None:
    """Return a number with its dress; None where it stands among words as one of them."""
    last = at + 1
    unit = last < len(tokens) and tokens[last].low in UNITS
    last += unit
    if unit and last < len(tokens) and tokens[last].text == "." and tokens[last].glued and len(tokens[at + 1].text) < 4:
        last += 1
    first = at
    if first and tokens[first - 1].low in _NOUNS and not unit:
        first -= 1
        unit = True
    lead = bool(first) and tokens[first - 1].low in _LEADS
    if lead:
        first -= 1
        if first and tokens[first - 1].low in ("up", "that", "this", "now"):
            first -= 1
    before = tokens[first - 1].text if first else ""
    after = tokens[last].text if last < len(tokens) else ""
    spelled = tokens[at].kind == "word"
    noun = "unit" if unit else ""
    if before in _BRACKETS and after == _BRACKETS[before]:
        return Numeral(index, first - 1, last + 1, value, (before, noun, after))
    if opening:
        stands = first == 0 or before in _PARTS
        return _opening(tokens, first, last, index, value, noun) if stands else None
    if spelled and not (unit or lead):
        return None
    signed = first
    while signed and tokens[signed - 1].text in _SIGNS and tokens[signed - 1].text != ".":
        signed -= 1
    sign = tokens[signed].text if signed < first else "lead" if lead else ""
    if signed == 0:
        return None
    if sign and after == sign and after != BREAK:
        return Numeral(index, signed, last + 1, value, (sign, noun, after))
    # "pivot 1/4 left 2 to face 9"
    faced = any(token.kind == "facing" for token in tokens[last : last + _NEAR])
    stopped = tokens[last - 1].text == "." or faced
    if last < len(tokens) and not (stopped or after in _CLOSES or after in _SIGNS):
        return None
    return Numeral(index, signed, last, value, (sign, noun, ""))


def _opening(tokens: Sequence[Token], first: int, last: int, index: int, value: int, noun: str) -> Numeral | None:
    """Return a number that opens its line or clause, with the sign after it."""
    until = last
    while until < len(tokens) and tokens[until].text in (":", "-", ")", ".", BREAK, "/", "=", ">", "~", "*", "x"):
        until += 1
    if until == len(tokens) or tokens[until].kind == "mark" or tokens[until].kind == "facing":
        return None
    sign = tokens[until - 1].text if until > last and not noun else ""
    if not (sign or noun or first == 0):
        return None
    return Numeral(index, first, until, value, ("opens", noun, sign))
