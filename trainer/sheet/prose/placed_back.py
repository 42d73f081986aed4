"""What was read from a text without its layout, or with other capitals, told as it stands in the sheet."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from trainer.problems import Problem, in_order
from trainer.routine import Routine, Span
from trainer.sheet.prose.text.laid_out import LaidOut

_SAID = {"title", "tune", "by", "wait_from", "notes", "words", "styling", "cue"}
"""Fields that hold words of the sheet."""
_WORD = re.compile(r"[^\W\d_](?:[^\W\d_]|['’](?=[^\W\d_]))*")
_QUOTED = re.compile(r"(?<=“)[^”]*")

_Change = Callable[[str, Any], Any]
"""From the name of a field and its value to the value that it is to have."""


def placed_back(
    routine: Routine, problems: Sequence[Problem], page: LaidOut, *, typed: str = ""
) -> tuple[Routine, tuple[Problem, ...]]:
    """Return a routine and what was found with their places in the sheet.

    `typed` is the sheet as its teacher typed it, where it was read with other capitals: its words have their own again.
    """
    own = _own_case(typed)

    def change(name: str, value: Any) -> Any:
        if isinstance(value, Span):
            line, column = page.place(value.line, value.column)
            return Span(line, column, value.length)
        return own(value) if typed and name in _SAID and isinstance(value, str) else value

    def found_at(problem: Problem) -> Problem:
        line, column = page.place(problem.line, problem.column)
        return replace(problem, line=line, column=column, message=_QUOTED.sub(lambda m: own(m[0]), problem.message))

    return _anew("", routine, change), in_order(map(found_at, problems))


def _own_case(typed: str) -> Callable[[str], str]:
    """Return what gives words the capitals that they have throughout a text; one that has several stays as it is."""
    forms: dict[str, set[str]] = {}
    for word in _WORD.findall(typed):
        forms.setdefault(word.lower(), set()).add(word)
    only = {low: next(iter(found)) for low, found in forms.items() if len(found) == 1}
    return lambda said: _WORD.sub(lambda match: only.get(match[0].lower(), match[0]), said)


def _anew(name: str, value: Any, change: _Change) -> Any:
    """Return a value, the field of that name, with every value within it changed."""
    if isinstance(value, BaseModel):
        anew = {field: _anew(field, one, change) for field, one in value.__dict__.items()}
        changed = {field: one for field, one in anew.items() if one is not value.__dict__[field]}
        return value.model_copy(update=changed) if changed else value
    if type(value) is tuple:
        anew_all = tuple(_anew(name, one, change) for one in value)
        return anew_all if any(a is not b for a, b in zip(anew_all, value, strict=True)) else value
    return change(name, value)
