"""A cross between two heels of one foot, "heel, cross, heel, together", told as the hook that it is: no step is made.

So it is where the words between the heels name no other foot but that which is crossed, in one line or in lines that
follow each other. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FOOT = r"(?:r|l|rf|lf|right|left)"
_WAY = r"(?: (?:forward|fwd|diagonal|diag|diagonally|front|out|touch|tap|dig|in|to|the))*"
_MARKS = r"(?:[ ,;:.()\[\]|\-]|\d)*"
_HEELS = re.compile(
    rf"(?<!\S)(?:(?P<a>{_FOOT}) )?heel{_WAY}(?: (?P<a2>{_FOOT}))?{_WAY} {_MARKS}(?<=\W)"
    rf"(?:(?P<b>{_FOOT}) )?(?P<cross>cross|crosses)(?: (?P<b2>{_FOOT}))?"
    rf"(?: (?:in front(?: of)?|over|across)(?: (?:the )?{_FOOT})?(?: (?:shin|leg|foot|ankle|knee))?)? {_MARKS}(?<=\W)"
    rf"(?:(?P<c>{_FOOT}) )?heel(?!\w)(?: (?:forward|fwd|diagonal|diag))*(?: (?P<c2>{_FOOT})(?!\w))?"
)

_ROWS = 3
"""Lines of two heels and what is between them."""


def with_heels_crossed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such crosses told as hooks."""
    hooks: set[int] = set()
    for at in range(len(lines)):
        hooks |= _hooks(lines[at : at + _ROWS])
    return tuple(_told(line, hooks) for line in lines) if hooks else tuple(lines)


def _hooks(lines: Sequence[Line]) -> set[int]:
    """Return the tokens, by identity, that tell such a cross in some lines."""
    tokens = [token for line in lines for token in line.tokens]
    starts, length = {}, 0
    for token in tokens:
        starts[length] = token
        length += len(token.low) + 1
    words = " ".join(token.low for token in tokens)
    found = set()
    for match in _HEELS.finditer(words):
        feet = {name[0] for key in ("a", "a2", "b", "b2", "c", "c2") if (name := match[key])}
        if len(feet) < 2:
            found.add(id(starts[match.start("cross")]))
    return found


def _told(line: Line, hooks: set[int]) -> Line:
    tokens = tuple(_hook(token) if id(token) in hooks else token for token in line.tokens)
    return replace(line, tokens=tokens, source="") if tokens != line.tokens else line


def _hook(token: Token) -> Token:
    return replace(token, text="hook", low="hook")
