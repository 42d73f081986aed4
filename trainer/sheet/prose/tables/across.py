"""Tables whose counts stand in a row over the steps: one step a cell, row upon row, or feet between counts and steps.

A row of counts holds for the rows below it until another one comes. A row of nothing but feet gives them to the steps
of the row below. A row of steps with a label, or one that fills its cells, is danced by itself; a row that does not
carries on the cells above. What stands after the last count is the facing at the row's end.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import Cell, as_facing, facing_of, feet_of, is_ditto, is_nothing
from trainer.sheet.prose.tables.countrows import Slot, cells_of, is_count_row, label_of, slots_of, under
from trainer.sheet.prose.tables.grid import Parting, Row
from trainer.sheet.prose.tables.heads import is_heading
from trainer.sheet.prose.tables.words import danced, joined, parted_by_break, with_foot
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_ORDER = re.compile(r"\b(?:restarts?|walls?|here|then)\b")
_LETTERED = "abcdefgh"
_FILLED = 0.7
"""A row with fewer of its cells filled carries on the one above."""


class Across:
    """Tells the rows under rows of counts as lines in which each count stands before its words."""

    def __init__(self, parting: Parting) -> None:
        self._parting = parting
        self._lines: list[Line] = []
        self._slots: list[Slot] = []
        self._last: list[Slot] = []
        self._label: Cell = ()
        self._tail: Token | None = None
        self._at: Line | None = None
        self._labelled = False
        self._tailed = False
        self._strokes = 0
        self._feet: set[str] = set()
        self._short = False

    def lines_of(self, rows: Sequence[Row]) -> list[Line]:
        """Return the rows as lines; rows that are none of the table stay as they are."""
        for row in rows:
            if is_count_row(row, self._parting):
                self._close()
                self._open(row)
            elif not self._slots or not self._belongs(row):
                self._tell()
                self._lines.append(remark_of(row, self._lines))
            else:
                self._take(row)
        self._close()
        return self._lines

    def more_of(self, rows: Sequence[Row]) -> list[Line]:
        """Return rows of one more table under the counts of the last one."""
        self._lines, self._labelled = [], len(rows) > 1
        self._slots = [Slot(slot.counts, slot.column, slot.place) for slot in self._last]
        for place, row in enumerate(rows):
            self._take(row)
            numbered = len(self._label) == 1 and (place or self._label[0].kind == "number")
            if len(rows) == 1 or numbered:
                # What numbers the rows of an extra heads no other one: A and B, or 9 and 10, of a tag of two bars.
                self._label = ()
        self._close()
        return self._lines

    def numbers_more(self, rows: Sequence[Row]) -> bool:
        """Whether rows that fit are numbered, and each has its other cells filled as a row of steps has."""
        labels = [label_of(row, self._last, self._parting) if self._last else () for row in rows]
        numbers = [label[0].low for label in labels if len(label) == 1]
        if len(numbers) < len(rows) or not self.fits(rows):
            return False
        first = (
            _LETTERED.find(numbers[0]) if numbers[0] in _LETTERED else int(numbers[0]) if numbers[0].isdecimal() else -1
        )
        rising = [str(first + place) for place in range(len(rows))]
        lettered = list(_LETTERED[max(first, 0) : first + len(rows)])
        return len(self._last) > 1 and first >= 0 and numbers in (rising, lettered)

    def fits(self, rows: Sequence[Row]) -> bool:
        """Whether rows without counts of their own have a cell for each count of the last row of counts."""
        if self._parting == "gap" or not self._last:
            return False
        last = self._last[-1].place
        return all(len(row.filled) >= len(self._last) and last <= row.filled[-1] <= last + 1 for row in rows)

    def _open(self, row: Row) -> None:
        """Begin a row of counts."""
        self._slots, self._label = slots_of(row, self._parting)
        self._tail, self._at = None, None
        cells = cells_of(row, self._parting)
        self._strokes = row.line.source.count(BREAK)
        self._tailed = self._tailed or len(cells) > self._slots[-1].place + 1

    def _belongs(self, row: Row) -> bool:
        """Whether a row holds steps, or goes on with one of them."""
        cells = [cell for cell in cells_of(row, self._parting) if cell]
        if len(cells) != 1:
            return len(cells) > 1
        if self._at is None or is_heading(cells[0]):
            return False
        if self._parting == "stroke":
            held = row.filled[0] >= self._slots[0].place and row.line.source.count(BREAK) >= len(self._slots)
            return held and row.line.number == self._at.number + 1
        near = any(abs(slot.column - cells[0][0].column) <= 1 for slot in self._slots[1:])
        return row.line.number == self._at.number + 1 and near

    def _take(self, row: Row) -> None:
        """Take a row of feet or of steps."""
        label = label_of(row, self._slots, self._parting)
        placed, tail = under(row, self._slots, self._parting, tailed=self._tailed)
        filled = [cell for cell in placed if cell]
        if len(feet_of(label)) == 1 and len(label[0].text) > 1:
            self._take_foot(row, label, placed)
            return
        if self._faces(filled):
            for slot, cell in zip(self._slots, placed, strict=True):
                value = facing_of(cell, {}) if cell and not is_ditto(cell) else None
                slot.facing = None if value is None else as_facing(cell, value)
            return
        footed = all(feet_of(cell) or is_nothing(cell) for cell in filled) and any(map(feet_of, filled))
        more = not footed and self._is_more(placed, label, row)
        if not more:
            self._tell()
        for slot, cell in zip(self._slots, placed, strict=True):
            if footed:
                slot.feet = cell
            else:
                slot.words = joined(slot.words, cell, apart=False) if more else cell
        if not footed and not more:
            self._short = not placed[-1] and row.line.source.count(BREAK) < self._strokes
        self._labelled = self._labelled or bool(label)
        self._label = label or self._label
        self._at = row.line
        value = facing_of(tail, {}) if tail and not is_ditto(tail) else None
        if value is not None:
            self._tail = as_facing(tail, value)

    def _take_foot(self, row: Row, label: Cell, placed: Sequence[Cell]) -> None:
        """Take a row of what one foot does; the other foot has a row of its own."""
        foot = feet_of(label)[0]
        if foot.text in self._feet:
            self._tell()
        self._feet.add(foot.text)
        for slot, cell in zip(self._slots, placed, strict=True):
            if not is_nothing(cell):
                slot.words = joined(slot.words, with_foot(cell, replace(foot, line=row.line.number)), apart=True)
        self._at = row.line

    def _faces(self, filled: Sequence[Cell]) -> bool:
        """Whether a row below steps holds nothing but facings."""
        told = [cell for cell in filled if not is_ditto(cell)]
        if not any(slot.words for slot in self._slots) or all(map(feet_of, told)):
            return False
        return all(facing_of(cell, {}) is not None for cell in told)

    def _is_more(self, placed: Sequence[Cell], label: Cell, row: Row) -> bool:
        """Whether a row carries on the steps above: it has no label where rows have one, or leaves cells empty."""
        if not any(slot.words for slot in self._slots) or label or self._at is None:
            return False
        near = row.line.number == self._at.number + 1
        return near and (self._labelled or sum(map(bool, placed)) < _FILLED * len(placed))

    def _close(self) -> None:
        """Tell the steps gathered; their counts hold no more."""
        self._tell()
        self._last, self._slots = self._slots or self._last, []

    def _tell(self) -> None:
        """Tell the steps gathered; more rows may stand under their counts."""
        if self._at is None or not any(slot.words for slot in self._slots):
            return
        self._lines.append(replace(self._at, tokens=tuple(self._told(self._at))))
        for slot in self._slots:
            slot.feet, slot.words, slot.facing = (), (), None
        self._feet = set()
        self._label, self._tail = (), None

    def _told(self, line: Line) -> list[Token]:
        tokens: list[Token] = []
        for counts, slot in self._grouped():
            like = (slot.words or slot.feet or (replace(counts[0], line=line.number),))[0]
            said = danced(slot.feet, slot.words, len(counts)) if slot.words or slot.feet else self._empty(like)
            said = said if slot.facing is None else (*said, slot.facing)
            over = [replace(token, line=like.line, column=like.column) for token in counts]
            tokens = parted_by_break(tokens, parted_by_break(over, said))
        if self._label:
            plain = not (is_heading(self._label) and len(self._label) > 1)
            name = [word_like(tokens[0], "section")] if plain else []
            label = [*name, *(replace(token, line=line.number) for token in self._label), mark_like(tokens[0], ":")]
            tokens = parted_by_break(label, tokens)
        return tokens if self._tail is None else [*tokens, self._tail]

    def _empty(self, like: Token) -> Cell:
        """Return what an empty cell says: a hold, or nothing where the row has lost a cell."""
        return () if self._short else (word_like(like, "hold"),)

    def _grouped(self) -> list[tuple[list[Token], Slot]]:
        """Return the counts with their cells: between gaps counts without a cell go with the one before."""
        found: list[tuple[list[Token], Slot]] = []
        for slot in self._slots:
            empty = not slot.words and not slot.feet
            part = slot.counts[0].kind == "amp" or slot.counts[0].low in ("a", "e")
            if self._parting == "gap" and empty and found:
                found[-1][0].extend(slot.counts)
            elif not (empty and part):
                found.append((list(slot.counts), slot))
        return found


def remark_of(row: Row, above: Sequence[Line]) -> Line:
    """Return a row that is none of steps as it stands; without marks around its only cell.

    One that speaks of the order belongs to the row above it, and heads nothing below.
    """
    filled = [cell for cell in row.line.cells if cell]
    if len(filled) != 1:
        return row.line
    line = replace(row.line, tokens=filled[0])
    between = above and above[-1].number == line.number - 1 and not is_heading(filled[0][:1])
    return replace(line, number=above[-1].number) if between and _ORDER.search(line.words) else line
