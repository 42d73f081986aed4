"""A sheet's own marks for facings: short names of walls that its key explains, hours after an arrow at the line's end.

"FW = front wall, LW = left wall (9:00)" makes FW and LW facings wherever they stand; of names of one letter only those
that stand by themselves in a cell or in brackets. "-> 3" at the ends of at least two lines, and nothing but 12, 3, 6
and 9 there, tells where they end. A sign that has nothing but hours behind it, "@9" and "@ 6", marks facings wherever
it stands.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_MEANS = {"=", ":", "-", "means", "is", "for"}
_LONGEST = 3
"""Letters of a short name."""
_OFTEN = 3
"""So often a letter with an hour stands in a sheet that writes facings so."""
_SIGNS = set('@^~#*=>«»"$%§¶†‡°')
"""Signs that a teacher may put before an hour."""
_AT = "@"
"""Before an hour it means nothing else, however seldom it stands."""
_BEFORE = {'"', "'", "_", ">", "=", "@", "^", "*", "~", "!"}
_AFTER = {'"', "'", "_", "<", "°", "º", "*", "~", "^", "!", ">"}
_MOST_MARKS = 2
_COMPASS = {"N": Fraction(0), "E": Fraction(1, 4), "S": Fraction(1, 2), "W": Fraction(3, 4)}
_OPENED = {"<", "(", "[", "{", ">", "@", "=", BREAK, "^"}
_CLOSED = {">", ")", "]", "}", "^"}
_EDGES = {BREAK, "(", ")", "[", "]", "<", ">", "{", "}"}


def with_own_marks(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, whose facings are tokens already, with the sheet's own marks for facings as such tokens."""
    lines = _with_compass_ends(_with_ends(lines))
    key, telling = _key(lines)
    pointed = _pointed(lines)
    letters = _hour_letters(lines)
    signs = _hour_signs(lines)
    return tuple(
        replace(
            line,
            tokens=_with_signs(
                _with_hours(_marked(line.tokens, {} if index in telling else key, pointed=index in pointed), letters),
                signs,
            ),
        )
        for index, line in enumerate(lines)
    )


