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
    "to", "how", "footwork", "look", "looking", "and", "/", "on", "bar", "bars",
}  # fmt: skip
_FEET = {"left foot": "left", "right foot": "right", "lf": "left", "rf": "right", "left": "left", "right": "right"}


_LOOKS = {"facing", "face", "faces", "looking", "look", "wall", "o'clock", "clock", "dir", "direction", "you face", "facing wall"}
_ROOM = {
    "home": Fraction(0), "front": Fraction(0), "right": Fraction(1, 4), "back": Fraction(1, 2), "left": Fraction(3, 4),
}  # fmt: skip
_DITTO = {'"', "''", "'", "-", "~", "do", "same"}


def with_columns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without heads of tables; cells in a foot's column begin with that foot."""
    done = []
    feet: dict[int, str] = {}
    looks: set[int] = set()
    for line in lines:
        heads = [" ".join(token.low for token in cell) for cell in line.cells]
        if len([head for head in heads if head]) > 1 and _is_head(line):
            found = {place: _FEET[head] for place, head in enumerate(heads) if head in _FEET}
            feet = found if len(found) > 1 else {}
            looks = {place for place, head in enumerate(heads) if head in _LOOKS}
            continue
        if len(heads) < 2:
            feet = {}
        line = _with_looks(line, looks) if looks and len(heads) > 1 else line
        done.append(_with_feet(line, feet) if feet else line)
    return tuple(done)


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
