"""How much of a short part is danced, where the steps themselves say where it stops: "The short A is over here."."""

import re
from collections.abc import Sequence

from trainer.routine import Part, Routine
from trainer.sheet.prose.plays.symbols import Named
from trainer.sheet.prose.plays.told_items import Told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_STOPS = (
    r"(?:is|are) (?:over|done|finished|at an end|left|cut)|ends?|stops?|finish(?:es)?|leaves? off|breaks? off|goes?|"
    r"jumps?|leaves?|closes?"
)
_HERE = r"(?:at this (?:point|place|spot)|right here|here|at that point|on this (?:step|count))"
_SHORT = r"(?:short(?:er|ened)?|half|cut|small|little)"


def settle_within(items: Sequence[Told], lines: Sequence[Line], routine: Routine, named: Named) -> list[Token]:
    """Cut the marked parts that have no cut yet where their steps say so; return the words that say it."""
    said: list[Token] = []
    tokens = [token for line in lines for token in line.tokens]
    words = " ".join(token.low for token in tokens)
    for item in items:
        if item.part < 0 or item.cut is not None or item.mark not in ("short", "-", "*"):
            continue
        name = named.parts[item.part]
        match = re.search(rf"\b{_SHORT} (?:part )?{name.lower()} (?:{_STOPS}) {_HERE}\b", words)
        if match is None:
            continue
        first = words[: match.start()].count(" ")
        part = next(one for one in routine.parts if one.name == name)
        counts = _counts_before(part, tokens[first])
        if 0 < counts < part.counts:
            item.cut = counts
            said += tokens[first : first + match[0].count(" ") + 1]
    return said


def _counts_before(part: Part, place: Token) -> int:
    """The counts of a part whose steps are told above or before a place."""
    done = base = 0
    for section in part.sections:
        for event in section.events:
            if event.span is not None and (event.span.line, event.span.column) < (place.line, place.column):
                done = base + int(event.beat) + 1
        base += section.counts
    return done
