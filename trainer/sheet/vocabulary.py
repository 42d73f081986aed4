"""The words of a clause: names of moves, figures and directions, the longest name first.

Capitals and hyphens make no difference: "Kick-ball-change" is "kick ball change".
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from typing import TypeVar

from trainer.dance.figures import Figure, figures, moves
from trainer.terms import Direction, Move

Name = tuple[str, ...]
T = TypeVar("T")

SIDES = {"right": 1, "left": -1}


def parts_of(text: str) -> Name:
    """Return the words of a name as they are compared."""
    return tuple(text.casefold().replace("-", " ").split())


@cache
def steps() -> Mapping[Name, Move | Figure]:
    """Return every name of a move or a figure; a move's own name is the move."""
    names: dict[Name, Move | Figure] = {}
    for figure in figures().values():
        names |= {parts_of(word): figure for word in figure.words}
    for row in moves().values():
        names |= {parts_of(word): row.move for word in (row.move.value, *row.words)}
    return names


@cache
def single_steps() -> Mapping[Name, Move]:
    """Return every name of a move."""
    return {name: what for name, what in steps().items() if isinstance(what, Move)}


@cache
def directions() -> Mapping[Name, Direction]:
    """Return the names of directions."""
    return {parts_of(direction.value): direction for direction in Direction}


def longest(words: Sequence[str], table: Mapping[Name, T]) -> tuple[T, int] | None:
    """Return what the longest name at the start of some words stands for, and how many words it has."""
    for length in range(min(len(words), 6), 0, -1):
        found = table.get(tuple(words[:length]))
        if found is not None:
            return found, length
    return None


@cache
def known_words() -> tuple[str, ...]:
    """Return all names that a clause may hold, for hints."""
    names: Iterable[Name] = (*steps(), *directions(), ("turning",), ("then",))
    return tuple(" ".join(name) for name in names)
