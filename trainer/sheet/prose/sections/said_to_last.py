"""Counts that a hold or a drag is said to last for, held against the counts that are given to its words."""

import re

from trainer.sheet.prose.number_words import NUMBERS
from trainer.sheet.prose.sections.each_count import steps_told
from trainer.sheet.prose.words import Item

_LASTS = re.compile(
    r"\b(?:drag|drags|dragging|draw|draws|drawing|slide|slides|sliding|pull|sweep|sweeps|sweeping)\b[^;.:]*?"
    r"(?:\b(?:for|over) |[,(] )(?:all |the |full |whole |of |next |remaining )*(?P<n>\d{1,2}|[a-z]+)"
    r"(?: (?:whole |full |slow |long )?(?:counts|beats)\b|(?= [,;.()]|$))"
)
_HELD = re.compile(
    r"\b(?:hold|holds|holding|pause|pauses|wait|freeze)(?: still| there| it)?(?: for)?(?: all| the| full| of| next)* "
    r"(?P<n>\d{1,2}|[a-z]+)(?: (?:whole |full |slow |long )?(?:counts|beats)\b|(?= [,;.()]|$))"
)
_SEVERAL = 2
"""A step told on one count may go on through those below."""


def lasts_too_long(item: Item, *, counted: bool) -> int:
    """Return the counts that something is said to last for where its item has fewer; 0 where all is well.

    `counted` says that its block tells a step for each count: a hold then has no counts of those told before it.
    """
    beats = {slot.beat // 1 for slot in item.slots}
    if len(beats) < _SEVERAL:
        return 0
    words = " ".join(token.low for token in item.text)
    for match in (*_LASTS.finditer(words), *_HELD.finditer(words)):
        before = item.text[: words[: match.start()].count(" ")]
        taken = steps_told(before) if match.re is _HELD and counted and len(beats) == len(item.slots) else 0
        number = int(match["n"]) if match["n"].isdecimal() else NUMBERS.get(match["n"], 0)
        # "Hold 3" may end with the clock of its row.
        clock = match["n"] in ("3", "6", "9", "12") and match.end() == len(words)
        if number and number + taken > len(beats) and not clock:
            return number
    return 0
