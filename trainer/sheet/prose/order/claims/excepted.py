"""Walls that a series leaves out: "a tag after every wall except the third", "but not after the last".

Common practice, no source.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.order.claims.claims import Key, Wall
from trainer.sheet.prose.words import Token

_SERIES = re.compile(
    r"\b(?:after|at the end of|following|behind) (?:every|each|all)\b"
    r"(?: (?:other|second|third|even|odd|full|single|2 nd|3 rd|the))* (?:walls?|times?)\b"
)
_WHICH = rf"(?:the )?(?:walls? (?P<number>\d+)|(?P<nth>{'|'.join(ORDINALS)}|last|final)(?: wall| one| time)?)\b"
_NOT = (
    r"(?:but not|not|never|except(?: for)?|excepting|apart from|other than|bar|save for|excluding|but for|"
    r"no (?:tag|bridge|extra|hold|repeat))"
)
_EXCEPTED = re.compile(
    rf"(?:,? ?\(? ?)\b{_NOT}(?: (?:after|at the end of|on|in|for|there))* {_WHICH}"
    r"(?: (?:and|or|,) (?:walls? )?(?P<second>\d+))?(?: ?,? (?:though|however|of course|because)\b[^.;:!]*)?(?: ?\))?"
)
LAST = 0
"""Stands for the last wall, whichever it is."""


@dataclass(frozen=True, slots=True)
class Excepted:
    """What a line leaves out of a series."""

    tokens: tuple[Token, ...]
    """The line without it."""
    walls: tuple[int, ...]
    """The walls; 0 is the last one."""


def without_exceptions(tokens: Sequence[Token]) -> Excepted:
    """Return a line that tells a series of walls without those that it leaves out, and these."""
    words = " ".join(token.low for token in tokens)
    series = _SERIES.search(words)
    if series is None:
        return Excepted(tuple(tokens), ())
    walls: list[int] = []
    kept: list[Token] = []
    at = 0
    for found in _EXCEPTED.finditer(words, series.end()):
        first, last = words[: found.start()].count(" "), words[: found.end()].rstrip().count(" ") + 1
        first += found[0].startswith(" ")
        kept += tokens[at:first]
        at = last
        walls.append(int(found["number"]) if found["number"] else ORDINALS.get(found["nth"], LAST))
        walls += [int(found["second"])] if found["second"] else []
    return Excepted((*kept, *tokens[at:]), tuple(walls))


def leave_out(walls: Mapping[Key, Wall], excepted: Mapping[int, Sequence[int]]) -> None:
    """Take back what is put into walls that a line leaves out of its series."""
    if not any(excepted.values()):
        return
    ends = [key[1] for key, wall in walls.items() if any(claim.leave == "end" for claim in wall.claims)]
    for (part, number), wall in walls.items():
        if part:
            continue
        meant = {number, LAST} if number in ends else {number}
        for claim in wall.claims:
            if meant & set(excepted.get(claim.unit, ())):
                claim.inserts = []
        wall.claims = [one for one in wall.claims if one.inserts or one.leave != "continue" or one.change]
