"""Which words and numbers of a sheet state a facing: they become single tokens of kind facing.

"(3:00)", "[3]", "{6}", "<9:00>", "(6h)", "3 o'clock", "facing 12", "the back wall", "home". A lone number in
brackets is a facing only where all such numbers of the sheet, in that kind of bracket, are 12, 3, 6 or 9: else they
are counts. A column of a table whose cells hold nothing but clocks is a column of facings.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.facing.corners import corner_at
from trainer.sheet.prose.facing.hours_listed import listed_before
from trainer.sheet.prose.facing.own_marks import with_own_marks
from trainer.sheet.prose.facing.turned_to import turned_to
from trainer.sheet.prose.facing.walls_named import GLUE, HOURS, LOOKS, OCLOCK, SIDES, WALLS, hour, named_at
from trainer.sheet.prose.text.layout import BREAK, Line, taken_back
from trainer.sheet.prose.words import Token

_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">", "/": "/", "*": "*", "~": "~"}
_BOTH_WAYS = frozenset("/*~")
"""Marks that open as they close: a blank stands before them, and none inside."""
_BESIDE = {
    "this", "that", "that's", "thats", "you're", "ur", "we", "we're", "it's", "which", "should", "be", "again", "end",
    "ends", "ending", "finish", "finishing", "so", "way", "here", "still", "back", "it", "u",
}  # fmt: skip
"""Words that may stand beside a facing in its brackets: "(that's 3 o'clock again)"."""
_GREETING = 4
"""Words with which a named wall of the room stands in brackets."""
_NEAR = 8
"""Tokens on both sides of the margin among which a parted facing stands."""
_FACING = {"face", "faces", "facing", "fcg", "fc"}
"""Words of looking before a wall of one word in brackets."""
_SHORT_SIDES = {**SIDES, "r": SIDES["right"], "l": SIDES["left"]}


_HOURS_IN_WORDS = {"twelve", "three", "six", "nine"}
_IN_WORDS = _HOURS_IN_WORDS | {"one", "two", "four", "five", "seven", "eight"}
_INWARD = {"in", "centre", "center"}


def with_facings(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with every stated facing as one token of kind facing."""
    lines = _rejoined(lines)
    brackets = _facing_brackets(lines)
    if _bracket_walls(lines):
        lines = [replace(line, tokens=_with_sides(line.tokens)) for line in lines]
    told = [replace(line, tokens=_read(line.tokens, brackets)) for line in lines]
    return tuple(_columns(with_own_marks(told)))


