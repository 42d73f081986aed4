"""Two columns of a page, each with sections of its own: the left ones of a band are read first, then the right ones.

Both sides of a gutter must tell counts and steps, and headings stand over them or counts begin anew. Lines whose right
half goes on from their left, "1-4 vine right     5-8 vine left", are no columns.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.tables.heads import is_heading
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_GAP = 3
"""So many blanks at least stand before the right column."""
_LEAST = 3
"""Rows with steps of a column."""
_NO_STEPS = {"count", "counts", "ct", "cts", "beat", "beats", "to"}
_MOSTLY = 0.8
_SIDES = 2
_WHOLE = 6
"""Counts of a section."""


@dataclass(frozen=True, slots=True)
class _Half:
    """One side of a line."""

    tokens: tuple[Token, ...]
    mark: Mark | None
    """The counts that it opens or closes with, beside words."""

    @property
    def heads(self) -> bool:
        """Whether it names a section."""
        return self.mark is None and is_heading(self.tokens)


def abreast(lines: Sequence[Line], *, parted: bool = False) -> list[Line]:
    """Return the lines of a stretch with two columns one column after the other, band by band; else nothing.

    Where strokes or tabs part the cells (`parted`), a column is a cell; else a gutter of blanks runs down the page.
    """
    sides = _cells(lines) if parted else _about_the_gutter(lines)
    rows = [(_half(left), _half(right)) for left, right in sides]
    if not rows or not _are_columns(rows):
        return []
    done: list[Line] = []
    for band in _bands(lines, rows):
        for side in (0, 1):
            halves = [(lines[at], rows[at][side]) for at in band if rows[at][side].tokens]
            done += [replace(line, tokens=half.tokens, indent=0) for line, half in halves]
    return done


def _cells(lines: Sequence[Line]) -> list[tuple[list[Token], list[Token]]]:
    """Return both cells of each line; nothing where a line has more."""
    found = []
    for line in lines:
        cells = [list(cell) for cell in line.cells]
        cells = cells[1:] if cells and not cells[0] and len(cells) > _SIDES else cells
        cells = cells[:-1] if cells and not cells[-1] and len(cells) > _SIDES else cells
        if len(cells) > _SIDES:
            return []
        found.append((cells[0], cells[1] if len(cells) == _SIDES else []))
    return found


def _about_the_gutter(lines: Sequence[Line]) -> list[tuple[list[Token], list[Token]]]:
    """Return what stands left and right of the gutter in each line; nothing where there is none."""
    gutter = _gutter(lines)
    if not gutter:
        return []
    return [
        ([one for one in line.tokens if one.column < gutter], [one for one in line.tokens if one.column >= gutter])
        for line in lines
    ]


def _gutter(lines: Sequence[Line]) -> int:
    """Return the column where most right halves begin; 0 where there is none that parts all lines."""
    starts: Counter[int] = Counter()
    for line in lines:
        tokens = [token for token in line.tokens if token.text != BREAK]
        for before, token in pairwise(tokens):
            if token.column - before.column - len(before.text) >= _GAP:
                starts[token.column] += 1
    best, often = max(starts.items(), key=lambda one: (one[1], -one[0]), default=(0, 0))
    if often < _LEAST:
        return 0
    torn = sum(_is_torn(line, best) for line in lines)
    return 0 if torn > (1 - _MOSTLY) * len(lines) else best


def _is_torn(line: Line, gutter: int) -> bool:
    """Whether the words of a line run over the gutter."""
    left = [token for token in line.tokens if token.column < gutter and token.text != BREAK]
    right = [token for token in line.tokens if token.column >= gutter and token.text != BREAK]
    return bool(left and right) and right[0].column - left[-1].column - len(left[-1].text) < 2


def _half(side: Sequence[Token]) -> _Half:
    tokens = list(side)
    while tokens and tokens[0].text == BREAK:
        tokens.pop(0)
    while tokens and tokens[-1].text == BREAK:
        tokens.pop()
    marks = marks_in(tokens, 0)
    mark = next((mark for mark in marks if mark.first == 0 or mark.last == len(tokens)), None)
    if mark is not None and mark.spread and len(mark.places) >= _WHOLE and is_heading(tuple(tokens)):
        # "Section C (17-24)" names a section.
        mark = None
    beside = [*tokens[: mark.first], *tokens[mark.last :]] if mark is not None else []
    said = any(token.kind == "word" and len(token.text) > 1 and token.low not in _NO_STEPS for token in beside)
    ordered = any(token.low in ("wall", "walls") for token in beside)
    return _Half(tuple(tokens), mark if said and not ordered else None)


def _are_columns(rows: Sequence[tuple[_Half, _Half]]) -> bool:
    """Whether both sides tell counts and steps, and the right one does not go on from the left."""
    for side in (0, 1):
        filled = [row[side] for row in rows if row[side].tokens]
        told = sum(half.mark is not None for half in filled)
        known = told + sum(half.heads for half in filled)
        if told < _LEAST or known < _MOSTLY * len(filled):
            return False
    both = [(left.mark, right.mark) for left, right in rows if left.mark and right.mark]
    goes_on = sum((left.end.number or 0) + 1 == right.start.number for left, right in both)
    opened = [half for row in rows for half in row if half.mark is not None and half.mark.start.number == 1]
    return goes_on <= 0.5 * len(both) and len(opened) > 1


def _bands(lines: Sequence[Line], rows: Sequence[tuple[_Half, _Half]]) -> list[list[int]]:
    """Part rows where headings stand, or an empty line does and the left counts begin anew."""
    bands: list[list[int]] = [[]]
    for at, (left, right) in enumerate(rows):
        apart = bool(at) and lines[at].number > lines[at - 1].number + 1
        headed = bool(bands[-1]) and _names(rows, bands[-1][-1])
        named = left.heads and (right.heads or not right.tokens)
        if bands[-1] and (named or _names(rows, at) or (_begins(rows, at) and apart)) and not headed:
            bands.append([])
        bands[-1].append(at)
    return bands


def _begins(rows: Sequence[tuple[_Half, _Half]], at: int) -> bool:
    """Whether the left counts of a row begin with 1."""
    mark = rows[at][0].mark if at < len(rows) else None
    return mark is not None and mark.start.number == 1


def _names(rows: Sequence[tuple[_Half, _Half]], at: int) -> bool:
    """Whether a row without counts stands over the first of some: the titles of two sections."""
    left, right = rows[at]
    return left.heads or (left.mark is None and right.mark is None and bool(left.tokens) and _begins(rows, at + 1))