def with_lettered_hours(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with hours that a letter marks as clock times, so that lists of walls are read by them: "h9"."""
    letters = _hour_letters(lines)
    if not letters:
        return tuple(lines)
    told = [_with_hours(line.tokens, letters) for line in lines]
    clocks = [
        tuple(replace(one, kind="clock") if one.kind == "facing" and one.text[:1].isalpha() else one for one in tokens)
        for tokens in told
    ]
    return tuple(replace(line, tokens=tokens) for line, tokens in zip(lines, clocks, strict=True))


def _hour_signs(lines: Sequence[Line]) -> set[str]:
    """Return the signs with nothing but hours behind them, more than one of the four plain ones among them."""
    found: dict[str, list[Token]] = {}
    for line in lines:
        for sign, token in pairwise(line.tokens):
            if _is_signed(sign, token):
                found.setdefault(sign.text, []).append(token)
    return {
        sign
        for sign, tokens in found.items()
        if all(_is_hour(token) for token in tokens)
        and (sign == _AT or len({token.text for token in tokens}) > 1)
        and (sign == _AT or len(tokens) >= _OFTEN)
    }


def _is_signed(sign: Token, token: Token) -> bool:
    """Whether a sign of no other use stands right before a number, a clock or a facing."""
    near = token.column - sign.column - len(sign.text) <= 1
    return sign.kind == "mark" and sign.text in _SIGNS and near and token.kind in ("number", "clock", "facing")


def _is_hour(token: Token) -> bool:
    return token.kind != "number" or token.text in HOURS


def _with_signs(tokens: tuple[Token, ...], signs: set[str]) -> tuple[Token, ...]:
    """Return the tokens; each sign for a facing is one with its hour."""
    if not signs:
        return tokens
    done: list[Token] = []
    for token in tokens:
        if done and done[-1].text in signs and _is_signed(done[-1], token):
            glued = done.pop().glued
            token = replace(token, glued=glued)
            token = _as_facing(token, HOURS[token.text]) if token.kind == "number" else token
        done.append(token)
    return tuple(done)


def _with_ends(lines: Sequence[Line]) -> list[Line]:
    """Return the lines; hours at their ends with the same marks about them, "12" or >12<, are facings."""
    ends = [_marked_end(line.tokens) for line in lines]
    found: dict[str, list[str]] = {}
    for marks, number, _ in ends:
        found.setdefault(marks, []).append(number)
    own = {
        marks
        for marks, numbers in found.items()
        if marks and len(numbers) >= _OFTEN and len(set(numbers)) > 1 and set(numbers) <= set(HOURS)
    }
    return [
        replace(line, tokens=_with_end(line.tokens, number, length)) if marks in own else line
        for line, (marks, number, length) in zip(lines, ends, strict=True)
    ]


def _with_compass_ends(lines: Sequence[Line]) -> list[Line]:
    """Return the lines; letters of the compass at their ends, marks about them, are facings: "<N>", "> S", "(E)".

    N is the front where nothing else is said. Common practice, no source.
    """
    ends = [_compass_end(line.tokens) for line in lines]
    found = [line.tokens[at].text for line, at in zip(lines, ends, strict=True) if at is not None]
    if len(found) <= _OFTEN or len(set(found)) < _MOST_MARKS:
        return list(lines)
    return [
        line
        if at is None
        else replace(
            line,
            tokens=(
                *line.tokens[:at],
                _as_facing(line.tokens[at], _COMPASS[line.tokens[at].text]),
                *line.tokens[at + 1 :],
            ),
        )
        for line, at in zip(lines, ends, strict=True)
    ]


def _compass_end(tokens: Sequence[Token]) -> int | None:
    """Return where a letter of the compass stands at the end of a line, with marks about it; None where none does."""
    last = len(tokens)
    while last and tokens[last - 1].text in _CLOSED and len(tokens) - last < _MOST_MARKS:
        last -= 1
    letter = last > 2 and tokens[last - 1].kind == "word" and tokens[last - 1].text in _COMPASS
    return last - 1 if letter and tokens[last - 2].text in _OPENED else None


def _marked_end(tokens: Sequence[Token]) -> tuple[str, str, int]:
    """Return the marks about a number at a line's end, the number, and how many tokens they are; else empty texts."""
    last = len(tokens)
    while last and tokens[last - 1].text in _AFTER and len(tokens) - last < _MOST_MARKS:
        last -= 1
    if last < 2 or tokens[last - 1].kind != "number":
        return "", "", 0
    first = last - 1
    while first and tokens[first - 1].text in _BEFORE and last - first <= _MOST_MARKS:
        first -= 1
    if not first or tokens[first - 1].kind == "number":
        return "", "", 0
    before, after = ("".join(token.text for token in part) for part in (tokens[first : last - 1], tokens[last:]))
    return f"{before} {after}" if before or after else "", tokens[last - 1].text, len(tokens) - first


def _with_end(tokens: tuple[Token, ...], number: str, length: int) -> tuple[Token, ...]:
    return (*tokens[:-length], _as_facing(tokens[-length], HOURS[number]))


def _hour_letters(lines: Sequence[Line]) -> set[str]:
    """Return the letters with nothing but hours joined to them, noon among them: F12, F3, F6 and F9."""
    found: dict[str, list[str]] = {}
    for line in lines:
        for letter, number in pairwise(line.tokens):
            if _is_joined(letter, number):
                found.setdefault(letter.low, []).append(number.text)
    return {
        letter
        for letter, numbers in found.items()
        if set(numbers) <= set(HOURS) and "12" in numbers and len(set(numbers)) > 1 and len(numbers) >= _OFTEN
    }


def _is_joined(letter: Token, number: Token) -> bool:
    return letter.kind == "word" and len(letter.text) == 1 and number.kind == "number" and number.glued


def _with_hours(tokens: tuple[Token, ...], letters: set[str]) -> tuple[Token, ...]:
    """Return the tokens; a letter for a facing with its hour is one facing."""
    if not letters:
        return tokens
    done: list[Token] = []
    for token in tokens:
        if done and _is_joined(done[-1], token) and done[-1].low in letters:
            letter = done.pop()
            text = letter.text + token.text
            token = _as_facing(replace(letter, text=text, low=text.lower()), HOURS[token.text])
        done.append(token)
    return tuple(done)


def _key(lines: Sequence[Line]) -> tuple[dict[str, Fraction], set[int]]:
    """Return the walls that the sheet gives short names, and the lines that explain them."""
    found: dict[str, Fraction] = {}
    telling: set[int] = set()
    for index, line in enumerate(lines):
        for name, sign, value in zip(line.tokens, line.tokens[1:], line.tokens[2:], strict=False):
            short = name.kind == "word" and name.text.isupper() and len(name.text) <= _LONGEST
            if short and sign.low in _MEANS and value.kind == "facing" and value.value is not None:
                found.setdefault(name.text, value.value)
                telling.add(index)
    return (found, telling) if len(set(found.values())) > 1 else ({}, set())


def _pointed(lines: Sequence[Line]) -> set[int]:
    """Return the lines that end with an arrow and an hour, if all arrows there point to hours."""
    ends = {
        index: line.tokens[-1].text
        for index, line in enumerate(lines)
        if len(line.tokens) > 3 and line.tokens[-1].kind == "number" and line.tokens[-2].text == ">"
        if "number" not in {token.kind for token in line.tokens[-4:-2]}
    }
    return set(ends) if len(ends) > 1 and set(ends.values()) <= set(HOURS) else set()


def _marked(tokens: tuple[Token, ...], key: Mapping[str, Fraction], *, pointed: bool) -> tuple[Token, ...]:
    done = [
        _as_facing(token, key[token.text]) if token.text in key and _stands(tokens, at) else token
        for at, token in enumerate(tokens)
    ]
    if pointed:
        done[-1] = _as_facing(done[-1], HOURS[done[-1].text])
    return tuple(done)


def _stands(tokens: Sequence[Token], at: int) -> bool:
    """Whether a short name stands for its wall here: one of a single letter only by itself."""
    if len(tokens[at].text) > 1:
        return True
    around = [tokens[near].text if 0 <= near < len(tokens) else BREAK for near in (at - 1, at + 1)]
    return len(tokens) > 1 and set(around) <= _EDGES


def _as_facing(token: Token, value: Fraction) -> Token:
    return replace(token, kind="facing", value=value)
