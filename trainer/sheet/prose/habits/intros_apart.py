"""A danced intro whose steps begin in the middle of a line: "Eight beats, danced once. Introduction: (1) sway right".

The sentence that begins with its name, up to a colon, and counts from 1, stands in a line of its own.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import Line

_ENDS = {".", "!", ";"}
_NAME = 12
"""Tokens from the start of the sentence to its colon."""
_LEAST = 3
"""Counts of an intro that is told so."""


def with_intros_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each such intro on its own."""
    done: list[Line] = []
    for line in lines:
        cut = _cut(line)
        if cut:
            done.append(replace(line, tokens=line.tokens[:cut], source=""))
        done.append(replace(line, tokens=line.tokens[cut:], source="") if cut else line)
    return tuple(done)


def _cut(line: Line) -> int:
    """Return where the sentence of an intro begins within a line, 0 where none does."""
    for at in range(1, len(line.tokens)):
        if line.tokens[at - 1].text not in _ENDS:
            continue
        name = [token.text for token in line.tokens[at : at + _NAME]]
        colon = name.index(":") if ":" in name else 0
        if not colon or extra_kind(line.tokens[at : at + colon]) != "intro":
            continue
        marks = marks_in(line.tokens[at:], 0)
        if len(marks) >= _LEAST and marks[0].start.number == 1:
            return at
    return 0
