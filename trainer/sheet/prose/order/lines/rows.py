"""Walls told as the rows of a table rather than in sentences: "3 | 6:00 | 16 | restart", "12 - all of it"."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import FILLERS, HEADS
from trainer.sheet.prose.words import Token

_WAYS = {
    "front": Fraction(0), "home": Fraction(0), "right": Fraction(1, 4), "back": Fraction(1, 2), "left": Fraction(3, 4),
}  # fmt: skip
HOURS = {"12", "3", "6", "9"}
_OF_COUNTS = {"count", "counts", "ct", "cts", "beats", "-", "to", "&", "/"}
"""After a number these say that it is no hour."""
WALL_WORDS = {"w", "wall", "walls"}
_ROLES = {
    "wall": "wall", "w": "wall", "start": "start", "starts": "start", "begins": "start", "begin": "start",
    "from": "start", "counts": "counts", "count": "counts", "dance": "counts", "danced": "counts", "cts": "counts",
    "ends": "ends",
    "end": "ends", "facing": "start", "faces": "start", "face": "start", "finish": "ends", "finishes": "ends",
}  # fmt: skip


def facing_of(token: Token) -> Fraction | None:
    if token.kind in ("clock", "facing"):
        return token.value
    if token.kind == "number" and token.text in HOURS:
        return Fraction(int(token.text) % 12, 12)
    return _WAYS.get(token.low)


class Rows:
    """Reads the rows of a wall table: "3 | 6:00 | 16 | restart", "3  begins at 6, counts 1-16 ..."."""

    def __init__(self) -> None:
        self._open = False
        self._roles: list[str] = []
        self._rows = 0
        self._place = (0, 0)
        """Line and column of the latest row."""
        self._clocked = False
        """The rows are named by the facing with which their wall begins."""
        self._hours = False
        """A bare number after the wall's own is the facing that it begins with: "1  12  32", "2: 3, 32"."""

    def takes(self, tokens: Sequence[Token]) -> bool:
        """Return whether a line is a row of the table that stands open; a line that heads one opens it."""
        return tuple(tokens) != self.line(tokens)

    def goes_on(self, tokens: Sequence[Token]) -> bool:
        """Return whether a line is more of the row above it: set in further, and no row of its own."""
        line, column = self._place
        further = tokens[0].line == line + 1 and tokens[0].column > column
        if not (self._rows and self._open and further):
            return False
        self._place = (line + 1, column)
        return True

    def line(self, tokens: Sequence[Token]) -> tuple[Token, ...]:
        """Return a line with its row's number named as a wall, and its cells as what their column says."""
        words = [token for token in tokens if token.kind == "word"]
        numbers = [token for token in tokens if token.kind == "number"]
        if words and not numbers and _heads(words) and len(words) < 9:
            self._open, self._rows, self._clocked, self._hours = True, 0, False, False
            self._roles = self._roles_of(tokens)
            return tuple(tokens)
        if (by_clock := self._by_clock(tokens)) is not None:
            self._take(tokens)
            return by_clock
        tokens = self._numbered(tokens)
        first = next((at for at, token in enumerate(tokens) if token.text not in "|*-•("), None)
        if first is None or tokens[first].kind != "number" or not self._is_row(tokens, first):
            line, column = self._place
            self._open &= bool(self._rows and tokens and tokens[0].line == line + 1 and tokens[0].column > column)
            return tuple(tokens)
        self._take(tokens)
        if first + 2 < len(tokens) and tokens[first + 1].text in (".", ")", ":"):
            tokens = [*tokens[: first + 1], *tokens[first + 2 :]]
        row = self._cells(tokens[first:]) if self._roles else [token for token in tokens[first:] if token.text != "|"]
        if not self._roles and len(row) > 1 and row[1].kind in ("clock", "facing"):
            row.insert(1, replace(row[1], kind="word", text="starts", low="starts"))
        elif len(row) > 3 and row[1].text in "([{<" and row[2].kind in ("clock", "facing") and row[3].text in ")]}>":
            row[1:4] = [replace(row[1], kind="word", text="starts", low="starts"), row[2]]
        elif not self._roles and self._begins_at_an_hour(row):
            hour = replace(row[1], kind="facing", value=Fraction(int(row[1].text) % 12, 12))
            row[1:2] = [replace(row[1], kind="word", text="starts", low="starts"), hour]
        number = tokens[first]
        return (replace(number, kind="word", text="wall", low="wall"), *row)

    def _begins_at_an_hour(self, row: Sequence[Token]) -> bool:
        """Whether a bare hour follows the number of a wall; the first wall's tells whether such stand in all rows."""
        if len(row) < 3 or row[1].kind != "number" or row[1].text not in HOURS or row[2].low in _OF_COUNTS:
            return False
        if row[0].text == "1":
            self._hours = row[1].text == "12"
        return self._hours

    def _take(self, tokens: Sequence[Token]) -> None:
        self._rows += 1
        self._place = (tokens[-1].line, tokens[0].column)

    def _by_clock(self, tokens: Sequence[Token]) -> tuple[Token, ...] | None:
        """Return a row that names its wall by where it begins: "12 - all of it", "3 - as far as the sailor"."""
        if not self._open or len(tokens) < 2 or (self._rows and not self._clocked):
            return None
        facing = facing_of(tokens[0])
        parted = tokens[1].text in ("|", "-", ":", ")", ">", "=") or tokens[0].kind in ("clock", "facing")
        if facing is None or not parted or tokens[0].low in ("right", "left") or (not self._rows and facing != 0):
            return None
        self._clocked = True
        first = tokens[0]
        number = replace(first, kind="number", text=str(self._rows + 1), low=str(self._rows + 1))
        wall = replace(first, kind="word", text="wall", low="wall")
        starts = replace(first, kind="word", text="starts", low="starts")
        rest = [replace(token, text="-", low="-") if token.text == "|" else token for token in tokens[1:]]
        return wall, number, starts, replace(first, kind="facing", value=facing), *rest

    def _numbered(self, tokens: Sequence[Token]) -> Sequence[Token]:
        """Return a row with its ordinal as a plain number: "third - sections 1 to 3", "2nd: all"."""
        value, last, ordinal = number_at(tokens, 0) if tokens else (0, 0, False)
        after = tokens[last] if last < len(tokens) else None
        if not self._open or not ordinal or after is None or (after.kind != "mark" and after.low not in WALL_WORDS):
            return tokens
        last += after.low in WALL_WORDS
        if last >= len(tokens):
            return tokens
        number = replace(tokens[0], kind="number", text=str(value), low=str(value))
        return [number, *tokens[last:]]

    def _is_row(self, tokens: Sequence[Token], first: int) -> bool:
        after = tokens[first + 1] if first + 1 < len(tokens) else None
        if after is None or int(tokens[first].text[:6]) > 60:
            return False
        if after.low in ("begins", "starts", "start", "begin", "starting", "beginning"):
            return True
        return (
            self._open
            and (not after.glued or after.text in ".):")
            and after.low not in ("count", "counts", "ct", "cts", "walls")
        )

    def _roles_of(self, tokens: Sequence[Token]) -> list[str]:
        cells = _cells(tokens)
        if len(cells) < 3:
            return []
        return [next((_ROLES[token.low] for token in cell if token.low in _ROLES), "then") for cell in cells]

    def _cells(self, tokens: Sequence[Token]) -> list[Token]:
        row: list[Token] = []
        for role, cell in zip([*self._roles, *["then"] * 9], _cells(tokens), strict=False):
            if role == "counts" and len(cell) > 2 and cell[0].text == "1" and cell[1].text in ("-", "to"):
                # "1-16" is what is danced: so many counts.
                cell = cell[2:]
            for place, token in enumerate(cell):
                hour = token.kind == "number" and token.text in HOURS
                if role in ("start", "ends") and hour:
                    token = replace(token, kind="facing", value=Fraction(int(token.text) % 12, 12))
                if role == "start" and token.kind in ("facing", "clock"):
                    row.append(replace(token, kind="word", text="starts", low="starts"))
                if role == "counts" and token.kind in ("number", "word") and not place:
                    row.append(replace(token, kind="word", text="dance", low="dance"))
                row.append(token)
        return row


def _heads(words: Sequence[Token]) -> bool:
    """Whether the words of a line head a list of walls: "THE WALLS", "Wall, starts, counts, then"."""
    lows = {token.low for token in words}
    return bool(lows & (WALL_WORDS | {"order", "sequence"})) and lows <= HEADS | FILLERS | set(_ROLES)


def _cells(tokens: Sequence[Token]) -> list[list[Token]]:
    cells: list[list[Token]] = [[]]
    for token in tokens:
        if token.text == "|":
            cells.append([])
        else:
            cells[-1].append(token)
    if not cells[0]:
        cells.pop(0)
    if cells and not cells[-1]:
        cells.pop()
    return cells
