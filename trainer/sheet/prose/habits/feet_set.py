"""Feet that are set somewhere, the verb at the end: "The right foot forward set (1), the left toe tip forward set".

Behind a foot in its clause "set" is a step and no name of a section, whatever number follows. From memory: English as
teachers write it whose own language puts the verb last.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEET = {"foot", "feet", "heel", "toe", "toes", "tip", "ball"}
_ENDS = {",", ".", ";", ":", "(", ")"}
_LONGEST = 9
"""Words of a clause."""


def with_feet_placed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a foot understood as placed."""
    return tuple(_placed(line) if any(token.low == "set" for token in line.tokens) else line for line in lines)


def _placed(line: Line) -> Line:
    tokens = tuple(
        replace(token, low="placed") if token.low == "set" and _is_verb(line.tokens, at) else token
        for at, token in enumerate(line.tokens)
    )
    return replace(line, tokens=tokens, source="") if tokens != line.tokens else line


def _is_verb(tokens: Sequence[Token], at: int) -> bool:
    """Whether a foot stands before it in its clause, and the clause ends with it or a bracket."""
    first = next((on + 1 for on in range(at - 1, -1, -1) if tokens[on].text in _ENDS), 0)
    footed = any(token.low in _FEET for token in tokens[max(first, at - _LONGEST) : at])
    return footed and (at + 1 == len(tokens) or tokens[at + 1].text in _ENDS or tokens[at + 1].low in ("and", "with"))
