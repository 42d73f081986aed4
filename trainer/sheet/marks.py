"""Figures over all drafts of a sheet: those that go on elsewhere are joined, and all are numbered in reading order."""

from collections.abc import Sequence

from trainer.routine import FigureMark, Span
from trainer.sheet.drafts import Draft, Mark


def figure_marks(blocks: Sequence[Sequence[Draft]], closing: Sequence[Draft]) -> list[list[FigureMark | None]]:
    """Return the figure of every draft of the blocks, which stand in the order of Routine.events().

    `closing` are the drafts of the section that leads back to the dance's first count.
    """
    drafts = [draft for block in blocks for draft in block]
    starts = _joined([draft.mark for draft in drafts], next((d.mark for d in reversed(closing) if d.mark), None))
    numbers: dict[Span, int] = {}
    marks: list[FigureMark | None] = []
    for draft, start in zip(drafts, starts, strict=True):
        if draft.mark is None or start is None:
            marks.append(None)
            continue
        number = numbers.setdefault(start, len(numbers) + 1)
        marks.append(FigureMark(span=start, id=number, name=draft.mark.name, index=draft.mark.index))
    told = iter(marks)
    return [[next(told) for _ in block] for block in blocks]


def _joined(marks: Sequence[Mark | None], closing: Mark | None) -> list[Span | None]:
    """Return for each mark where its figure begins; a part of a figure that begins elsewhere takes that place."""
    latest: dict[str, Mark] = {}
    joins: dict[Span, Span] = {}
    for mark in marks:
        if mark is None:
            continue
        before = latest.get(mark.name)
        opens = before is None or before.start != mark.start
        if opens and mark.index and mark.start not in joins:
            if before is not None and before.index == mark.index - 1:
                joins[mark.start] = before.start
            elif closing is not None and closing.name == mark.name and closing.index == mark.index - 1:
                joins[mark.start] = closing.start
        latest[mark.name] = mark
    return [_begins(mark.start, joins) if mark is not None else None for mark in marks]


def _begins(start: Span, joins: dict[Span, Span]) -> Span:
    """Return where the figure begins that goes on at a place."""
    passed = set()
    while start in joins and start not in passed:
        passed.add(start)
        start = joins[start]
    return start
