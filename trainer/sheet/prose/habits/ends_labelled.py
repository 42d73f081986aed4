"""Lines that only say where each section ends: "Finish: 9:00", "End facing the front", told as "Finish facing: 9:00".

One such line may head the ending of the dance; two or more that are written alike stand below the sections, and so does
one with nothing below it to dance. Common practice, no source.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.heads.headings import is_section_name
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_OPENINGS = (
    *((word,) for word in ("finish", "finishes", "finishing", "end", "ends", "ending")),
    ("facing", "at", "the", "end"),
    ("facing", "at", "end"),
    ("wall", "at", "the", "end"),
    ("wall", "at", "end"),
)
_LEADS = {"facing", "at", "on", "to", "wall", "with", "you", "now", "face", "looking", "direction", "up", "in"}
_SIGNS = {":", "=", "-", ">", BREAK}
_ARTICLES = {"the", "your", "our"}
_WHERE = {
    "front", "back", "home", "left", "right", "side", "wall", "again", "o'clock", "oclock", "o", "clock", "'",
    "starting", "start", "first", "position", ".", "(", ")", "[", "]", "same",
}  # fmt: skip
"""Words of the wall that is faced; none of them tells a step by itself in such a line."""
_LONGEST = 8
"""Tokens of such a line."""
_LEAST = 2


def with_ends_labelled(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those that only say where a section ends with the word of facing in them."""
    often = Counter(label for line in lines if (label := _label(line.tokens)))
    return [
        replace(line, tokens=_faced(line.tokens))
        if often[_label(line.tokens)] >= _LEAST or _heads_nothing(line, lines[at + 1 : at + 2])
        else line
        for at, line in enumerate(lines)
    ]


def _heads_nothing(line: Line, below: Sequence[Line]) -> bool:
    """Whether such a line is the last of the sheet, or has the heading of a section right below it."""
    return bool(_label(line.tokens)) and (not below or is_section_name(below[0].tokens[:_LONGEST]))


def _lead(tokens: Sequence[Token]) -> int:
    """Return how many tokens of a short line come before the wall that it names; 0 where it says more than that."""
    if not 1 < len(tokens) <= _LONGEST:
        return 0
    at = next((len(first) for first in _OPENINGS if tuple(one.low for one in tokens[: len(first)]) == first), 0)
    if not at:
        return 0
    least = at
    while at < len(tokens) and (tokens[at].text in _SIGNS or tokens[at].low in _LEADS | _ARTICLES):
        at += 1
    while at == len(tokens) and at > least and tokens[at - 1].low in _WHERE:
        at -= 1
    rest = tokens[at:]
    named = all(token.kind in ("clock", "facing") or token.low in _WHERE or token.text in HOURS for token in rest)
    return at if rest and named else 0


def _label(tokens: Sequence[Token]) -> str:
    """Return the words that open such a line; nothing where it is none."""
    return " ".join(token.low for token in tokens[: _lead(tokens)] if token.low not in _ARTICLES)


def _faced(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    at = _lead(tokens)
    if not at:
        return tokens
    word = tokens[0]
    return word, replace(word, text="facing", low="facing"), replace(word, kind="mark", text=":", low=":"), *tokens[at:]
