"""Findings as data: what is wrong, where, and how to mend it.

Lines and columns count from 1; line 0 means that the routine was not read from a text. Notes never change an exit code.
"""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Literal

Level = Literal["error", "warning", "note"]
Kind = Literal["counts", "facing", "weight", "order", "text", "music"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One finding in a sheet, in a sentence that a teacher would accept."""

    level: Level
    kind: Kind
    line: int
    column: int
    message: str
    hint: str = ""

    def as_row(self) -> dict[str, str | int]:
        """Return the fields in the order of `check --json`."""
        return asdict(self)


def loud(problems: Iterable[Problem]) -> list[Problem]:
    """Return the errors and warnings, without the notes."""
    return [problem for problem in problems if problem.level != "note"]


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the problems by line and column, each once."""
    return tuple(sorted(dict.fromkeys(problems), key=lambda p: (p.line, p.column)))


def each_once(read: tuple[Problem, ...], proof: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Return what was found on reading, and what the laws find besides it.

    A step that could not be read was told on reading; counts that are mistyped make the counts of the dance wrong. What
    was told on reading in the same words is told once.
    """
    lines = {problem.line for problem in loud(read)}
    counts = any(problem.kind == "counts" for problem in loud(read))
    said = {problem.message.rstrip(".") for problem in read}
    besides = (
        problem
        for problem in proof
        if problem.message.rstrip(".") not in said
        and not (problem.kind == "text" and problem.line in lines and problem.level != "note")
        and not (problem.kind == "counts" and counts)
    )
    return in_order((*read, *besides))


def with_caret(problem: Problem, text: str) -> str:
    """Return a problem with its line of the sheet and a caret under its column, ready to print."""
    head = f"line {problem.line}, column {problem.column}: {problem.level} ({problem.kind}): {problem.message}"
    lines = text.splitlines()
    shown = [head]
    if 0 < problem.line <= len(lines):
        source = lines[problem.line - 1].replace("\t", " ")
        shown += [f"    {source}", "    " + " " * (problem.column - 1) + "^"]
    if problem.hint:
        shown.append(f"    {problem.hint}")
    return "\n".join(shown)


class TrainerError(Exception):
    """An error with a title that the program shows once, at the top, and ends with exit code 2."""

    def __init__(self, title: str, message: str) -> None:
        super().__init__(f"{title}: {message}")
        self.title = title
        self.message = message
