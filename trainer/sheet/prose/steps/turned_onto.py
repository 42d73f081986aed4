"""The foot that a turn ends on: "pivot ½ left on to the left foot", "quarter turn onto the left", "¼ left to LF"."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Protocol

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.weights import Weighted
from trainer.terms import Foot


class Turned(Protocol):
    """What of a phrase of turning counts here."""

    @property
    def amount(self) -> Fraction | None: ...
    @property
    def side(self) -> Foot | None: ...
    @property
    def word(self) -> str: ...


_ENDS = ("break", "open", "close", "facing")


def turned_onto(lexes: Sequence[Lex], at: int, turning: Turned) -> tuple[Lex | None, int]:
    """Return the note of weight that follows a turn, and the index after it; none where the words tell no such foot.

    With a side, but no word of a pivot, the foot steps: "turn a quarter left onto left".
    """
    sided, pivots = turning.side is not None, turning.word == "pivot"
    if sided and _leads_to_a_foot(lexes, at):
        return _note(lexes[at + 1], lexes[at]), at + 3
    if at + 1 >= len(lexes) or not is_task(lexes[at], "to", "on"):
        return None, at
    goes = turning.amount is not None and lexes[at].low in ("onto", "on to")
    if not (goes if not sided else pivots):
        return None, at
    foot = at + 1 + (lexes[at + 1].low in ("the", "your", "to"))
    after = foot + 1 + (foot + 1 < len(lexes) and lexes[foot + 1].kind == "part")
    ends = after >= len(lexes) or lexes[after].kind in _ENDS
    if foot >= len(lexes) or lexes[foot].kind not in ("side", "foot") or not ends:
        return None, at
    return _note(lexes[foot], lexes[at], moved=not pivots), after


def _note(foot: Lex, place: Lex, *, moved: bool = False) -> Lex:
    return Lex("weighted", Weighted("R" if foot.value is Foot.RIGHT else "L", moved), "weight", place.span)


def _leads_to_a_foot(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a turn ends on a foot that is surely one, and no side."""
    foot = lexes[at + 1 : at + 3]
    if len(foot) < 2 or not is_task(lexes[at], "to") or foot[0].kind != "side" or foot[1].low != "foot":
        return False
    return at + 3 == len(lexes) or lexes[at + 3].kind in _ENDS
