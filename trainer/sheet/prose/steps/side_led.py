"""The side of all turns of an item, told before its steps: "Turning to the left: L fwd with 1/4 turn, R back 1/2"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.words import Draft, Reading, Token

_LED = re.compile(
    r"^\W*(?:(?:now|then|all|always|still|keep|travelling|traveling|moving|while|and) )*"
    r"(?:turn|turns|turning|rolling|roll|spinning|round|going round) (?:round )?(?:to )?(?:the |your )?"
    r"(right|left|r|l) ?[:,;\-|(]"
)


def with_side_led(text: Sequence[Token], readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """Return the readings, turns that may go either way first to the side that the words begin with."""
    told = _LED.match(" ".join(token.low for token in text[:10]))
    if told is None:
        return tuple(readings)
    right = told[1].startswith("r")
    return tuple(replace(one, drafts=tuple(_to(draft, right=right) for draft in one.drafts)) for one in readings)


def _to(draft: Draft | None, *, right: bool) -> Draft | None:
    if draft is None or len(draft.turns) < 2:
        return draft
    return replace(draft, turns=tuple(sorted(draft.turns, key=lambda turn: (turn > 0) != right)))
