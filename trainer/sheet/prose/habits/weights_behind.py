"""Notes of weight behind the count of their step: "bring the foot back in on 2, weight on it" is told before the count.

Else they seem to be words of the next count.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_OPENS = {"weight", "with", "taking", "take", "full", "putting", "transferring", "all", "your"}
_INSIDE = {
    "weight", "with", "on", "it", "to", "the", "your", "full", "taking", "take", "that", "foot", "now", "onto", "right",
    "left", "all", "of", "this", "putting", "transferring", "r", "l", "is", "goes", "stays", "there", "rf", "lf",
}  # fmt: skip
_ENDS = {".", ",", ";", "!", ")"}
_LONGEST = 8
"""Tokens of a note."""


def with_weights_before_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such notes in front of the "on 2" that they stand behind."""
    return tuple(replace(line, tokens=told) if (told := _told(line.tokens)) != line.tokens else line for line in lines)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    for at in range(1, len(tokens) - 2):
        if tokens[at].low != "on" or tokens[at + 1].kind != "number" or tokens[at - 1].kind != "word":
            continue
        parted = tokens[at + 2].text in (",", "(")
        first = at + 2 + parted
        last = _end(tokens, first)
        if last and (parted or tokens[first].low != "with"):
            closing = last + (tokens[at + 2].text == "(" and last < len(tokens) and tokens[last].text == ")")
            comma = replace(tokens[at + 1], kind="mark", text=",", low=",", glued=True, value=None)
            told = (*tokens[:at], comma, *tokens[first:last], *tokens[at : at + 2])
            return (*told, *_told((tokens[at + 1], *tokens[closing:]))[1:]) if closing < len(tokens) else told
    return tokens


def _end(tokens: Sequence[Token], first: int) -> int:
    """Return where a note of weight ends that begins at a token: at the end of its clause; 0 where there is none."""
    if first >= len(tokens) or tokens[first].low not in _OPENS:
        return 0
    last = first
    while last < len(tokens) and tokens[last].low in _INSIDE:
        last += 1
    closed = last == len(tokens) or tokens[last].text in _ENDS
    said = {token.low for token in tokens[first:last]}
    return last if closed and "weight" in said and last - first <= _LONGEST else 0
