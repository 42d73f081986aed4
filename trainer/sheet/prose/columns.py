"""Head lines of tables: they go, and what they say of their columns goes into the cells.

A column headed "left foot" or "right foot" names the foot of every step in it. In a column headed "facing",
"o'clock" or the like, words of the room are facings: home, front, right, back, left. A ditto mark there says
nothing new.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_HEADS = {
    "beat", "beats", "count", "counts", "ct", "cts", "step", "steps", "facing", "face", "faces", "wall", "dir",
    "direction",
    "o'clock", "clock", "what", "do", "this", "the", "feet", "foot", "left", "right", "lf", "rf", "l", "r",
    "notes", "note",
    "part", "section", "you", "action", "description", "movement", "move", "moves", "time", "timing", "no", "#",
    "where", "side", "turn", "weight",
    "ends", "end", "figure", "figures", "to", "how", "it", "does", "footwork", "look", "looking", "and", "/",
    "on", "bar", "bars",
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
_COUNTS = {"count", "counts", "ct", "cts", "beat", "beats", "timing", "no", "#", "bar", "bars"}
_DITTO = {'"', "''", "'", "-", "~", "do", "same"}


def with_columns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without heads of tables; cells in a foot's column begin with that foot."""
    done = []
    feet: dict[int, str] = {}
    looks: set[int] = set()
    joins: set[int] = set()
    after: set[int] = set()
    numbering: set[int] = set()
    for line in _read_down(lines):
        heads = [" ".join(token.low for token in cell) for cell in line.cells]
        if len([head for head in heads if head]) > 1 and _is_head(line):
            found = {place: _FEET[head] for place, head in enumerate(heads) if head in _FEET}
            feet = found if len(found) > 1 else {}
            looks = {place for place, head in enumerate(heads) if head in _LOOKS}
            joins = {place for place, head in enumerate(heads) if head in ("foot", "feet", "which foot")}
            numbering = {place for place, head in enumerate(heads) if head in ("part", "section", "eight", "block")}
            told = [
                place
                for place, head in enumerate(heads)
                if head and head not in _COUNTS | _LOOKS and place not in joins
            ]
            after = {place for place in joins if told and place > told[0]}
            joins -= after
            continue
        if len(heads) < 2:
            feet = {}
        line = _without_cells(line, numbering) if numbering and len(heads) > 2 else line
        line = _joined(line, joins) if joins and len(heads) > 1 else line
        line = _in_brackets(line, after) if after and len(heads) > 1 else line
        line = _with_looks(line, looks) if looks and len(heads) > 1 else line
        done.append(_with_feet(line, feet) if feet else line)
    return tuple(done)


def _without_cells(line: Line, places: set[int]) -> Line:
    """Return a line with the cells that only number its section empty; the other cells keep their places."""
    tokens: list[Token] = []
    cell = 0
    for token in line.tokens:
        if token.text == BREAK:
            cell += 1
        elif cell in places and (token.kind == "number" or len(token.text) == 1):
            continue
        tokens.append(token)
    return replace(line, tokens=tuple(tokens))


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


def _in_brackets(line: Line, after: set[int]) -> Line:
    """Return a line with the cell of a column of feet, that stands after the steps, in brackets behind them."""
    tokens: list[Token] = []
    cell, open_bracket = 0, False
    for token in line.tokens:
        if token.text == BREAK:
            cell += 1
            if open_bracket:
                tokens.append(replace(token, text=")", low=")"))
            open_bracket = cell in after
            if open_bracket:
                tokens.append(replace(token, text="(", low="("))
                continue
        tokens.append(token)
    if open_bracket:
        tokens.append(replace(tokens[-1], kind="mark", text=")", low=")", value=None))
    return replace(line, tokens=tuple(tokens))


_FOOT_CELLS = {"r", "l", "rf", "lf", "right", "left", "b", "both", "-"}


def _read_down(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with rows of counts, of feet where there are such, and of steps below made one line."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        line, below, third = lines[at], *[lines[at + ahead] if at + ahead < len(lines) else None for ahead in (1, 2)]
        if below is not None and below.number == line.number + 1 and _over(line, below):
            if third is not None and third.number == below.number + 1 and _are_feet(below):
                done.append(_paired(line, _with_feet_of(below, third)))
                at += 3
            else:
                done.append(_paired(line, below))
                at += 2
            continue
        done.append(line)
        at += 1
    return done


def _are_feet(line: Line) -> bool:
    return all(token.low in _FOOT_CELLS for cell in _cells(line) for token in cell)


def _with_feet_of(feet: Line, steps: Line) -> Line:
    """Return the row of steps with each step's foot before it; an hour in one more cell is the facing at its end."""
    tokens: list[Token] = []
    cells = _cells(steps)
    for place, cell in enumerate(cells):
        gap = replace(cell[0], kind="mark", text=BREAK, low=BREAK, glued=False)
        foot = [token for token in (_cells(feet)[place] if place < len(_cells(feet)) else ()) if token.text != "-"]
        last = [_as_facing(cell[0])] if place >= len(_cells(feet)) else list(cell)
        if place and place < len(_cells(feet)):
            tokens.append(gap)
        tokens += [*(replace(token, column=cell[0].column) for token in foot), *last]
    return replace(steps, tokens=tuple(tokens))


def _cells(line: Line) -> list[tuple[Token, ...]]:
    return [cell for cell in line.cells if cell]


def _over(above: Line, line: Line) -> bool:
    """Whether a line holds nothing but counts, and the one below it a step for each, or for some together."""
    counts, steps = _row(above), _cells(line)
    if any(cell[0].low in _LOOKS for cell in _cells(above)):
        steps = steps[:-1]
    return len(counts) > 2 and len(steps) > 1 and all(map(_is_count, counts)) and not any(map(_is_count, steps))


def _row(line: Line) -> list[tuple[Token, ...]]:
    """The cells of a row of counts: without a name in front and without the head of a column of facings."""
    cells = _cells(line)
    if cells and len(cells[0]) < 3 and not _is_count(cells[0]):
        cells = cells[1:]
    return [cell for cell in cells if cell[0].low not in _LOOKS]


def _is_count(cell: Sequence[Token]) -> bool:
    words = ("a", "e", "-", "count", "counts", "and")
    return all(token.kind in ("number", "amp") or token.low in words for token in cell)


def _paired(counts: Line, steps: Line) -> Line:
    """Return one line: each step after the counts that stand over it, by their columns."""
    cells = _cells(steps)
    looks = any(cell[0].low in _LOOKS for cell in _cells(counts))
    facing = cells.pop() if looks and len(cells) > 1 else ()
    starts = [cell[0].column for cell in cells]
    above: list[list[Token]] = [[] for _ in cells]
    row = _row(counts)
    for place, cell in enumerate(row):
        for token in cell:
            under = place if len(row) == len(cells) else sum(start <= token.column + 1 for start in starts) - 1
            above[max(under, 0)].append(token)
    tokens: list[Token] = []
    named = [token for cell in _cells(counts)[:1] for token in cell if not _is_count(cell)]
    if named and named[0].low not in _LOOKS:
        tokens += named
    for over, cell in zip(above, cells, strict=True):
        gap = replace(cell[0], kind="mark", text=BREAK, low=BREAK, glued=False)
        tokens += [*([gap] if tokens else []), *over, *([gap] if over else []), *cell]
    if facing:
        tokens.append(_as_facing(facing[0]))
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
