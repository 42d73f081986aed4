"""The shoulder that a turn goes over, told apart from its turn: "½ turn shuffle over the left shoulder"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.turns import Turning

_OVER = ("over", "across", "by", "towards", "toward", "round", "around")
_FILL = ("the", "your", "her", "his", "our")
_SHOULDERS = ("shoulder", "shoulders", "shldr")


def with_shoulders(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with the shoulder named after a figure or a clause as the side of its turn."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        end = _shoulder_at(lexes, at)
        if end and _turned(done, lexes[end - 2], lexes[at]):
            at = end
            continue
        done.append(lexes[at])
        at += 1
    return done


def _shoulder_at(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after "over the left shoulder" that begins here; 0: none does."""
    if lexes[at].low not in _OVER:
        return 0
    look = at + 1
    while look < len(lexes) and lexes[look].low in _FILL:
        look += 1
    sided = look + 1 < len(lexes) and lexes[look].kind in ("side", "foot") and lexes[look + 1].low in _SHOULDERS
    return look + 2 if sided else 0


def _turned(done: list[Lex], side: Lex, over: Lex) -> bool:
    """Give the turn that is told last its side, or a figure a turn; return whether there is one."""
    alone = False
    for back in range(len(done) - 1, -1, -1):
        lex = done[back]
        if lex.kind == "turning":
            if lex.value.side not in (None, side.value):
                return False
            done[back] = lex._replace(value=lex.value._replace(side=side.value))
            return True
        if lex.kind in ("break", "open", "close") or is_task(lex, "and", "then"):
            alone = True
        elif lex.kind == "figure" and not alone:
            done.append(Lex("turning", Turning(None, side.value, "turn"), "turn", over.span))
            return True
    return False
