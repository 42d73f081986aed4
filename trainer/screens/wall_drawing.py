"""The road map as text: a row for each wall, a column for each count, the departures as words in their places.

A column stands for one count, in a narrow window for two, four and so on: the same in every row. The first columns of a
section are its name; an extra takes at least the columns of its word. All glyphs are one cell wide.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.dance.facing import clock
from trainer.practice.roadmap import EXTRA_WORDS, WallRow

Role = Literal["quiet", "wall", "faces", "count", "name", "extra", "leaves", "chosen", "taken", "here"]

COUNT, CHOSEN, HERE = "▄", "█", "▼"

_PART = 8  # columns of the name of a part at most
_NAME = 4  # columns that the name of a section may take at most
_WORD = 6  # columns that an extra takes at least: its word with room round it


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a wall's row."""

    glyph: str
    role: Role
    first: Fraction | None
    """The first beat that it stands for; None where there is no count."""
    last: Fraction | None
    """The beat after its last."""

    def holds(self, beat: Fraction) -> bool:
        """Whether a beat lies in it."""
        return self.first is not None and self.last is not None and self.first <= beat < self.last


def scale_for(rows: Sequence[WallRow], columns: int) -> int:
    """Return how many counts a column must stand for so that every row fits."""
    scale, named = 1, part_columns(rows)
    while scale < 256 and any(len(wall_columns(row, scale, named)) > columns for row in rows):
        scale *= 2
    return scale


def part_columns(rows: Sequence[WallRow]) -> int:
    """Return the columns that the names of parts take."""
    return max((min(len(row.part), _PART) for row in rows), default=0)


def wall_columns(row: WallRow, scale: int, named: int = 0) -> tuple[Column, ...]:
    """Return the columns of one wall, of which `named` are kept for the name of its part."""
    part = f"{row.part[:named]:<{named}} " if named else ""
    columns = [Column(glyph, "wall", None, None) for glyph in f"{row.number:>4} {part}"]
    columns += [Column(glyph, "faces", None, None) for glyph in f"{clock(row.facing):>6}  "]
    blank = Column(" ", "quiet", None, None)
    section = ""
    for piece in row.pieces:
        if piece.plain and piece.block.kind == "part":
            goes_on = piece.section == section and piece.offset > 0
            section = piece.section
            label, role = ("" if goes_on else piece.section[:_NAME]), "count"
            cells = -(-int(piece.last - piece.first) // scale)
        else:
            label, role = EXTRA_WORDS.get(piece.block.kind, ""), "extra"
            cells = max(-(-int(piece.last - piece.first) // scale), _WORD)
        columns += _of_piece(piece.first, piece.last, cells, label, "extra" if role == "extra" else "count")
        columns += [blank] if role == "count" and piece.closes else []
    if row.leaves:
        columns += [Column(glyph, "leaves", None, None) for glyph in f" {row.leaves}"]
    return tuple(columns)


def _of_piece(first: Fraction, last: Fraction, cells: int, label: str, role: Role) -> list[Column]:
    text = label.center(cells) if role == "extra" else label[:cells].ljust(cells, COUNT)
    counts = last - first
    edges = [first + counts * place / cells for place in range(cells + 1)]
    return [
        Column(
            glyph, "name" if role == "count" and place < len(label[:cells]) else role, edges[place], edges[place + 1]
        )
        for place, glyph in enumerate(text)
    ]


def marked(columns: Sequence[Column], first: Fraction, last: Fraction, here: Fraction | None) -> list[tuple[str, Role]]:
    """Return a wall's columns as they are painted: a range chosen, and where the dancer is (None: on another wall)."""
    painted: list[tuple[str, Role]] = []
    for column in columns:
        chosen = column.first is not None and first <= column.first < last
        if here is not None and column.holds(here):
            painted.append((HERE, "here"))
        elif chosen and column.role != "extra":
            painted.append((column.glyph if column.role == "name" else CHOSEN, "chosen"))
        else:
            painted.append((column.glyph, "taken" if chosen else column.role))
    return painted
