"""What sentences about walls say besides: when it comes, in other words, where the wall ends, which walls have none.

"Each time you finish a wall at the front, that is after walls 2 and 4, ..." is told by its walls alone; "walls 1, 3 and
5 have none" tells of nothing; "starts at 6 and stops at 9" is where a wall begins. Common practice, no source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.words import Token

_IN_OTHER_WORDS = re.compile(
    r"^(?:each|every) time (?:that )?(?:you|we|the dance|it|everybody)\b[^:;]{0,60}? "
    r"(?P<mark>[,(]) (?:(?:that is|that's|this is|i \. e \.|ie|meaning|namely|which is|so|in other words)(?: ,)? )?"
    r"(?=(?:after|at the end of|end of|in|on) (?:the )?(?:walls?|w)\b)"
)
_WALLS = r"(?:walls?|w) \d+(?: ?(?:,|and|&|or|to|-) ?(?:wall )?\d+)*|(?:all )?(?:the )?others?(?: walls)?"
_NONE = r"(?:none|nothing|neither|no (?:tag|bridge|restart|extra|change|ending)s?)"
_HAVE_NONE = re.compile(
    rf"^(?:and |but )?(?:the )?(?:{_WALLS}) (?:have|has|get|gets|need|needs|see|know) {_NONE}\b[^:;]{{0,20}}$"
)
_STOPS_AT = re.compile(
    r"\b(?:starts?|begins?) (?:at |facing |from |on |the )*(?P<from>\S+)(?: o'clock)? "
    r"(?P<rest>(?:and|,|but) (?:it )?(?:stops|finishes|ends|ends up|leaves you) "
    r"(?:at|facing|on) (?:the )?\S+(?: o'clock)?)"
    r"(?= [.,;]|$)"
)
_FIRST_TIME = re.compile(r"\( (?:which is |that is |at |facing )?[\w:']+(?: o'clock)? (?:the )?(?:very )?first time \)")

_LETTER = re.compile(r"^(?:\( )?[a-z] (?:\) )?[=:\-] (?=(?:wall \d+ |the )?re ?-? ?starts?\b)")
"""A short form that is explained by all that is told of it: "(R) = restart on wall 3 after section 2"."""
_HERE = re.compile(r"\bhere (?=(?:at|after) (?:the )?end\b)")


def without_asides(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence without what it says besides; nothing of one that says which walls have none."""
    words = " ".join(token.low for token in tokens)
    if _HAVE_NONE.match(words.rstrip(" .")):
        return ()
    told = list(tokens)
    if other := _IN_OTHER_WORDS.match(words):
        told = _cut(told, words, 0, other.end())
        closes = next((at for at, token in enumerate(told) if token.text == ")"), 0)
        if other["mark"] == "(" and closes:
            del told[closes]
        words = " ".join(token.low for token in told)
    for plain in (_LETTER, _HERE):
        if said := plain.search(words):
            told = _cut(told, words, *said.span())
            words = " ".join(token.low for token in told)
    if stops := _STOPS_AT.search(words):
        told = _cut(told, words, *stops.span("rest"))
        words = " ".join(token.low for token in told)
    if first := _FIRST_TIME.search(words):
        told = _cut(told, words, *first.span())
    return tuple(told)


def _cut(tokens: list[Token], words: str, first: int, last: int) -> list[Token]:
    """Return the tokens without those whose words stand between two places of their text."""
    start = words[:first].count(" ")
    end = start + len(words[first:last].split())
    return [*tokens[:start], *tokens[end:]]
