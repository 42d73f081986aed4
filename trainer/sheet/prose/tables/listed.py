"""Tables with a column of counts to lines: the counts, the words with their feet, the facing at the end.

A row without counts carries on the row above, unless it is a heading or speaks of the order of walls.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.heads.options import is_option
from trainer.sheet.prose.tables.across import remark_of
from trainer.sheet.prose.tables.cells import (
    NUMBERED,
    Cell,
    as_facing,
    facing_of,
    feet_of,
    is_count,
    is_ditto,
    is_nothing,
)
from trainer.sheet.prose.tables.grid import Row, Table
from trainer.sheet.prose.tables.heads import is_heading
from trainer.sheet.prose.tables.repeated import repeated_turns, turns
from trainer.sheet.prose.tables.roles import Columns
from trainer.sheet.prose.tables.words import (
    aside,
    danced,
    joined,
    named,
    only_turns,
    parted_by_break,
    titled,
    with_foot,
)
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_TURNS = {"pivot", "pivots", "turn", "turns", "unwind", "unwinds", "spiral", "spin"}
"""Words of a turn whose amount may stand in a cell of its own."""
_AMOUNT = 3
"""Tokens at most of a turn's size in a cell of its own: "90° left"."""
_ORDER = re.compile(r"\b(?:restarts?|walls?|tags?|bridges?|ending|option|repeat)\b")
_PARTS = set("ABCDEFGH")
_SECTION_WORDS = ("bar", "section", "sec", "set", "block", "phrase", "part", "group", "figure", "pattern", "verse")


@dataclass(slots=True)
class _Entry:
    """A row, with the rows that carry it on."""

    line: Line
    counts: Cell
    said: list[Token] = field(default_factory=list)
    heading: Cell = ()
    facing: Token | None = None
    notes: list[Cell] = field(default_factory=list)
    feet: Cell = ()
    words: Cell = ()
    first: int = 0
    """How many of the words stand in its first row, where there are more."""

    @property
    def slots(self) -> int:
        """The number of counts that the row has to fill."""
        marks = marks_in(self.counts, 0)
        return len(marks[0].places) if marks else 1


