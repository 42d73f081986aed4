"""A page without what only lays it out: a margin common to all lines, rules under headings, lines broken at a margin.

What is said does not change by it; each letter's place in the sheet is remembered, so that what is read from the plain
text can be put back where the teacher wrote it.
"""

import re
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.text.counts_below import with_counts_behind
from trainer.sheet.prose.text.hanging import with_hanging_rows
from trainer.sheet.prose.text.heads_near import with_heads_near
from trainer.sheet.prose.text.margins import flowing, unbroken
from trainer.sheet.prose.text.narrow import with_wraps_undone
from trainer.sheet.prose.text.rows import Row
from trainer.sheet.prose.text.rows_apart import with_rows_apart

_RULE = re.compile(r"[-=_~*^\u2500-\u2550]{3,}")
_CELLS = re.compile(r"\S {3,}\S|\||\S\t")
_HEADING = 70
"""Letters of a heading at most."""
_PAGE = 10
"""Rows of a page at least whose gaps tell how it is set."""
_NEAR = 3
"""A rule is so nearly as long as the heading over it."""
_ROUND = re.compile(r"([ \t]*)o(?=[ \t]+\S)")
_ROUNDS = 4
"""Fewer lines that open with an o have no bullets."""


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A plain text, and where it stands in its sheet."""

    rows: tuple[Row, ...]
    flowing: bool = False
    """Its lines were joined for what they say, and not for the margin that they meet."""

    @property
    def text(self) -> str:
        """The plain text."""
        return "\n".join(row.text for row in self.rows)

    def place(self, line: int, column: int) -> tuple[int, int]:
        """Return where a place of the plain text is in the sheet: its line and column, from 1."""
        if not 0 < line <= len(self.rows):
            return line, column
        pieces = self.rows[line - 1].pieces
        start, number, first = pieces[max(bisect_right(pieces, column - 1, key=lambda piece: piece[0]) - 1, 0)]
        return number, max(first + column - 1 - start, 1)


def laid_out(text: str, *, paragraphs: bool = False, apart: bool = False) -> LaidOut:
    """Return a sheet's text without its layout; paragraphs are lines of their own only where that is asked for.

    With `apart`, empty rows stand where a page that is set close has none.
    """
    rows = _rows(text)
    rows = with_rows_apart(rows) if apart else rows
    plain = with_hanging_rows(with_counts_behind(with_heads_near(_without_rules(_with_bullets(_without_margin(rows))))))
    whole = tuple(unbroken(plain, paragraphs=paragraphs))
    flows = flowing(plain) if paragraphs and list(whole) == plain else plain
    return LaidOut(whole, flowing=False) if flows == plain else LaidOut(tuple(flows), flowing=True)


def without_wraps(text: str) -> LaidOut:
    """Return a text with each line that a narrow margin broke, as on a phone, as its teacher wrote it."""
    return LaidOut(
        tuple(with_wraps_undone([Row(line, ((0, number, 1),)) for number, line in enumerate(text.split("\n"), 1)]))
    )


def is_close(text: str) -> bool:
    """Whether a page is set close: empty rows can be put in where it seems to be apart."""
    rows = _rows(text)
    return with_rows_apart(rows) != rows


def _rows(text: str) -> list[Row]:
    return _single_spaced([Row(line, ((0, number, 1),)) for number, line in enumerate(text.split("\n"), 1)])


def _single_spaced(rows: list[Row]) -> list[Row]:
    """Return rows that are all set apart without the empty ones between, a wider gap as one: a page with wide lines."""
    said = [at for at, row in enumerate(rows) if row.text.strip()]
    gaps = [after - at - 1 for at, after in pairwise(said)]
    if len(said) < _PAGE or min(gaps) == 0 or min(gaps) == max(gaps):
        return rows
    done = rows[: said[0] + 1]
    for gap, at in zip(gaps, said[1:], strict=True):
        done += rows[at - 1 : at + 1] if gap > min(gaps) else rows[at : at + 1]
    return [*done, *rows[said[-1] + 1 :]]


def _without_margin(rows: Sequence[Row]) -> list[Row]:
    """Return the rows without the blanks with which all of them begin."""
    said = [row.text for row in rows if row.text.strip()]
    margin = said[0][: len(said[0]) - len(said[0].lstrip())] if said else ""
    if "\t" not in margin or not all(text.startswith(margin) for text in said):
        return list(rows)
    return [row.cut(len(margin)) if row.text.strip() else row for row in rows]


def _with_bullets(rows: Sequence[Row]) -> list[Row]:
    """Return the rows with each o that stands for a bullet as one."""
    found = [bool(_ROUND.match(row.text)) for row in rows]
    if sum(found) < _ROUNDS:
        return list(rows)
    return [
        Row(_ROUND.sub(r"\1•", row.text, count=1), row.pieces) if one else row
        for row, one in zip(rows, found, strict=True)
    ]


def _without_rules(rows: Sequence[Row]) -> list[Row]:
    """Return the rows without the rules that underline a heading, where what it heads stands right below."""
    return [row for at, row in enumerate(rows) if not _underlines(rows, at)]


def _underlines(rows: Sequence[Row], at: int) -> bool:
    if not 0 < at < len(rows) - 1 or not _RULE.fullmatch(rows[at].text.strip()):
        return False
    over, below = rows[at - 1].text, rows[at + 1].text
    if not below.strip() or not over.strip() or _CELLS.search(over) or _CELLS.search(below):
        return False
    as_long = abs(len(rows[at].text.rstrip()) - len(over.rstrip())) <= _NEAR
    return as_long and len(over) <= _HEADING and not _RULE.fullmatch(over.strip())
