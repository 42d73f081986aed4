"""Short sheets for tests: a body under the smallest head."""

from trainer.problems import Problem
from trainer.routine import Event, Routine
from trainer.sheet.reading import read

HEAD = "title: A test\n"


def sheet(*lines: str, head: str = "") -> str:
    """A sheet with these lines under its head; the first of them is line 2, or later where the head has more."""
    return "\n".join([HEAD + head + lines[0], *lines[1:]]) + "\n"


def section(*lines: str, head: str = "") -> str:
    """A sheet with one section; its first count line is line 3."""
    return sheet("== 1", *lines, head=head)


def routine(text: str) -> Routine:
    """What is read of a sheet without a problem."""
    found, problems = read(text)
    assert problems == ()
    return found


def events(text: str) -> list[Event]:
    """Every event of a sheet without a problem."""
    return list(routine(text).events())


def problems(text: str) -> list[str]:
    """The problems of a sheet as "line:column level kind: message | hint"."""
    return [row(problem) for problem in read(text)[1]]


def row(problem: Problem) -> str:
    """A problem in one line."""
    hint = f" | {problem.hint}" if problem.hint else ""
    return f"{problem.line}:{problem.column} {problem.level} {problem.kind}: {problem.message}{hint}"
