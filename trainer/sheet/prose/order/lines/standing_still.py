"""Counts in which the feet stay still, whatever else one does: "tip your hat for four counts without moving your feet".

They are told as the hold that they are: "hold for four counts".
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_FEET = r"(?:(?:your|the|both|our|their|all) )*(?:feet|foot)"
_KEPT = r"(?:are|is|stay|stays|staying|kept|keep|remain|remaining|held|standing)"
_STILL = re.compile(
    rf"\b(?:without (?:moving|using|lifting) {_FEET}|"
    rf"(?:with )?{_FEET} (?:{_KEPT} )*(?:still|planted|put|quiet|together and still|where they are)|"
    rf"{_FEET} (?:do not|don't|does not|doesn't|never|must not|may not|not) move|"
    rf"(?:nobody|no one|none of us) moves(?: {_FEET})?|"
    rf"(?:do not|don't|never) move {_FEET}|keep(?:ing|s)? {_FEET} (?:still|planted|quiet|where they are)|"
    r"(?:with )?no (?:steps|footwork|steps at all))(?= [,.;:)]|$| then\b| and\b| for\b)"
)
_AIR = r"(?:(?:up|high|out|wide|raised|open|off|in the air|to the sky|over your head) )*"
_POSED_HOLD = re.compile(
    r"\b(?:(?:raise|lift|throw|put|fling|stretch|open|spread|bring|hold|get) (?:\w+ ){0,2}(?:arms?|hands?|hats?)|"
    rf"(?:(?:both|your|the) )*(?:arms?|hands?|hats?)) ?{_AIR}(?:, )?(?:and |then |and then )?"
    r"(?=(?:hold|pause|freeze|stay|stand)\w*\b(?! your| the)(?: still)?(?: for| that for| it for)? "
    r"\w+ (?:counts?|beats?))"
)
"""What the arms do before a hold that has its length."""
_COUNTS = {"count", "counts", "beat", "beats", "cts"}
_LEADS = {"for", "over", "take", "during", "(", "a", "of", "in"}
_HELD = {"hold", "holds", "pause", "wait", "freeze"}
_OF_ORDER = {
    "wall",
    "walls",
    "after",
    "end",
    "tag",
    "bridge",
    "time",
    "then",
    "and",
    "in",
    "on",
    "at",
    "when",
    "through",
}


def told_standing_still(tokens: Sequence[Token]) -> tuple[Token, ...] | None:
    """Return a sentence with its one length, in which the feet are still, as a hold; None: it says no such."""
    words = [token.low for token in tokens]
    if (posed := _POSED_HOLD.search(" ".join(words))) and "(" not in posed[0]:
        # "Then raise your arms and hold for two counts".
        first = " ".join(words)[: posed.start()].count(" ")
        return (*tokens[:first], *tokens[first + posed[0].count(" ") :])
    still = _STILL.search(" ".join(words))
    if still is None or _HELD & set(words):
        return None
    first = " ".join(words)[: still.start()].count(" ")
    last = first + still[0].count(" ") + 1
    lengths = [span for at in range(len(tokens)) if (span := _length(tokens, at)) is not None]
    if len(lengths) != 1:
        return None
    begins, value, ends = lengths[0]
    start, end = min(first, begins), max(last, ends)
    between = (*words[ends:first], *words[last:begins])
    if any(word in STEP_WORDS or word in ("right", "left", "r", "l", "wall", "walls", ".") for word in between):
        return None
    while start and tokens[start - 1].kind == "word" and words[start - 1] not in _OF_ORDER | STEP_WORDS:
        # What the hands do meanwhile: "tip your hat".
        start -= 1
    place = replace(tokens[start], kind="word", glued=False, value=None)
    number = replace(place, kind="number", text=str(value), low=str(value))
    told = [replace(place, text=word, low=word) for word in ("hold", "for", "counts")]
    return (*tokens[:start], told[0], told[1], number, told[2], *tokens[end:])


def _length(tokens: Sequence[Token], at: int) -> tuple[int, int, int] | None:
    """Return where a length begins with a token, how long it is, and where it ends, brackets and joints included."""
    value, last, ordinal = number_at(tokens, at)
    if ordinal or last <= at or last >= len(tokens) or tokens[last].low not in _COUNTS:
        return None
    if at and tokens[at - 1].kind == "number":
        return None
    first, end = at, last + 1
    while first and tokens[first - 1].low in _LEADS:
        first -= 1
    end += end < len(tokens) and tokens[end].text == ")" and "(" in [token.text for token in tokens[first:at]]
    return first, value, end
