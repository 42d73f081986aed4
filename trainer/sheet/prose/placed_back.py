"""What was read from a text without its layout, put back where it stands in the sheet."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from trainer.problems import Problem, in_order
from trainer.routine import Routine, Span
from trainer.sheet.prose.text.laid_out import LaidOut


def placed_back(routine: Routine, problems: Sequence[Problem], page: LaidOut) -> tuple[Routine, tuple[Problem, ...]]:
    """Return a routine and what was found with their places in the sheet."""
    return _placed(routine, page), in_order(_found_at(one, page) for one in problems)


def _found_at(problem: Problem, page: LaidOut) -> Problem:
    line, column = page.place(problem.line, problem.column)
    return replace(problem, line=line, column=column)


def _placed(value: Any, page: LaidOut) -> Any:
    """Return a value with every span within it in its place."""
    if isinstance(value, Span):
        line, column = page.place(value.line, value.column)
        return Span(line, column, value.length)
    if isinstance(value, BaseModel):
        anew = {name: _placed(one, page) for name, one in value.__dict__.items()}
        changed = {name: one for name, one in anew.items() if one is not value.__dict__[name]}
        return value.model_copy(update=changed) if changed else value
    if type(value) is tuple:
        anew_all = tuple(_placed(one, page) for one in value)
        return anew_all if any(a is not b for a, b in zip(anew_all, value, strict=True)) else value
    return value
