"""Logical lines of a fair copy: comments cut, continued lines joined, every letter's place in the sheet remembered.

A line that begins with blanks continues the one above, unless an empty line stands between them. Blanks with which all
lines of the sheet begin mean nothing. Lines of the teacher's words, which begin with >, have no comments.
"""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.routine import Span
from trainer.sheet.texts import without_comment


@dataclass(frozen=True, slots=True)
class Line:
    """A logical line: its text, and where its pieces stand in the sheet."""

    text: str
    pieces: tuple[tuple[int, int, int], ...]
    """Of each piece the place in `text`, and the line and column in the sheet, from 1."""

    @property
    def spoken(self) -> bool:
        """Whether it holds the teacher's own words."""
        return self.text.startswith(">")

    def span(self, first: int = 0, last: int | None = None) -> Span:
        """Return where a stretch of `text` stands in the sheet, without the blanks round it."""
        last = len(self.text) if last is None else last
        stretch = self.text[first:last]
        first += len(stretch) - len(stretch.lstrip())
        start, line, column = self.pieces[bisect_right(self.pieces, first, key=lambda piece: piece[0]) - 1]
        return Span(line, column + first - start, max(len(stretch.strip()), 1))


def logical_lines(text: str) -> Iterator[Line]:
    """Yield the lines of a sheet that say something."""
    physical = [line.replace("\t", " ").rstrip() for line in text.splitlines()]
    margin = min((len(line) - len(line.lstrip()) for line in physical if line), default=0)
    parts: list[str] = []
    pieces: list[tuple[int, int, int]] = []
    joins = False
    for number, full in enumerate(physical, 1):
        line = full[margin:]
        kept = line if line.startswith(">") or (joins and parts[0].startswith(">") and line[:1] == " ") else ""
        kept = kept or without_comment(line)
        if not kept.strip():
            joins = joins and bool(line)
            continue
        if not (joins and kept[0] == " "):
            if parts:
                yield Line(" ".join(parts), tuple(pieces))
            parts, pieces = [], []
        stripped = kept.strip()
        place = sum(len(part) + 1 for part in parts)
        pieces.append((place, number, margin + len(kept) - len(kept.lstrip()) + 1))
        parts.append(stripped)
        joins = True
    if parts:
        yield Line(" ".join(parts), tuple(pieces))
