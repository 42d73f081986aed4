"""A turn whose place in its figure is told before how much it is: "sailor step, turning on the first step ¼ left".

It is told the usual way, "turning ¼ left on the first step"; "on step one" is "on the first step".
"""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_ORDINALS = ("first", "second", "third", "fourth", "last")
_LEADS = ("on", "at", "with", "in", "during")


def with_turns_placed(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with how much is turned before the step on which it is."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        place, end = _place(lexes, at + 1) if lexes[at].kind == "turn" else ([], at)
        amount = end + (end < len(lexes) and lexes[end].kind == "break" and lexes[end].value == ",")
        last = _amount_end(lexes, amount) if place and not _told_before(lexes, at) else amount
        if last > amount:
            done += [lexes[at], *lexes[amount:last], *place]
            at = last
            continue
        done.append(lexes[at])
        at += 1
    return done


def _told_before(lexes: Sequence[Lex], at: int) -> bool:
    """Whether how much is turned stands before the word of turning: "quarter turn on the first step"."""
    return at > 0 and lexes[at - 1].kind in ("amount", "side")


def _place(lexes: Sequence[Lex], at: int) -> tuple[list[Lex], int]:
    """Return the words that tell a step of a figure, and the index after them; none where none stand here."""
    if at >= len(lexes) or lexes[at].low not in _LEADS:
        return [], at
    first = at + 1 + (at + 1 < len(lexes) and lexes[at + 1].low == "the")
    if first + 1 >= len(lexes):
        return [], at
    one, two = lexes[first], lexes[first + 1]
    if one.low in _ORDINALS and (is_task(two, "count") or two.low == "step"):
        return list(lexes[at : first + 2]), first + 2
    if one.low == "step" and two.kind == "number" and 0 < two.value < len(_ORDINALS):
        nth = two._replace(kind="glue", value=None, low=_ORDINALS[two.value - 1])
        return [*lexes[at:first], nth, one], first + 2
    return [], at


def _amount_end(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after an amount and its side; the same index where no amount stands here."""
    first = at
    while at < len(lexes) and lexes[at].low in ("a", "an", "by", "of"):
        at += 1
    if at >= len(lexes) or lexes[at].kind != "amount":
        return first
    at += 1
    side = at
    while side < len(lexes) and (is_task(lexes[side], "to", "of") or lexes[side].low in ("the", "to", "turn")):
        side += 1
    return side + 1 if side < len(lexes) and lexes[side].kind == "side" else at
