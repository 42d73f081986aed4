"""The problems of a sheet while it is read: collected, never raised, so that all come at once."""

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

from trainer.problems import Kind, Level, Problem, in_order
from trainer.routine import Span

MOST = 2_000
"""So many problems are listed; a file with more of them is no step sheet."""

MOST_HINTS = 200
"""So many problems get a "did you mean": looking for near words takes its time."""

LONGEST_NEAR = 40
"""Letters of the longest word that is compared with known ones."""


class Findings:
    """A list of problems that grows while a sheet is read."""

    def __init__(self) -> None:
        self._problems: list[Problem] = []

    def error(self, kind: Kind, where: Span, message: str, hint: str = "") -> None:
        """Add a fault that keeps something from being read as meant."""
        self._add("error", kind, where, message, hint)

    def warn(self, kind: Kind, where: Span, message: str, hint: str = "") -> None:
        """Add a doubt about something that was read all the same."""
        self._add("warning", kind, where, message, hint)

    def near(self, word: str, names: Iterable[str]) -> str:
        """Return a hint at the known name that the first word, or the first few, come nearest to; else nothing."""
        if len(self._problems) > MOST_HINTS:
            return ""
        known = {name.casefold(): name for name in names}
        words = word.casefold()[:LONGEST_NEAR].split()
        heads = [" ".join(words[:length]) for length in range(1, min(len(words), 3) + 1)]
        close = {near: head for head in heads for near in get_close_matches(head, known, n=1, cutoff=0.66)}
        best = max(close, key=lambda near: SequenceMatcher(None, near, close[near]).ratio(), default=None)
        return f"Did you mean {known[best]}?" if best is not None else ""

    def result(self) -> tuple[Problem, ...]:
        """Return the problems by line and column."""
        return in_order(self._problems)

    def _add(self, level: Level, kind: Kind, where: Span, message: str, hint: str) -> None:
        self.add(Problem(level=level, kind=kind, line=where.line, column=where.column, message=message, hint=hint))

    def add(self, problem: Problem) -> None:
        """Add a problem as it is."""
        if len(self._problems) < MOST:
            self._problems.append(problem)
        elif len(self._problems) == MOST:
            self._problems.append(
                Problem(
                    level="error",
                    kind="text",
                    line=problem.line,
                    column=problem.column,
                    message=f"There are more than {MOST:,} problems; those from here on are not listed.",
                )
            )
