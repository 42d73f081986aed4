"""Where toes, or a knee, point while the foot stands: "with the toes turned in", "so that the toes point right".

They are no step.
"""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Direction

_POINTED = {
    "turned", "pointing", "pointed", "point", "facing", "face", "angled", "turning", "angling", "twisted",
}  # fmt: skip
_AIMS = {Direction.IN, Direction.OUT}
_LEADS = {"so", "so that", "the", "your", "its", "that", "are", "is"}


def without_toes_turned(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the words that tell where the toes of a standing foot point."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        end = _told(lexes, at)
        if end == at:
            done.append(lexes[at])
            at += 1
            continue
        while done and (done[-1].low in _LEADS or is_task(done[-1], "with")):
            done.pop()
        at = end
    return done


def _told(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after "toes turned in" that begins at an index; the index itself where none does."""
    if (end := _with_a_part(lexes, at)) > at:
        return end
    toes = lexes[at].low == "toes" and lexes[at].kind == "part"
    # "So that the toes point right".
    point = lexes[at].low == "toe point" and any(lex.low in ("that", "so that") for lex in lexes[max(at - 2, 0) : at])
    if not (toes or point) or not _after_a_step(lexes[:at]):
        return at
    look = at + 1
    while toes and look < len(lexes) and lexes[look].low in _LEADS:
        look += 1
    if toes and look < len(lexes) and lexes[look].low in _POINTED:
        look += 1
    elif toes and not (look < len(lexes) and lexes[look].low.startswith(("inward", "outward"))):
        return at
    while look < len(lexes) and (lexes[look].low in ("the", "your") or is_task(lexes[look], "to")):
        look += 1
    aims = look < len(lexes) and (lexes[look].kind == "side" or lexes[look].value in _AIMS)
    return look + 1 if aims else at


def _with_a_part(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after a knee or toe turned in or out, after "with": "touch right, with the knee turned in"."""
    part = lexes[at].kind == "part" and lexes[at].value in ("knee", "toe", "heel")
    led = any(is_task(lex, "with") for lex in lexes[max(at - 3, 0) : at])
    turned = at + 2 < len(lexes) and lexes[at + 1].low in _POINTED | {"turn"} and lexes[at + 2].value in _AIMS
    return at + 3 if part and led and turned else at


def _after_a_step(lexes: Sequence[Lex]) -> bool:
    """Whether a heel of that foot was told before, with no other step since."""
    return any(lex.kind == "part" and lex.value == "heel" for lex in lexes) or any(
        lex.kind == "move" and lex.low.startswith("grind") for lex in lexes
    )
