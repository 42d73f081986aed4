"""Figures over all drafts of a sheet: those that go on elsewhere are joined, and all are numbered in reading order."""

from collections.abc import Sequence

from trainer.routine import FigureMark, Span
from trainer.sheet.drafts import Draft, Mark


def figure_marks(
    blocks: Sequence[Sequence[Draft]], opening: Sequence[Draft], closing: Sequence[Draft]
) -> list[list[FigureMark | None]]:
    """Return the figure of every draft of the blocks, which stand in the order of Routine.events().

    `opening` are the drafts of the section that the dance begins with, `closing` those of the one that leads back.
    """
    drafts = [draft for block in blocks for draft in block]
    whole = {draft.mark.start for draft in drafts if draft.mark is not None and not draft.mark.index}
    joins = _joins([draft.mark for draft in drafts], whole)
    first, last = (opening[0].mark, closing[-1].mark) if opening and closing else (None, None)
    if first is not None and last is not None and first.start not in {*whole, last.start} and _goes_on(last, first):
        joins[first.start] = last.start
    starts = [_begins(draft.mark.start, joins) if draft.mark is not None else None for draft in drafts]
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


def _goes_on(before: Mark, mark: Mark) -> bool:
    return (before.name, before.index + 1) == (mark.name, mark.index)


def _joins(marks: Sequence[Mark | None], whole: set[Span]) -> dict[Span, Span]:
    """Return where the figures that go on from an earlier step begin, by where they go on.

    A figure goes on from the latest one of its name that has stopped just before the step named; those in `whole` have
    their first step where they stand.
    """
    latest: dict[str, Mark] = {}
    joins: dict[Span, Span] = {}
    for mark in marks:
        if mark is None:
            continue
        before = latest.get(mark.name)
        if mark.start not in whole and before is not None and before.start != mark.start and _goes_on(before, mark):
            joins.setdefault(mark.start, before.start)
        latest[mark.name] = mark
    return joins


def _begins(start: Span, joins: dict[Span, Span]) -> Span:
    """Return where the figure begins that goes on at a place."""
    passed = set()
    while start in joins and start not in passed:
        passed.add(start)
        start = joins[start]
    return start
