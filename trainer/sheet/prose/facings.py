"""Which words and numbers of a sheet state a facing: they become single tokens of kind facing.

"(3:00)", "[3]", "{6}", "<9:00>", "(6h)", "3 o'clock", "facing 12", "the back wall", "home". A lone number in
brackets is a facing only where all such numbers of the sheet, in that kind of bracket, are 12, 3, 6 or 9: else they
are counts. A column of a table whose cells hold nothing but clocks is a column of facings.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_HOURS = {"12": Fraction(0), "3": Fraction(1, 4), "6": Fraction(1, 2), "9": Fraction(3, 4)}
_HOUR_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11,
    "twelve": 12,
}  # fmt: skip
_OCLOCK = {"o'clock", "oclock", "o'clk", "o'cl", "o'c", "clock"}
_LOOKS = {"face", "faces", "facing", "facing:", "see", "sees", "looking", "look", "towards", "toward", "front", "now"}
_WALLS = {
    "back": Fraction(1, 2), "rear": Fraction(1, 2), "front": Fraction(0), "home": Fraction(0), "start": Fraction(0),
    "starting": Fraction(0), "opposite": Fraction(1, 2),
}  # fmt: skip
_SIDES = {"right": Fraction(1, 4), "left": Fraction(3, 4)}
_GLUE = {"the", "to", "at", "at:", "now", "your", "on", "our", "you", "are", "is"}


def with_facings(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with every stated facing as one token of kind facing."""
    brackets = _facing_brackets(lines)
    told = [replace(line, tokens=_read(line.tokens, brackets)) for line in lines]
    return tuple(_columns(told))


def _facing_brackets(lines: Sequence[Line]) -> set[str]:
    """Return the opening brackets whose lone numbers are hours."""
    numbers: dict[str, list[str]] = defaultdict(list)
    for line in lines:
        for opening, inside, closing in zip(line.tokens, line.tokens[1:], line.tokens[2:], strict=False):
            if inside.kind == "number" and _BRACKETS.get(opening.text) == closing.text:
                numbers[opening.text].append(inside.text)
    return {opening for opening, found in numbers.items() if set(found) <= set(_HOURS)}


