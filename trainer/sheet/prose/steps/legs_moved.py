"""Verbs of turning that move a part of the leg and not the dancer: "turn the right toe out", "circle the left foot".

The toes of a standing foot fan; a leg that circles goes round over the floor.
"""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex
from trainer.terms import Move

_TURNS = {"turn", "turns", "turning", "turned"}
_CIRCLES = {"circle", "circles", "circling", "arc", "curve"}
_OWNERS = {"the", "your", "my"}
_FANNED = {"toe", "heel"}
_WAYS = {"way", "side", "to"}


def with_legs_moved(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with a fan or a ronde for the word of turning whose object is a toe or a leg."""
    done = list(lexes)
    for at, lex in enumerate(lexes):
        if lex.kind != "turn":
            continue
        if lex.low in _TURNS and (_part_after(lexes, at) in _FANNED or _turned_itself(lexes, at)):
            done[at] = lex._replace(kind="move", value=Move.FAN)
        elif lex.low in _CIRCLES and _part_after(lexes, at) in ("foot", "toe"):
            done[at] = lex._replace(kind="move", value=Move.RONDE)
    return done


def _part_after(lexes: Sequence[Lex], at: int) -> str:
    """Return the part of a foot that a verb moves: "turn the right toe"; nothing where it moves none."""
    look = at + 1
    while look < len(lexes) and lexes[look].low in _OWNERS:
        look += 1
    look += look < len(lexes) and lexes[look].kind in ("side", "foot")
    return str(lexes[look].value) if look < len(lexes) and lexes[look].kind == "part" else ""


def _turned_itself(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a toe turns: "right toes turn out"."""
    fanned = at > 0 and lexes[at - 1].kind == "part" and lexes[at - 1].value in _FANNED
    goes = at + 1 < len(lexes) and lexes[at + 1].kind == "way" and lexes[at + 1].low in ("out", "in")
    return fanned and goes
