"""What tells the walls of the room by the names that they have anyhow: "Walls are called FRONT (12), BACK (6), ...".

Such a sentence explains words and lists no walls of the dance, whatever stands beside its hours.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.facing.walls_named import HOURS, OCLOCK, SIDES, WALLS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ROOM = {**SIDES, **{name: WALLS[name] for name in ("front", "home", "back", "rear")}}
_FEWEST = 3
"""Walls of the room that are told beside their hours."""
_BESIDE = {
    "the", "walls", "wall", "side", "sides", "hand", "handed", "of", "room", "hall",
    "is", "are", "at", "and", "called", "call",
    "calls", "names", "named", "name", "i", "we", "my", "our", "as", "in", "here", "this", "sheet", "known", "say", "o",
    "'", "means", "mean", "for", "h", "key", "facings", "directions", "to", "it", "that", "with", "on", "by",
} | OCLOCK  # fmt: skip
_ENDS = {".", "!"}


def without_walls_explained(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without sentences that only name the walls of the room; a line of nothing else goes."""
    plain = (replace(line, tokens=_without(line.tokens)) for line in lines)
    return tuple(line for line in plain if line.tokens)


def _without(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    kept: tuple[Token, ...] = ()
    first = 0
    for at, token in enumerate(tokens):
        if token.text in _ENDS or at + 1 == len(tokens):
            sentence = tokens[first : at + 1]
            kept += () if _only_names_walls(sentence) else sentence
            first = at + 1
    return kept


def _only_names_walls(sentence: Sequence[Token]) -> bool:
    """Whether a sentence tells walls of the room and the hour of each, and nothing else."""
    hours: list[Fraction] = []
    names: list[Fraction] = []
    for token in sentence:
        if token.low in _ROOM:
            names.append(_ROOM[token.low])
        elif token.kind in ("clock", "facing") and token.value is not None:
            hours.append(token.value)
        elif token.kind == "number" and token.text in HOURS:
            hours.append(HOURS[token.text])
        elif token.low not in _BESIDE and token.kind not in ("mark", "amp"):
            return False
    return hours == names and len(set(names)) == len(names) >= _FEWEST
