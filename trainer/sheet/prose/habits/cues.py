"""What is called while dancing, in quotes beside the steps: `"kick, point" 3 & 4 kick R, R beside, point L`.

The quotes say again, shorter, what their row tells; they are no steps. Known where rows have them at one place: before
the counts, between counts and words, or at the end.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Place = Literal["before", "between", "end", ""]

_LEAST = 3
_MOSTLY = 0.6
"""So many rows with counts have a cue."""
_QUOTES = {'"': '"', "'": "'"}
_PARTING = {"-", ":", ",", ";", BREAK, ".", "=", ">", "/"}
_SHORTEST = 2
"""Words of a row besides its cue."""


def without_cues(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without the cues in quotes beside their steps."""
    counted = [at for at, line in enumerate(lines) if marks_in(line.tokens, 0)]
    found: dict[int, tuple[Place, int, int]] = {at: cue for at in counted if (cue := _cue(lines[at].tokens))[0]}
    for place in ("before", "between", "end"):
        here = {at: cue for at, cue in found.items() if cue[0] == place}
        if len(here) >= _LEAST and len(here) >= _MOSTLY * len(counted):
            return tuple(_without(line, here[at]) if at in here else line for at, line in enumerate(lines))
    return tuple(lines)


def _cue(tokens: Sequence[Token]) -> tuple[Place, int, int]:
    """Return where the one cue of a row stands, and from which token to which (exclusive); no place where none does."""
    none: tuple[Place, int, int] = ("", 0, 0)
    first = next((at for at, token in enumerate(tokens) if token.text in _QUOTES), None)
    if first is None:
        return none
    closing = _QUOTES[tokens[first].text]
    last = next((at for at in range(first + 1, len(tokens)) if tokens[at].text == closing), None)
    if last is None or any(token.text == closing for token in tokens[last + 1 :]):
        return none
    inside, others = tokens[first + 1 : last], (*tokens[:first], *tokens[last + 1 :])
    marks = marks_in(others, 0)
    words = [token for at, token in enumerate(others) if token.kind == "word" and not _in_mark(marks, at)]
    if not any(token.kind == "word" for token in inside) or len(words) < _SHORTEST or not marks:
        return none
    after = last + 1
    while after < len(tokens) and tokens[after].text in _PARTING:
        after += 1
    if first == 0 and marks[0].first <= after - last - 1:
        return "before", first, after
    if marks[0].first == 0 and marks[0].last <= first <= marks[0].last + 1 and after < len(tokens):
        return "between", first, after
    return ("end", first, after) if after == len(tokens) and first > marks[0].last else none


def _in_mark(marks: Sequence[Mark], at: int) -> bool:
    return any(mark.first <= at < mark.last for mark in marks)


def _without(line: Line, cue: tuple[Place, int, int]) -> Line:
    tokens = (*line.tokens[: cue[1]], *line.tokens[cue[2] :])
    return replace(line, tokens=tokens)
