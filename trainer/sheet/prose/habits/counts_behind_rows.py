"""Rows whose counts stand in brackets at their ends, "Stamp right, stamp left. Weight on left. (7-8)".

They are told before their row: else a row of more than one sentence would be parted, and only the last of them be
danced on its counts. It is so where each row has a line of its own; where rows run on, the search for counts finds
which words are whose.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line

_LEAST = 6
"""Fewer rows show nothing."""
_BRACKETS = set("()[]")
"""Others are a sheet's own sign for counts, read with its key."""
_BEHIND = {".", ",", ";"}


def with_counts_before_rows(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such counts before the words of their rows."""
    marks = [_behind(line) for line in lines]
    rows = [mark is not None and not _holds_next(at, marks) for at, mark in enumerate(marks)]
    told = [at for at, row in enumerate(rows) if row]
    plain = all(_begins(lines, rows, at) and not _is_labelled(lines[at]) for at in told)
    if len(told) < _LEAST or not plain:
        return tuple(lines)
    return tuple(
        _turned(line, mark) if row and mark is not None else line
        for line, mark, row in zip(lines, marks, rows, strict=True)
    )


def _behind(line: Line) -> Mark | None:
    """Return the counts in brackets behind the words of a line, the only ones there."""
    marks = marks_in(line.tokens, 0)
    closed = [mark for mark in marks if mark.closed]
    if len(closed) != 1 or marks[0].first == 0 or not line.tokens or line.tokens[0].kind != "word":
        return None
    mark = closed[0]
    rest = line.tokens[mark.last :]
    closes = all(token.kind in ("facing", "clock") or token.text in _BEHIND for token in rest)
    bracketed = line.tokens[mark.first].text in _BRACKETS and mark.first > 1
    if not (closes and bracketed) or any(token.text == BREAK for token in line.tokens):
        return None
    words = {token.low for token in line.tokens[: mark.first]}
    return mark if words & STEP_WORDS or "hold" in words else None


def _holds_next(at: int, marks: Sequence[Mark | None]) -> bool:
    """Whether counts are those of the rows below: a heading's."""
    mark = marks[at]
    below = next((one for one in marks[at + 1 :] if one is not None), None)
    return mark is not None and below is not None and mark.spread and below.start.number == mark.start.number


def _begins(lines: Sequence[Line], rows: Sequence[bool], at: int) -> bool:
    """Whether a row begins with its line: another row, an empty line or a line that heads it stands above."""
    if not at or rows[at - 1] or _gap(lines, at):
        return True
    return _gap(lines, at - 1) and len(lines[at - 1].tokens) <= max(len(line.tokens) for line in lines)


def _is_labelled(line: Line) -> bool:
    """Whether a row opens with a label: "A1  R side", "B - R forward", "Bar 3. Cross"; counts would part it from it."""
    opens, after = line.tokens[:2]
    lettered = len(opens.text) == 1 and opens.low not in ("r", "l")
    return lettered or after.kind == "number" or after.text in (".", "-", ")")


def _gap(lines: Sequence[Line], at: int) -> bool:
    return at == 0 or not lines[at - 1].tokens or lines[at].number - lines[at - 1].number > 1


def _turned(line: Line, mark: Mark) -> Line:
    """Return a row with its counts first."""
    said = [token for token in line.tokens[mark.first : mark.last] if token.text not in _BRACKETS]
    counts = (replace(said[0], glued=False), *said[1:])
    return replace(line, tokens=(*counts, *line.tokens[: mark.first], *line.tokens[mark.last :]), source="")
