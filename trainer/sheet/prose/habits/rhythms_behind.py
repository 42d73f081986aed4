"""Steps whose rhythm is told behind them, "cross, side, cross in shuffle time", told as a figure: "shuffle: cross".

So it is where three steps stand before such words and have no counts of their own. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_RHYTHM = re.compile(
    r" ?,? (?:all )?(?:in|to|with|at|as) (?:a |an |the )?(?:shuffle|cha(?: -? ?cha)*|triple|chasse|chassé|polka)"
    r"(?: step)? ?(?:-? ?(?:time|timing|rhythm|tempo|speed|counts?|beat))(?= [.,;)]|$)"
)
_STEPS = 3
_JOINS = (",", "and", "then", "/", "+")
_ENDS = (".", ";", ":", "(", ")")
_FEET = {"r", "l", "right", "left", "rf", "lf"}


def with_rhythms_before(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rhythms told before their steps."""
    return tuple(replace(line, tokens=_told(line.tokens)) for line in lines)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    words = " ".join(token.low for token in tokens)
    match = _RHYTHM.search(words)
    if match is None:
        return tokens
    end = words[: match.start()].count(" ") + 1
    last = end + match[0].strip().count(" ") + 1
    start = _first_of(tokens, end)
    if start is None:
        return tokens
    place = tokens[start]
    name = replace(place, kind="word", text="shuffle", low="shuffle", value=None)
    colon = replace(name, kind="mark", text=":", low=":", glued=True)
    return (*tokens[:start], name, colon, *tokens[start:end], *_told(tokens[last:]))


def _first_of(tokens: Sequence[Token], end: int) -> int | None:
    """Return where the three clauses begin that end at a token, None where these are no steps without counts."""
    at, clauses = end, 1
    while at and tokens[at - 1].text not in _ENDS:
        joins = tokens[at - 1].low in _JOINS and tokens[at - 2].low not in _JOINS
        if joins and clauses == _STEPS:
            break
        clauses += joins
        at -= 1
    said = tokens[at:end]
    counted = any(token.kind == "number" for token in said)
    steps = any(token.low in STEP_WORDS for token in said) and not counted
    return at if steps and clauses == _STEPS and at < end else None
