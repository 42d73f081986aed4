"""Head lines of tables: they go, and what they say of their columns goes into the cells.

A column headed "left foot" or "right foot" names the foot of every step in it. In a column headed "facing", "o'clock" or
the like, words of the room are facings: home, front, right, back, left. A ditto mark there says nothing new.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_HEADS = {
    "beat", "beats", "count", "counts", "ct", "cts", "step", "steps", "facing", "face", "faces", "wall", "dir", "direction",
    "o'clock", "clock", "what", "do", "this", "the", "feet", "foot", "left", "right", "lf", "rf", "l", "r", "notes", "note",
    "you", "action", "description", "movement", "move", "moves", "time", "timing", "no", "#", "where", "side", "turn", "weight",
    "to", "how", "it", "does", "footwork", "look", "looking", "and", "/", "on", "bar", "bars",
}  # fmt: skip
_FEET = {"left foot": "left", "right foot": "right", "lf": "left", "rf": "right", "left": "left", "right": "right"}


_LOOKS = {
    "facing",
    "face",
    "faces",
    "looking",
    "look",
    "wall",
    "o'clock",
    "clock",
    "dir",
    "direction",
    "you face",
    "facing wall",
}
_ROOM = {
    "home": Fraction(0), "front": Fraction(0), "right": Fraction(1, 4), "back": Fraction(1, 2), "left": Fraction(3, 4),
}  # fmt: skip
_DITTO = {'"', "''", "'", "-", "~", "do", "same"}


def with_columns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without heads of tables; cells in a foot's column begin with that foot."""
    done = []
    feet: dict[int, str] = {}
    looks: set[int] = set()
    joins: set[int] = set()
    for line in _read_down(lines):
        heads = [" ".join(token.low for token in cell) for cell in line.cells]
        if len([head for head in heads if head]) > 1 and _is_head(line):
            found = {place: _FEET[head] for place, head in enumerate(heads) if head in _FEET}
            feet = found if len(found) > 1 else {}
            looks = {place for place, head in enumerate(heads) if head in _LOOKS}
            joins = {place for place, head in enumerate(heads) if head in ("foot", "feet", "which foot")}
            continue
        if len(heads) < 2:
            feet = {}
        line = _joined(line, joins) if joins and len(heads) > 1 else line
        line = _with_looks(line, looks) if looks and len(heads) > 1 else line
        done.append(_with_feet(line, feet) if feet else line)
    return tuple(done)


def _joined(line: Line, joins: set[int]) -> Line:
    """Return a line with the cell of a column of feet put before the words of the next cell."""
    tokens: list[Token] = []
    cell = 0
    for token in line.tokens:
        if token.text == BREAK:
            cell += 1
            if cell - 1 in joins:
                continue
        elif cell in joins and token.text == "-":
            continue
        tokens.append(token)
    return replace(line, tokens=tuple(tokens))


def _read_down(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with a row of counts and the row of steps below it made one line: count, steps, count, steps."""
    done: list[Line] = []
    for line in lines:
        above = done[-1] if done else None
        if above is not None and _over(above, line):
            done[-1] = _paired(above, line)
        else:
            done.append(line)
    return done


def _cells(line: Line) -> list[tuple[Token, ...]]:
    return [cell for cell in line.cells if cell]


def _over(above: Line, line: Line) -> bool:
    counts, steps = _cells(above), _cells(line)
    if len(counts) < 3 or len(counts) != len(steps):
        return False
    called = [cell for cell in counts if cell[0].low not in _LOOKS]
    return all(_is_count(cell) for cell in called) and sum(_is_count(cell) for cell in steps) <= 1


def _is_count(cell: Sequence[Token]) -> bool:
    return all(
        token.kind in ("number", "amp") or token.low in ("a", "e", "-", "count", "counts", "and") for token in cell
    )


def _paired(counts: Line, steps: Line) -> Line:
    tokens: list[Token] = []
    for count, step in zip(_cells(counts), _cells(steps), strict=True):
        gap = replace(step[0], kind="mark", text=BREAK, low=BREAK, glued=False)
        if count[0].low in _LOOKS:
            tokens.append(_as_facing(step[0]))
        else:
            tokens += [*([gap] if tokens else []), *count, gap, *step]
    return replace(steps, tokens=tuple(tokens))


def _as_facing(token: Token) -> Token:
    """Return an hour, or a wall of the room, as a facing."""
    hour = int(token.text) % 12 if token.text.isdigit() and len(token.text) < 3 else None
    value = _ROOM.get(token.low, token.value) if hour is None else Fraction(hour, 12)
    return token if value is None else replace(token, kind="facing", value=value)


def _is_head(line: Line) -> bool:
    words = [token.low for token in line.tokens if token.text != BREAK and token.kind != "mark"]
    return bool(words) and all(word in _HEADS for word in words)


def _with_looks(line: Line, looks: set[int]) -> Line:
    """Return a line with the cells of a column of facings as facings, at its end."""
    tokens: list[Token] = []
    facings: list[Token] = []
    cell = 0
    for token in line.tokens:
        if token.text == BREAK:
            cell += 1
        if cell in looks and token.text != BREAK and len(line.cells[cell]) <= 2:
            if token.low in _ROOM:
                facings.append(replace(token, kind="facing", value=_ROOM[token.low]))
                continue
            if token.low in _DITTO or token.low in ("wall", "''"):
                continue
        tokens.append(token)
    while facings and tokens and tokens[-1].text == BREAK:
        tokens.pop()
    return replace(line, tokens=(*tokens, *facings))


def _with_feet(line: Line, feet: dict[int, str]) -> Line:
    tokens: list[Token] = []
    cell = 0
    fresh = True
    for token in line.tokens:
        if token.text == BREAK:
            cell, fresh = cell + 1, True
        elif fresh and token.kind in ("word", "number", "fraction"):
            if cell in feet:
                tokens.append(replace(token, kind="word", text=feet[cell], low=feet[cell], glued=False, value=None))
            fresh = False
        tokens.append(token)
    return replace(line, tokens=tuple(tokens))
