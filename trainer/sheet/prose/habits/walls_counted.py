"""Walls told by numbers in words, each at the head of its sentence: "One, the whole dance. Two, all of it".

Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 4
"""Walls that are told so."""
_SAID = {"whole", "dance", "all", "first", "half", "full", "complete", "restart", "start", "tag", "counts", "eight"}
"""One of these is said of at least two of them."""


def with_counted_walls(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, a word for a wall before each number that opens a sentence about it."""
    found: list[tuple[int, int]] = []
    for row, line in enumerate(lines):
        for at, token in enumerate(line.tokens[:-1]):
            opens = not at or line.tokens[at - 1].text in (".", "!", ";")
            told = token.kind == "word" and NUMBERS.get(token.low) == len(found) + 1
            if opens and told and line.tokens[at + 1].text in (",", ":"):
                found.append((row, at))
    if len(found) < _FEWEST or sum(_is_said(lines[row].tokens, at) for row, at in found) < 2:
        return list(lines)
    done = list(lines)
    for number, (row, at) in reversed(list(enumerate(found, 1))):
        tokens = done[row].tokens
        wall = replace(tokens[at], text="wall", low="wall")
        digits = replace(tokens[at], kind="number", text=str(number), low=str(number), glued=False)
        colon = replace(tokens[at + 1], text=":", low=":")
        done[row] = replace(done[row], tokens=(*tokens[:at], wall, digits, colon, *tokens[at + 2 :]))
    return done


def _is_said(tokens: Sequence[Token], at: int) -> bool:
    return bool(_SAID & {token.low for token in tokens[at + 2 : at + 6]})
