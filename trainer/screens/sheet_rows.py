"""The text of a sheet as rows of a page, every finding under the place that it is about.

Lines count from 1. A line that is too long goes on in the next row; a caret stands under the row that holds its column.
Widths are those of a terminal, in which some letters take two columns.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from textwrap import wrap
from typing import Literal

from rich.cells import cell_len

from trainer.problems import Problem

Kind = Literal["text", "caret", "said", "hint"]


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the page."""

    kind: Kind
    text: str
    line: int
    """The line of the sheet that it shows or is about; 0 for a finding about the whole sheet."""
    number: str = ""
    """The line's number, where it stands before it."""
    problem: Problem | None = None


def sheet_rows(lines: Sequence[str], problems: Sequence[Problem], columns: int) -> tuple[Row, ...]:
    """Return the rows of a sheet on a page of so many columns; what has no line in it comes first."""
    margin = margin_of(lines)
    room = max(20, columns - margin)
    by_line = {line: tuple(found) for line, found in groupby(sorted(problems, key=_line), key=_line)}
    rows: list[Row] = []
    for line, found in by_line.items():
        if not 0 < line <= len(lines):
            for problem in found:
                rows += _said(problem, 0, room)
    for line, text in enumerate(lines, 1):
        rows += _of_line(text, line, by_line.get(line, ()), room)
    return tuple(rows)


def margin_of(lines: Sequence[str]) -> int:
    """Return the columns of the line numbers with the blanks round them."""
    return len(str(max(len(lines), 1))) + 2


def _line(problem: Problem) -> int:
    return problem.line


def _of_line(text: str, line: int, problems: Sequence[Problem], room: int) -> Iterator[Row]:
    """Yield a line with a caret under each place that was found, and what was found there below all of the line."""
    start = 0
    pieces = _pieces(text.replace("\t", " "), room)
    said: list[Row] = []
    for place, piece in enumerate(pieces):
        end, closes = start + len(piece), place == len(pieces) - 1
        yield Row("text", piece, line, number="" if place else str(line))
        for problem in problems:
            column = max(problem.column - 1, 0)
            if start <= column < end or (closes and column >= end):
                before = cell_len(piece[: column - start]) + max(0, column - end)
                yield Row("caret", " " * min(before, room - 1) + "^", line, problem=problem)
                told = _said(problem, line, room)
                if closes and not said:
                    yield from told
                else:
                    said += told
        start = end
    yield from said


def _said(problem: Problem, line: int, room: int) -> Iterator[Row]:
    about = f"{problem.level}, {problem.kind}: {problem.message}"
    yield from (Row("said", text, line, problem=problem) for text in wrap(about, room) or [""])
    yield from (Row("hint", text, line, problem=problem) for text in wrap(problem.hint, room))


def _pieces(text: str, room: int) -> list[str]:
    """Return a text cut into pieces that fit, at blanks where there are any; together they are the text."""
    pieces: list[str] = []
    while cell_len(text) > room:
        end = width = 0
        while width + cell_len(text[end]) <= room:
            width += cell_len(text[end])
            end += 1
        blank = text.rfind(" ", room // 2, end)
        end = blank + 1 if blank > 0 else end
        pieces.append(text[:end])
        text = text[end:]
    return [*pieces, text]
