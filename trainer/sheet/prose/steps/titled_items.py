"""A title before the steps of its item, parted from them by a sign: "Side rock - rock right to side, recover left".

A colon says so by itself; a dash may as well part two steps. So this is a guess for items whose words do not fill their
counts as they stand: the title is spelled out by what follows, or tells nothing that does not follow.
"""

from collections.abc import Iterator, Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_LONGEST = 8
"""Lexemes of a title."""
_SIGNS = ("-", ".", "=", "|", ">")
_ACTING = {"foot", "run"}
_MOVING = {"move", "figure", "way", "prep", "part", "side", "foot", "turning", "turn"}


def titles_apart(lexes: Sequence[Lex]) -> Iterator[tuple[Lex, ...]]:
    """Yield the lexemes with a colon after their title, and without the title; nothing where none may stand there."""
    end = next((at for at, lex in enumerate(lexes) if lex.kind == "break" and lex.value in _SIGNS), 0)
    rest = end
    while rest < len(lexes) and lexes[rest].kind == "break":
        rest += 1
    steps = lexes[rest:]
    if not 0 < end <= _LONGEST or any(lex.kind in _ACTING for lex in lexes[:end]):
        return
    strange = sum(lex.kind == "unknown" for lex in lexes[:end])
    if strange and strange >= sum(lex.kind in _MOVING for lex in lexes[:end]):
        # Words that nobody could read are no title: they stand for a step.
        return
    if any(lex.kind == "break" for lex in lexes[:end]):
        # "Rock left forward, breathe | Recover right" are two steps.
        return
    if lexes[end].value == "." and any(lex.kind == "side" for lex in lexes[:end]):
        # "One step right forward. And left beside right." are two steps.
        return
    if lexes[end].value != "." and any(lex.kind == "break" and lex.value == lexes[end].value for lex in steps):
        # A sign that comes again parts steps.
        return
    if not any(lex.kind == "break" for lex in steps) or not any(lex.kind in _MOVING for lex in steps):
        return
    yield (*lexes[:end], lexes[end]._replace(value=":", low=":"), *steps)
    yield tuple(steps)


_LIST = 12
"""Lexemes of a title that lists what follows."""


def without_turns_told_again(lexes: Sequence[Lex]) -> Sequence[Lex]:
    """Return the lexemes without the turns that a title lists before a colon, where the steps after it tell them.

    "Vine left, quarter turn, scuff: left side, right behind, left forward turning 1/4 left, scuff".
    """
    colon = next((at for at, lex in enumerate(lexes) if lex.kind == "break" and lex.value == ":"), 0)
    title, steps = lexes[:colon], lexes[colon:]
    listed = any(lex.kind == "break" or is_task(lex, "and") for lex in title)
    turned = {lex.value for lex in title if lex.kind == "amount"}
    told = {lex.value for lex in steps if lex.kind == "amount"}
    if not 0 < colon <= _LIST or not turned <= told or not told:
        return lexes
    if any(lex.kind == "break" and lex.value == ":" for lex in steps[1:]):
        # "1/4 R: L back, 1/4 R: R side": the sheet puts a colon behind each turn.
        return lexes
    if turned and not any(lex.kind in ("move", "figure", "foot", "run") for lex in title):
        return _with_its_side(title, steps)
    if not listed:
        return lexes
    return (*(lex for at, lex in enumerate(title) if not _of_a_turn(title, at)), *steps)


def _of_a_turn(title: Sequence[Lex], at: int) -> bool:
    """Whether a lexeme is an amount, a word of turning, or the side that it turns to."""
    if title[at].kind in ("amount", "turn"):
        return True
    return title[at].kind == "side" and at > 0 and title[at - 1].kind in ("amount", "turn")


def _with_its_side(title: Sequence[Lex], steps: Sequence[Lex]) -> Sequence[Lex]:
    """Return steps that tell the turn of their title again, with the side that only the title has.

    "Turn a quarter to the left: step left forward with the quarter turn, right beside it".
    """
    side = next((lex for lex in title if lex.kind == "side"), None)
    at = next(at for at, lex in enumerate(steps) if lex.kind == "amount")
    end = next((end for end in range(at, len(steps)) if steps[end].kind == "break"), len(steps))
    if side is None:
        return (*title, *steps)
    if any(lex.kind == "side" for lex in steps[at:end]):
        return steps[1:]
    at += 1 + (at + 1 < end and steps[at + 1].kind == "turn")
    return (*steps[1:at], side._replace(span=steps[at - 1].span), *steps[at:])
