"""Words of a line that say that the dance ends where it tells of: "The song stops in wall 7", "Take your bow"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.words import Token

_CLOSES = re.compile(
    r"\b(?:to (?:close|end|finish)|(?:take|and) (?:your |a )?bow|bow ?(?:[!.,)]|$)|ta ?-? ?da|finale|"
    r"(?:is|be) (?:the|our) last|(?:last|final) (?:wall|one|time|round)|"
    r"(?:music|song|band|singer|tune|record|track) (?:stops|ends|finishes|is over|dies|fades)|(?:it's|is) all over|"
    r"(?:that's|that is) (?:it|all|the end)|end of (?:the )?(?:dance|song|music|tune|track)|strike a pose|lights out)|"
    r"\( (?:the )?(?:last|final) \)|(?:^|[.!:;,)] )(?:the end|finish|end|stop|done)(?: there| here)? ?[.!]"
)


def closes(tokens: Sequence[Token]) -> bool:
    """Whether a line says that the dance is over."""
    return bool(_CLOSES.search(" ".join(token.low for token in tokens)))
