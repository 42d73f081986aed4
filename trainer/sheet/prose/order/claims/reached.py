"""How far a wall goes, told by itself: it is left there, if no sentence of its line says what else comes there.

"Wall 4 goes no further than the second eight", "the third wall? Eight counts".
"""

import re
from dataclasses import replace

from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_STRANGE = 2
"""More words that no table knows tell of something else: "the organ plays softly up to count 16"."""
_LENGTH = re.compile(r"[vDuUa]{0,3}n-?cu?(?:,>?)?[?]{0,2}[.,]?")
"""A sentence that is no more than a number of counts."""


def only_goes_so_far(context: Context, sentence: Sentence, told: Statement) -> bool:
    """Whether a statement tells up to where a wall goes, and nothing that is done."""
    walls = told.walls or context.walls
    if walls is None or not walls.walls or walls.at == "end" or walls.part or context.owner is not None:
        return False
    if context.heads or context.acts or sentence.letters.count("?") > _STRANGE:
        return False
    more = told.acts or told.bodies or told.changes or told.replaced or told.goes_on or told.again
    placed = told.place is not None or told.title is not None
    return placed and not more and any(_says_how_far(sentence, atom) for atom in sentence.atoms)


def _says_how_far(sentence: Sentence, atom: Atom) -> bool:
    """Whether a place is told as one that is reached: "as far as", "up to", "no further than"."""
    return atom.kind in ("place", "title") and "U" in sentence.letters[max(atom.first - 1, 0) : atom.last]


def take_length(context: Context, sentence: Sentence, told: Statement) -> None:
    """Let a sentence of a number of counts tell how far the wall before it goes: "The third wall? Eight counts."."""
    walls, loose = context.walls, [one for one in told.loose if one.act == "c"]
    if walls is None or not walls.walls or walls.at == "end" or context.claims or context.owner is not None:
        return
    if told.walls is None and told.place is None and len(loose) == 1 and _LENGTH.fullmatch(sentence.letters):
        told.place, told.loose, told.only = loose[0].spec, [], True


def left_there(told: Statement) -> Statement:
    """Return a statement on how far a wall goes as one that leaves it there."""
    return replace(told, acts=[Atom("act", 0, 0, act="R")], only=True)
