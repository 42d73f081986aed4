"""How far an act told first in a sentence goes: for all of its walls, or for the one that it is told of."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_HEADS = (":", "-", ",", ";")
"""Marks behind an act that heads what follows: "Restarts: wall 3 after 16, wall 5 after 8"."""


def only_starts(sentence: Sentence, one: Statement, statements: Sequence[Statement]) -> bool:
    """Whether a wall is only said to begin somewhere: "Restart in wall 3 after 16: wall 3 begins at 12:00"."""
    if one.walls is None or one.place or one.loose or not one.faces or not all(begins for _, begins in one.faces):
        return False
    before = next((other for other, after in pairwise(statements) if after is one), None)
    if before is not None and before.walls is not None and before.place and not before.place.here:
        # "Restart: wall 3 after 16, wall 4 starts at 12:00" says where the restart leads.
        return one.walls.walls == tuple(wall + 1 for wall in before.walls.walls)
    colon = sentence.letters.find(":")
    return "w" in sentence.letters[: max(colon, 0)] and one.walls.first > colon


def restarts_one(sentence: Sentence, act: Atom, statements: Sequence[Statement]) -> bool:
    """Whether a restart is told of its own wall, and an extra of another: "restart in 3 after 16, bridge in 5"."""
    first = statements[0]
    headed = sentence.letters[act.last : act.last + 1] in _HEADS
    if headed or first.walls is None or first.place is None:
        return False
    return all(one.walls and any(own.first < one.walls.first for own in one.inserts) for one in statements[1:])


def starts_next(before: Statement, one: Statement) -> bool:
    """Whether a restart leads to the next wall: "restart in wall 3: after 24 begin again, wall 4 at 12:00"."""
    if before.walls is None or one.walls is None or before.walls.part or before.place is None or before.leave != "R":
        return False
    told = one.place or one.loose or one.bodies or one.changes or one.goes_on or not one.faces
    leads = all(act.act == "R" and act.last <= one.walls.first for act in one.acts) and bool(one.acts)
    return leads and not told and one.walls.walls == tuple(wall + 1 for wall in before.walls.walls)
