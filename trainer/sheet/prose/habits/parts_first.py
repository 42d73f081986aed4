"""Lengths with their parts behind them in brackets, told as parts with their lengths: "32 (A), 16 (B)" is "A (32)".

Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 4
"""Lengths of a play told so."""
_PARTS = {"A", "B", "C", "D", "E"}


def with_parts_first(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the lengths in a play each behind its part."""
    return [replace(line, tokens=tokens) if (tokens := _told(line.tokens)) else line for line in lines]


def _told(tokens: Sequence[Token]) -> tuple[Token, ...]:
    hits = [
        at
        for at in range(len(tokens) - 3)
        if tokens[at].kind == "number" and tokens[at + 1].text == "(" and tokens[at + 2].text in _PARTS
    ]
    if len(hits) < _FEWEST or len({tokens[at + 2].text for at in hits}) < 2:
        return ()
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        if at in hits:
            number, opened, part = tokens[at : at + 3]
            counts = replace(part, text="counts", low="counts", glued=False)
            done += [replace(part, glued=False), replace(opened, glued=False), replace(number, glued=False), counts]
            at += 3
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)
