"""A turn that is told of one step among steps that are danced again: "the same, but the first step turns ¼ left".

Which step is told by its place, "on the third step", "the last step is a quarter turn left"; its drafts turn so, and
nothing else is changed.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.figures import moves
from trainer.sheet.prose.header.gloss import Gloss
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.steps.turns import Turning, with_turnings
from trainer.sheet.prose.words import Draft, Slot, Token

_PLACES = "|".join(ORDINALS)
_NUMBERS = "|".join(NUMBERS)
_PLACE = re.compile(
    rf"\b(?:(?P<nth>{_PLACES}|last|final)|(?P<th>\d) (?:st|nd|rd|th)) (?:step|count|beat|one)\b|"
    rf"\b(?:on|at|for) (?:the )?(?:(?:count|step|beat) )?(?:(?P<n>\d)(?! ?/)|(?P<word>{_NUMBERS}))\b|"
    rf"\b(?:on|at|for) the (?P<alone>{_PLACES}|last)\b"
)

_TURNS = re.compile(r"\b(?:quarter|half|eighth|turn\w*)\b|[1-7]/[248]|[¼½¾]")
_SHORT = 14
"""Tokens of what is told of one step."""


def turned_again(
    way: Sequence[Draft | None], slots: Sequence[Slot], text: Sequence[Token], gloss: Gloss
) -> tuple[Draft | None, ...] | None:
    """Return steps danced again with the turn that the words tell of one of them; None where they tell none."""
    words = " ".join(token.low for token in text)
    told = _PLACE.search(words)
    turning = next(
        (lex.value for lex in with_turnings(lexemes(tuple(text), gloss.short)) if isinstance(lex.value, Turning)), None
    )
    if told is None or turning is None or turning.amount is None or turning.side is None:
        return None
    at = _placed(told, way, slots)
    draft = way[at] if at is not None else None
    if at is None or draft is None:
        return None
    return (*way[:at], replace(draft, turns=turning.turns, then=Fraction(0)), *way[at + 1 :])


def tells_a_step_that_turns(text: Sequence[Token]) -> bool:
    """Whether words tell no more than the turn of one step: "with a quarter turn left on the third step"."""
    words = " ".join(token.low for token in text)
    return bool(_PLACE.search(words)) and bool(_TURNS.search(words)) and len(text) <= _SHORT


def _placed(told: re.Match[str], way: Sequence[Draft | None], slots: Sequence[Slot]) -> int | None:
    """Return the index of the step that is named by its place; None where there is none such."""
    name = told["nth"] or told["alone"]
    if name in ("last", "final"):
        return next((at for at in range(len(way) - 1, -1, -1) if _is_a_step(way[at])), None)
    number = ORDINALS[name] if name else NUMBERS[told["word"]] if told["word"] else int(told["th"] or told["n"])
    if told["nth"] or told["th"] or told["alone"]:
        return number - 1 if number <= len(way) else None
    return next((at for at, slot in enumerate(slots) if slot.label == str(number)), None)


def _is_a_step(draft: Draft | None) -> bool:
    """Whether a draft takes the weight."""
    return draft is not None and bool(draft.moves) and moves()[draft.moves[0]].weight == "takes"
