"""One fault, one finding: a line whose counts are mistyped does not make the lines round it wrong as well.

A line is read with the counts that it must have been meant to have where the lines round it tell them: "5-7" with two
steps before a line "7-8" is 5-6, and "5-6" between "1-2" and "5-6" is 3-4. It is still a problem, and the only one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.dance.counts import label_of
from trainer.problems import Problem
from trainer.sheet.allot import Fit, allot, ways
from trainer.sheet.countlines import CountLine
from trainer.sheet.labels import Typed
from trainer.sheet.numbering import Base
from trainer.terms import Label


@dataclass(frozen=True, slots=True)
class Mended:
    """A count line as it is read, and what is wrong with its counts as they stand."""

    line: CountLine
    fault: Problem | None = None
    """Set where other counts are read than stand there."""


def mended(lines: Sequence[CountLine], base: Base) -> list[Mended]:
    """Return the count lines of a block with the counts that they are read with."""
    opening = {*base.ones, *(one + 1 for one in base.ones if base.opened or base.may_be_opened)}
    found = []
    for index, line in enumerate(lines):
        before = _whole(lines[index - 1])[-1:] if index else []
        after = _whole(lines[index + 1]) if index + 1 < len(lines) else []
        whole = _whole(line)
        # The numbers with which it may begin; none where what stands before says nothing of them.
        goes_on = {number for last in before for number in _next(last, base.phrase)} if index else opening
        if not whole or not after:
            found.append(Mended(line))
        elif not _comes_out(line, line.labels, base.phrase):
            found.append(_resized(line, whole, after[0], base.phrase))
        elif goes_on and whole[0] not in goes_on:
            found.append(_moved(line, whole, goes_on, after[0], base.phrase))
        else:
            found.append(Mended(line))
    return found


def labels_of(typed: Sequence[Typed], phrase: int) -> list[Label]:
    """Return the labels of counts as typed: 9 is 1, in a waltz 7 is."""
    return [one.sub or label_of((one.number - 1) % phrase + 1) for one in typed]


def _whole(line: CountLine) -> list[int]:
    return [one.number for one in line.labels if one.sub is None]


def _next(number: int, phrase: int) -> set[int]:
    """Return the numbers that may follow a number."""
    return {number + 1, 1} if number % phrase == 0 else {number + 1}


def _resized(line: CountLine, whole: Sequence[int], following: int, phrase: int) -> Mended:
    """Return a line that does not come out with the counts up to the next line's first, if it comes out with them."""
    last = max(index for index, one in enumerate(line.labels) if one.sub is None)
    if following <= whole[-1]:
        labels = tuple(one for one in line.labels if one.sub is not None or one.number < following)
    else:
        more = range(whole[-1] + 1, min(following, whole[-1] + phrase))
        labels = (*line.labels, *(replace(line.labels[last], number=number, glued=False) for number in more))
    if not labels or not _comes_out(line, labels, phrase):
        return Mended(line)
    return Mended(replace(line, labels=labels), allot(line, labels_of(line.labels, phrase)).complaint)


def _moved(line: CountLine, whole: Sequence[int], goes_on: set[int], following: int, phrase: int) -> Mended:
    """Return a line that begins with a wrong number with a right one, if the next line bears it out."""
    for first in sorted(goes_on, reverse=True):
        by = first - whole[0]
        if following in _next(whole[-1] + by, phrase):
            labels = tuple(one if one.sub is not None else replace(one, number=one.number + by) for one in line.labels)
            where = line.labels[0].span
            fault = Problem(
                level="error",
                kind="counts",
                line=where.line,
                column=where.column,
                message=f"{line.labels_text} is out of order: count {first} should come here.",
                hint=f"The next line begins with {following}.",
            )
            return Mended(replace(line, labels=labels), fault)
    return Mended(line)


def _comes_out(line: CountLine, labels: Sequence[Typed], phrase: int) -> bool:
    return not line.surplus and ways(line.said, labels_of(labels, phrase)) is not None


def faults(lines: Sequence[Mended], fits: Sequence[Fit], numbering: Sequence[Problem]) -> Iterator[Problem]:
    """Yield what is wrong with the counts of a block, each fault once; `numbering` are the problems of its numbers."""
    blamed: set[int] = set()
    at: dict[int, list[Problem]] = {}
    for problem in numbering:
        at.setdefault(problem.line, []).append(problem)
    for index, (read, fit) in enumerate(zip(lines, fits, strict=True)):
        line = read.line
        own = [problem for piece in line.line.pieces for problem in at.get(piece[1], ())]
        if index - 1 in blamed:
            # How a line goes on from one with mistyped counts says nothing about it.
            own = [problem for problem in own if (problem.line, problem.column) != _goes_on(line)]
        complaint = read.fault or fit.complaint
        if complaint is not None or not line.labels_sound:
            blamed.add(index)
        if not line.labels_sound:
            continue
        if own:
            yield from own
        elif complaint is not None:
            yield complaint


def _goes_on(line: CountLine) -> tuple[int, int] | None:
    """Return where the first whole count of a line stands."""
    first = next((one.span for one in line.labels if one.sub is None), None)
    return (first.line, first.column) if first is not None else None
