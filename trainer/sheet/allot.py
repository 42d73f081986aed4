"""How many counts each clause of a line takes: one, or as many as the pattern of the figure that it names.

All ways in which the line comes out exactly are compared; the one with the longest patterns is taken. Two that are
alike in that are a problem: the line must be divided, or a figure spelled out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

from trainer.dance.figures import expand, figures
from trainer.problems import Problem
from trainer.sheet.clauses import Clause
from trainer.sheet.countlines import CountLine, Said
from trainer.terms import Direction, Foot, Label


@dataclass(frozen=True, slots=True)
class Ways:
    """The ways to dance a line from some clause and count on: the best one, and how many are as good."""

    patterns: tuple[int, ...]
    """The lengths of its figures, the longest first."""
    number: int
    lengths: tuple[int, ...]
    """Counts of each clause."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How the counts of a line fall to its clauses."""

    lengths: tuple[int, ...] | None
    """Counts of each clause; None where the line does not come out."""
    complaint: Problem | None
    """What is wrong with it."""


def allot(line: CountLine, labels: Sequence[Label]) -> Fit:
    """Return how many counts each clause of a line takes.

    A clause that could not be read takes whatever the others leave; its line is not blamed for its counts as well.
    """
    found = ways(line.said, labels)
    misread = any(one.clause.misread for one in line.said)
    message: tuple[str, str] | None = None
    if found is None or line.surplus:
        message = _complaint(line, labels)
    elif found.number > 1:
        message = (
            "The figures of this line fit its counts in more than one way.",
            "Give each figure a line of its own.",
        )
    lengths = found.lengths if found is not None and not line.surplus else None
    return Fit(lengths, None if misread or message is None else _problem(line, *message))


def _problem(line: CountLine, message: str, hint: str) -> Problem:
    where = line.line.span(0, len(line.labels_text))
    return Problem(level="error", kind="counts", line=where.line, column=where.column, message=message, hint=hint)


def ways(said: Sequence[Said], labels: Sequence[Label]) -> Ways | None:
    """Return the best way to give a line's counts to its clauses, or None."""
    exact = all(_lengths(one, labels, exact=True) for one in said)
    options = [_lengths(one, labels, exact=exact) for one in said]

    @cache
    def best(clause: int, at: int) -> Ways | None:
        if clause == len(said):
            return Ways((), 1, ()) if at == len(labels) else None
        found: Ways | None = None
        for length in options[clause].get(at, ()):
            rest = best(clause + 1, at + length)
            if rest is None:
                continue
            patterns = rest.patterns
            if said[clause].clause.figure is not None and said[clause].of is None:
                patterns = tuple(sorted((*patterns, length), reverse=True))
            if found is None or patterns > found.patterns:
                found = Ways(patterns, rest.number, (length, *rest.lengths))
            elif patterns == found.patterns:
                found = Ways(patterns, found.number + rest.number, found.lengths)
        return found

    return best(0, 0)


def _lengths(said: Said, labels: Sequence[Label], *, exact: bool) -> dict[int, tuple[int, ...]]:
    """Return for each place in the labels how many counts a clause may take from there, the most first."""
    figure = said.clause.figure
    if said.clause.misread and said.of is None:
        return {at: tuple(range(1, len(labels) - at + 1)) for at in range(len(labels))}
    if figure is None or said.of is not None:
        return {at: (1,) for at in range(len(labels))}
    single = (1,) if said.clause.single is not None else ()
    sizes = sorted({len(pattern) for form in figure.forms for pattern in form.counts}, reverse=True)
    found = {}
    for at in range(len(labels)):
        fitting = tuple(
            size
            for size in sizes
            if at + size <= len(labels) and _fits(said.clause, labels[at : at + size], exact=exact)
        )
        if fitting or single:
            found[at] = tuple(dict.fromkeys((*fitting, *single)))
    return found


def _fits(clause: Clause, labels: Sequence[Label], *, exact: bool) -> bool:
    """Whether a figure can be danced to some labels; where not exact, in another direction or with another turn."""
    assert clause.figure is not None
    turn = clause.turn or clause.figure.usual_turn(clause.foot) or clause.turn
    return _danced_to(clause.figure.name, clause.foot, clause.direction, turn, tuple(labels), exact)


@lru_cache(maxsize=4096)
def _danced_to(
    name: str, foot: Foot, direction: Direction | None, turn: Fraction, labels: tuple[Label, ...], exact: bool
) -> bool:
    if exact:
        return expand(name, foot, labels, direction=direction, turn=turn) is not None
    return next(figures()[name].fitting(labels), None) is not None


def _complaint(line: CountLine, labels: Sequence[Label]) -> tuple[str, str]:
    """Return the sentence and the hint for a line that does not come out."""
    count = len(labels)
    if not line.said:
        return f"Nothing is danced on {line.labels_text}.", "A count on which nothing happens is written `hold`."
    steps = len(line.said) + (line.surplus.count(",") + 1 if line.surplus else 0)
    figures = [one.clause.figure for one in line.said if one.clause.figure is not None and one.of is None]
    if len(figures) == 1 == steps:
        patterns = dict.fromkeys("".join(_joined(pattern)) for form in figures[0].forms for pattern in form.counts)
        fits = ", ".join(list(patterns)[:4])
        return (
            f"The {figures[0].name} is not danced to {line.labels_text}.",
            f"It is danced to counts such as {fits}; otherwise spell it out: `{figures[0].name}: clause, clause`.",
        )
    if figures:
        return (
            f"{line.labels_text} has {_many(count, 'count')}; these figures and steps need more or fewer.",
            "Give each figure a line of its own to see which one does not fit.",
        )
    stands = "stands" if steps == 1 else "stand"
    return (
        f"{line.labels_text} has {_many(count, 'count')}, but {_many(steps, 'step')} {stands} here.",
        "Divide steps by commas; a count on which nothing happens is written `hold`.",
    )


def _joined(labels: Sequence[Label]) -> str:
    """Return labels as a sheet writes them: 1&2, 1-4."""
    if all(label.isdigit() for label in labels) and len(labels) > 1:
        return f"{labels[0]}-{labels[-1]}"
    return "".join(labels)


def _many(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