def _read(tokens: Sequence[Token], brackets: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        length, value = _facing_at(tokens, at, brackets)
        if value is None:
            done.append(tokens[at])
            at += 1
            continue
        first = tokens[at]
        text = "".join(token.text if token.glued else f" {token.text}" for token in tokens[at : at + length]).strip()
        done.append(Token("facing", text, text.lower(), first.line, first.column, first.glued, value))
        at += length
    return tuple(done)


def _facing_at(tokens: Sequence[Token], at: int, brackets: set[str]) -> tuple[int, Fraction | None]:
    """Return how many tokens from `at` on state a facing, and which."""
    bracketed = _bracketed_at(tokens, at, brackets)
    if bracketed[1] is not None:
        return bracketed
    by_clock = _clock_at(tokens, at)
    return by_clock if by_clock[1] is not None else _wall_at(tokens, at)


def _bracketed_at(tokens: Sequence[Token], at: int, brackets: set[str]) -> tuple[int, Fraction | None]:
    closing = _BRACKETS.get(tokens[at].text)
    for length in (2, 3, 4, 5) if closing else ():
        if at + length < len(tokens) and tokens[at + length].text == closing:
            value = _inside(tokens[at + 1 : at + length], tokens[at].text in brackets)
            if value is not None:
                return length + 1, value
    return 0, None


def _clock_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """A clock time, an hour with o'clock, or an hour after a word of looking."""
    token = tokens[at]
    if token.kind == "clock":
        return 2 if _word(tokens, at + 1) in _OCLOCK else 1, token.value
    hour = _hour(token)
    if hour is not None and _word(tokens, at + 1) in _OCLOCK:
        return 2 + (_word(tokens, at + 2) == "wall"), hour
    if hour is not None and _word(tokens, at + 1) == "o" and _word(tokens, at + 2) in {"clock", "'clock"}:
        return 3, hour
    a_length = _word(tokens, at + 1) in {"counts", "count"}
    if token.kind == "number" and token.text in _HOURS and _looking(tokens, at) and not a_length:
        return 1, _HOURS[token.text]
    return 0, None


def _wall_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """A wall of the room: "the back wall", "-> front", "left-hand wall", "the back of the hall"."""
    low, following = tokens[at].low, [_word(tokens, at + ahead) for ahead in (1, 2, 3)]
    looking = _looking(tokens, at)
    arrow = ">" in [token.text for token in tokens[max(at - 1, 0) : at]] or (
        at > 1 and tokens[at - 1].low == "the" and tokens[at - 2].text == ">"
    )
    if low in _SIDES and following == ["-", "hand", "wall"]:
        return 4, _SIDES[low]
    if low in _SIDES and following[0] == "wall" and (arrow or looking):
        return 2, _SIDES[low]
    if arrow and low in (*_WALLS, *_SIDES) and at + 1 == len(tokens):
        return 1, {**_WALLS, **_SIDES}[low]
    if low not in _WALLS:
        return 0, None
    if following[0] == "wall":
        return 2, _WALLS[low]
    if following[0] == "of":
        inside = looking and following[2] in {"hall", "room", "stage", "floor"}
        return (4, _WALLS[low]) if inside else (0, None)
    if looking and low not in {"start", "starting", "opposite"}:
        return 1, _WALLS[low]
    return 0, None


def _inside(tokens: Sequence[Token], numbers_are_hours: bool) -> Fraction | None:
    """Return the facing that stands alone in brackets."""
    words = [
        token for token in tokens if token.low not in _LOOKS and token.low not in _GLUE and token.text not in ",.:"
    ]
    if not words:
        return None
    first = words[0]
    rest = {token.low for token in words[1:]}
    if first.kind == "clock" and rest <= _OCLOCK | {"wall", "h"}:
        return first.value
    if first.kind == "number" and first.text in _HOURS and not rest and (numbers_are_hours or len(words) < len(tokens)):
        return _HOURS[first.text]
    hour = _hour(first)
    if hour is not None and rest and rest <= _OCLOCK | {"wall", "h"} and rest != {"wall"}:
        return hour
    if first.low in _WALLS and first.low not in {"start", "starting"} and rest <= {"wall"}:
        return _WALLS[first.low]
    return None


def _hour(token: Token) -> Fraction | None:
    number = int(token.text) if token.kind == "number" and len(token.text) < 3 else _HOUR_WORDS.get(token.low, 0)
    return Fraction(number % 12, 12) if 1 <= number <= 12 else None


def _word(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].low if at < len(tokens) else ""


def _looking(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word of looking stands just before, glue words aside."""
    low = at - 1
    while low >= 0 and (tokens[low].low in _GLUE or tokens[low].text in ":="):
        low -= 1
    return low >= 0 and tokens[low].low in _LOOKS - {"front", "now"}


def _columns(lines: Sequence[Line]) -> list[Line]:
    """Turn the cells of a column of hours into facings; ditto marks there mean nothing new and go."""
    groups: dict[tuple[int, bool], list[int]] = defaultdict(list)
    for index, line in enumerate(lines):
        cells = line.cells
        if len(cells) > 1:
            groups[len(cells) - 1, True].append(index)
            groups[0, False].append(index)
    done = list(lines)
    for (_, last), members in groups.items():
        filled = [index for index in members if _cell(done[index], last=last)]
        hours = [index for index in filled if _column_hour(_cell(done[index], last=last)) is not None]
        dittos = [
            index
            for index in filled
            if all(token.text in {'"', "'", "-", "~"} for token in _cell(done[index], last=last))
        ]
        values = [_cell(done[index], last=last)[0].text for index in hours]
        if len(hours) < 2 or len(hours) + len(dittos) < 0.7 * len(filled) or _counts_up(values):
            continue
        for index in hours + dittos:
            done[index] = _with_column(done[index], last=last)
    return done


def _cell(line: Line, *, last: bool) -> tuple[Token, ...]:
    cells = [cell for cell in line.cells if cell] if last else list(line.cells)
    if last and len(cells) < 2:
        return ()
    return cells[-1] if last else cells[0]


def _column_hour(cell: Sequence[Token]) -> Fraction | None:
    rest = {token.low for token in cell[1:]}
    if cell and cell[0].kind == "facing" and len(cell) == 1:
        return cell[0].value
    if cell and cell[0].kind == "number" and cell[0].text in _HOURS and rest <= {"h", ".", "wall", *_OCLOCK}:
        return _HOURS[cell[0].text]
    return None


def _counts_up(values: Sequence[str]) -> bool:
    """Whether the numbers rise like counts: 3, 6, 9, 12 in that order."""
    return (
        len(values) > 2
        and values == sorted(values, key=lambda v: int(v) if v.isdigit() else 0)
        and len(set(values)) == len(values)
    )


def _with_column(line: Line, *, last: bool) -> Line:
    cell = _cell(line, last=last)
    value = _column_hour(cell)
    inside = {id(token) for token in cell}
    kept = [token for token in line.tokens if id(token) not in inside]
    if value is None:
        return replace(line, tokens=tuple(kept))
    first = cell[0]
    facing = Token("facing", first.text, first.low, first.line, first.column, first.glued, value)
    # A facing in a first column is that of the line's end all the same.
    while kept and kept[-1].text == BREAK:
        kept.pop()
    while kept and kept[0].text == BREAK and not last:
        kept.pop(0)
    return replace(line, tokens=(*kept, facing))