class Listing:
    """Tells the rows of a table one by one."""

    def __init__(self, columns: Columns) -> None:
        self._columns = columns
        self._open: _Entry | None = None
        self._lines: list[Line] = []
        self._section = ""
        self._above: dict[int, Cell] = {}
        self._repeats: frozenset[int] = frozenset()
        """Columns of words that only repeat the turns of others."""

    def lines_of(self, table: Table) -> list[Line]:
        """Return the table as lines in which counts stand before their words."""
        self._repeats = repeated_turns(table, self._columns.places("figure", "words", "left", "right"))
        for row in table.rows:
            self._take(row)
        self._close()
        return self._lines

    def _take(self, row: Row) -> None:
        count = row.cells[self._columns.places("count")[0]]
        if is_count(count):
            self._close()
            self._begin(row, count)
        elif count or not self._carries_on(row):
            self._close()
            self._lines.append(remark_of(row, self._lines))
        else:
            self._go_on(row)

    def _carries_on(self, row: Row) -> bool:
        """Whether a row without counts belongs to the row above it."""
        if self._open is None or self._cell(row, "section"):
            return False
        filled = [row.cells[place] for place in row.filled]
        words = [cell for cell in filled if facing_of(cell, self._columns.key) is None]
        lone = words[0] if len(words) == 1 else ()
        capital = bool(lone) and len(lone) > 1 and all(t.text.isupper() for t in lone if t.kind == "word")
        if lone and is_option(lone):
            return False
        if lone and ((is_heading(lone) and lone[0].text[0].isupper()) or capital or _of_order(lone)):
            return False
        return row.line.number - self._last_line() <= 1

    def _last_line(self) -> int:
        entry = self._open
        assert entry is not None
        said = [token.line for cell in (entry.words, entry.feet, tuple(entry.said)) for token in cell]
        return max([entry.line.number, *said])

    def _begin(self, row: Row, count: Cell) -> None:
        entry = _Entry(row.line, _called(count))
        section = self._cell(row, "section")
        named = " ".join(token.low for token in section)
        if section and not is_ditto(section) and named != self._section:
            entry.heading = _named(section, self._columns)
            self._section = named
        self._open = entry
        self._add(row)

    def _go_on(self, row: Row) -> None:
        foot = self._cell(row, "foot")
        if foot and not is_nothing(foot):
            assert self._open is not None
            self._settle(self._open)
            self._open.said = [*self._open.said, mark_like(foot[0], ",")] if self._open.said else []
        self._add(row)

    def _add(self, row: Row) -> None:
        """Add what the cells of a row say to the row that stands open."""
        entry = self._open
        assert entry is not None
        entry.feet = joined(entry.feet, self._cell(row, "foot"), apart=False)
        words = self._words(row, more=bool(entry.words))
        entry.first = entry.first or (len(entry.words) if words else 0)
        entry.words = joined(entry.words, words, apart=False)
        for place in self._columns.places("facing"):
            cell = row.cells[place]
            value = facing_of(cell, self._columns.key) if cell and not is_ditto(cell) else None
            if value is not None and not is_nothing(cell):
                entry.facing = as_facing(cell, value)
            elif cell and not is_ditto(cell) and not is_nothing(cell):
                entry.notes.append(cell)
        for place in self._columns.places("weight"):
            feet = feet_of(row.cells[place])
            if len(feet) == 1:
                entry.notes.append((word_like(feet[0], "weight"), word_like(feet[0], "on"), feet[0]))
        entry.notes += [row.cells[place] for place in self._columns.places("notes") if not is_nothing(row.cells[place])]

    def _words(self, row: Row, *, more: bool) -> Cell:
        """Return the words of a row's cells; a figure's name goes before a colon, a foot's column gives its foot.

        `more` says that the row goes on with words of the row above.
        """
        told: Cell = ()
        for place in self._columns.places("figure", "words", "left", "right"):
            role = self._columns.roles[place]
            cell = self._repeated(row, place)
            if place in self._repeats and self._turns_elsewhere(row, place):
                continue
            if not cell or (is_nothing(cell) and (told or len(row.filled) > 2)):
                continue
            if role == "figure":
                told = named(cell)
            elif role in ("left", "right") and not more:
                told = joined(told, with_foot(cell, word_like(cell[0], role)), apart=True)
            elif cut := _turn_left_open(told, cell):
                told = (*told[:cut], *cell, *told[cut:])
            else:
                told = joined(told, cell, apart=False)
        return told[:-1] if told and told[-1].text == ":" else told

    def _turns_elsewhere(self, row: Row, place: int) -> bool:
        """Whether other words of a row turn, so that a column that repeats turns has nothing to add."""
        places = self._columns.places("figure", "words", "left", "right")
        return turns([row.cells[other] for other in places if other != place])

    def _repeated(self, row: Row, place: int) -> Cell:
        """Return a cell, or the one above where ditto marks stand for it."""
        cell = row.cells[place]
        above = self._above.get(place, ())
        if cell and is_ditto(cell) and above:
            return tuple(replace(token, line=cell[0].line, column=cell[0].column) for token in above)
        if cell:
            self._above[place] = cell
        return cell

    def _cell(self, row: Row, role: str) -> Cell:
        """Return the first cell of a role that holds something."""
        places = [place for place, own in enumerate(self._columns.roles) if own == role]
        return next((self._repeated(row, place) for place in places if row.cells[place]), ())

    def _settle(self, entry: _Entry) -> None:
        """Tell the feet and words gathered so far."""
        counts = max(entry.slots, 1)
        if entry.feet or entry.words:
            entry.said += danced(entry.feet, titled(entry.words, entry.first, counts), counts)
        entry.feet, entry.words, entry.first = (), (), 0

    def _close(self) -> None:
        entry = self._open
        if entry is None:
            return
        self._open = None
        self._settle(entry)
        if not entry.said and entry.counts[0].kind == "number":
            entry.said = [word_like(entry.counts[0], "hold")]
        notes = [note for note in entry.notes if not _of_order(note)]
        for note in notes:
            entry.said += aside(note)
        if entry.facing is not None:
            entry.said.append(entry.facing)
        tokens = parted_by_break(parted_by_break(entry.heading, entry.counts), entry.said)
        if entry.said:
            self._lines.append(replace(entry.line, tokens=tuple(tokens)))
        elif entry.heading:
            self._lines.append(replace(entry.line, tokens=entry.heading))
        self._lines += [replace(entry.line, tokens=note) for note in entry.notes if _of_order(note)]


def _called(count: Cell) -> Cell:
    """Return a cell of counts as counts are written: without stars, "and" alone as &."""
    kept = tuple(token for token in count if token.text not in ("*", "_") and token.low not in NUMBERED)
    if len(kept) == 1 and kept[0].low == "and":
        return (replace(kept[0], kind="amp", text="&", low="&"),)
    return kept


def _of_order(cell: Sequence[Token]) -> bool:
    return bool(_ORDER.search(" ".join(token.low for token in cell))) and not is_count(cell[:1])


def _named(section: Cell, columns: Columns) -> Cell:
    """Return the name of a section as a heading: "block 2:"."""
    colon = mark_like(section[-1], ":")
    if extra_kind(section) or (is_heading(section) and len(section) > 1):
        return (*section, colon) if section[-1].text != ":" else section
    if len(section) == 2 and section[0].text in _PARTS and section[1].kind == "number":
        return (*section, colon)  # a part and its section: A1
    if sum(token.kind == "word" and len(token.text) > 2 for token in section) == len(section) > 1:
        return (*section, colon)  # a name, and no number
    head = next((columns.words[place] for place in columns.places("section")), "")
    # A letter by itself may be a part: the page, not the table, knows.
    lone = len(section) == 1 and section[0].text in _PARTS
    word = next((word for word in _SECTION_WORDS if word in head.split()), "" if lone else "section")
    if not word:
        return (*section, colon)
    return (word_like(section[0], word), *section, colon)


def _turn_left_open(told: Cell, cell: Cell) -> int:
    """Return where the amount in a cell of its own belongs: "pivot, weight onto L | 1/2 L"; 0 where at the end."""
    amount = bool(cell) and (cell[0].kind in ("fraction", "number") or only_turns(cell)) and len(cell) <= _AMOUNT
    said = any(token.kind == "fraction" for token in told)
    turning = next((at for at, token in enumerate(told, 1) if token.low in _TURNS), 0)
    return turning if amount and not said else 0