def _rejoined(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with each facing that the margin parts on the line where it begins: "(three | o'clock)"."""
    return taken_back(lines, _parted)


def _parted(above: Line, line: Line) -> int:
    """Return how many tokens of a line belong to a facing that began on the line above."""
    first = line.tokens[0]
    if line.number != above.number + 1 or first.kind != "word" or first.text[0].isupper():
        return 0
    before, after = above.tokens[-_NEAR:], line.tokens[:_NEAR]
    both = (*before, *after)
    if any(token.text == BREAK for token in both):
        return 0
    edge = len(before)
    for at in range(edge):
        length, value = _facing_at(both, at, set())
        end = at + length
        if value is None or end <= edge or (end < len(both) and both[end].kind == "number"):
            continue
        while end < len(both) and both[end].kind == "mark" and both[end].glued:
            end += 1
        return end - edge
    return 0


def _facing_brackets(lines: Sequence[Line]) -> set[str]:
    """Return the opening brackets whose lone numbers are hours."""
    numbers: dict[str, list[str]] = defaultdict(list)
    worded: dict[str, list[str]] = defaultdict(list)
    for line in lines:
        for opening, inside, closing in zip(line.tokens, line.tokens[1:], line.tokens[2:], strict=False):
            tight = opening.text not in _BOTH_WAYS or (not opening.glued and inside.glued and closing.glued)
            if inside.kind == "number" and _BRACKETS.get(opening.text) == closing.text and tight:
                numbers[opening.text].append(inside.text)
            elif inside.low in _IN_WORDS and _BRACKETS.get(opening.text) == closing.text and tight:
                worded[opening.text].append(inside.low)
    plain = {opening for opening, found in numbers.items() if set(found) <= set(HOURS)}
    # "[nine] ... [three]"; "(one) ... (two) ... (three)" are counts.
    spelled = {opening for opening, found in worded.items() if set(found) <= _HOURS_IN_WORDS and len(set(found)) > 1}
    return (plain - worded.keys()) | (spelled - numbers.keys()) | (plain & spelled)


def _sides_at(tokens: Sequence[Token], at: int, sides: Mapping[str, Fraction]) -> Fraction | None:
    """Return the wall that stands alone after a word of looking in brackets: "(FACE REAR)"."""
    inside = [token.low for token in tokens[at : at + 4]]
    if len(inside) < 4 or _BRACKETS.get(inside[0]) != inside[3] or inside[1] not in _FACING:
        return None
    return sides.get(inside[2])


def _bracket_walls(lines: Sequence[Line]) -> bool:
    """Whether a sheet names walls by one word in brackets, so that left and right there are walls as well."""
    return any(_sides_at(line.tokens, at, WALLS) is not None for line in lines for at in range(len(line.tokens)))


def _with_sides(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return tokens with each "(FACE LEFT)" as a facing."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        value = _sides_at(tokens, at, SIDES)
        token = tokens[at]
        if value is None:
            done.append(token)
            at += 1
            continue
        text = f"({tokens[at + 1].text} {tokens[at + 2].text})"
        done.append(replace(token, kind="facing", text=text, low=text.lower(), value=value))
        at += 4
    return tuple(done)


def _read(tokens: Sequence[Token], brackets: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        if listed := listed_before(tokens, at):
            done += [_with_hour(token) for token in tokens[at : at + listed]]
            at += listed
        length, value = _facing_at(tokens, at, brackets)
        if value is None:
            done.append(tokens[at])
            at += 1
            continue
        first = tokens[at]
        text = "".join(token.text if token.glued else f" {token.text}" for token in tokens[at : at + length]).strip()
        done.append(Token("facing", text, text.lower(), first.line, first.column, first.glued, value))
        at += length
        for token in _listed_hours(tokens, at):
            done += (tokens[at], replace(token, kind="facing", value=HOURS[token.text]))
            at += 2
    return tuple(done)


def _with_hour(token: Token) -> Token:
    return replace(token, kind="facing", value=HOURS[token.text]) if token.text in HOURS else token


def _listed_hours(tokens: Sequence[Token], at: int) -> list[Token]:
    """Return the hours of a list that follows a facing, a comma before each: "facing 12, 9, 6, 3"."""
    listed: list[Token] = []
    while at + 1 < len(tokens) and tokens[at].text == "," and tokens[at + 1].text in HOURS:
        listed.append(tokens[at + 1])
        at += 2
    return listed if len(listed) > 1 and len({token.text for token in listed}) == len(listed) else []


def _facing_at(tokens: Sequence[Token], at: int, brackets: set[str]) -> tuple[int, Fraction | None]:
    """Return how many tokens from `at` on state a facing, and which."""
    bracketed = _bracketed_at(tokens, at, brackets)
    if bracketed[1] is not None:
        return bracketed
    told = turned_to(tokens, at)
    if told[1] is None:
        told = corner_at(tokens, at)
    return told if told[1] is not None else named_at(tokens, at)


def _bracketed_at(tokens: Sequence[Token], at: int, brackets: set[str]) -> tuple[int, Fraction | None]:
    closing = _BRACKETS.get(tokens[at].text)
    if tokens[at].text in _BOTH_WAYS and (tokens[at].glued or tokens[at].text not in brackets):
        return 0, None
    if closing and tokens[at + 1 : at + 2] and tokens[at + 1].low == "home" and at and tokens[at - 1].low in _INWARD:
        return 0, None  # "right in (home)": where the foot was
    for length in range(2, 9) if closing else ():
        if at + length < len(tokens) and tokens[at + length].text == closing:
            value = _inside(tokens[at + 1 : at + length], tokens[at].text in brackets)
            if value is not None:
                return length + 1, value
    return 0, None


def _inside(tokens: Sequence[Token], numbers_are_hours: bool) -> Fraction | None:
    """Return the facing that stands alone in brackets."""
    said = [token for token in tokens if token.low not in _BESIDE or token.low in WALLS]
    if len(said) > 1 and said[-1].kind == "number" and said[-2].low == "on":
        return None  # "(on 6)": a count
    words = [token for token in said if token.low not in LOOKS - {"front"} | GLUE and token.text not in ",.:="]
    while len(words) > 1 and words[0].low in ("back", "front") and words[1].low != "wall":
        words = words[1:]  # "(back to 12 o'clock)", "(we're back at the front)"
    if not words:
        return None
    first = words[0]
    rest = {token.low for token in words[1:]}
    if len(words) <= _GREETING and all(word.kind == "word" for word in words[:-1]) and words[-1].text.isalpha():
        first = words[-1] if words[-1].kind == "clock" else first  # "(hello, kitchen)"
        rest = set() if first.kind == "clock" else rest
    if first.kind == "clock" and rest <= OCLOCK | {"wall", "h"}:
        return first.value
    if first.kind == "number" and first.text in HOURS and not rest and (numbers_are_hours or len(words) < len(said)):
        return HOURS[first.text]
    told = hour(first)
    if told is not None and not rest and numbers_are_hours and first.low in _HOURS_IN_WORDS:
        return told
    if (
        told is not None
        and rest
        and rest != {"c"}
        and rest <= OCLOCK | {"wall", "h", "o", "/", "'", "c", "oc"}
        and rest != {"wall"}
    ):
        return told
    if first.low in WALLS and first.low not in {"start", "starting"} and rest <= {"wall"}:
        return WALLS[first.low]
    if first.low in _SHORT_SIDES and "wall" in rest and rest <= {"wall", "hand", "side", "-"}:
        return _SHORT_SIDES[first.low]
    return None


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
    if cell and cell[0].kind == "number" and cell[0].text in HOURS and rest <= {"h", ".", "wall", *OCLOCK}:
        return HOURS[cell[0].text]
    return None


def _counts_up(values: Sequence[str]) -> bool:
    """Whether the numbers rise like counts: 3, 6, 9, 12 in that order."""
    return (
        len(values) > 2
        and values == sorted(values, key=lambda v: int(v) if v.isdecimal() else 0)
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
