"""Eights that a sheet numbers, "8s no. 2", "6's #3", "8-count no. 4", told as "section 2": the 8 is no count.

Their numbers rise from one, and each opens its line; the order may call them so too. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_LENGTHS = ("6", "8")
_SEVERAL = (("'", "s"), ("s",), ("-", "count"), ("-", "counts"))
"""What stands behind the length, as words of its own."""
_NUMBERED = {"no", "nr", "number", "#"}
_FEWEST = 2


def with_eights_numbered(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such eights told as sections."""
    heads = [number for line in lines if (number := _named(line.tokens, 0)[0])]
    if len(heads) < _FEWEST or heads != list(range(1, len(heads) + 1)):
        return tuple(lines)
    return tuple(replace(line, tokens=told) if (told := _told(line.tokens)) != line.tokens else line for line in lines)


def _named(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the number of an eight that is named from a token on, and where the number stands; 0 where none is."""
    if at >= len(tokens) or tokens[at].text not in _LENGTHS:
        return 0, at
    said = [token.low for token in tokens[at + 1 : at + 3]]
    several = next((words for words in _SEVERAL if tuple(said[: len(words)]) == words), ())
    last = at + 1 + len(several)
    if not several or last >= len(tokens) or tokens[last].low not in _NUMBERED:
        return 0, at
    last += 2 if last + 1 < len(tokens) and tokens[last + 1].text == "." else 1
    numbered = last < len(tokens) and tokens[last].kind == "number" and tokens[last].text.isdecimal()
    return (int(tokens[last].text), last) if numbered else (0, at)


def _told(tokens: Sequence[Token]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        number, last = _named(tokens, at)
        done += [word_like(tokens[at], "section"), replace(tokens[last], glued=False)] if number else [tokens[at]]
        at = last + 1
    return tuple(done)
