"""The wall after the one told of, where it is the one of which more is told: "The next wall is only half".

It is called by its number, so that what is said of it is not taken for more of the wall before. Common practice, no
source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.text.like import number_like, word_like
from trainer.sheet.prose.words import Token

_NEXT = re.compile(
    r"^(?:(?:and |but |then |on |in |during |for )*)"
    r"(?P<name>(?:the )?(?:next|following) (?:wall|one|time(?: through| round)?|round|rotation)|"
    r"(?:the )?(?:wall|one|round|time) (?:after (?:that|this|it)|that follows|that comes next|which follows))"
    r"(?= ?,? (?:is|stops|ends|has|goes|lasts|only|gets|just|(?:you|we) (?:only |just )?(?:do|dance|stop|get|go)|"
    r"dance|do|stop|restart|restarts|leave|:)(?!\w))"
    r"(?=[^.;]*\b(?:half|short|shorter|section|sections|counts?|beats|eights?|\d+)\b)"
    r"(?![^.;]*\b(?:tag|whole|full|normal|starts|begins)\b)"
)
_WALLS = {"wall", "walls"}
_JOINS = {",", "and", "&"}
_DANCED = {"danced", "dancing", "done", "dance", "did", "doing", "after"}
_TIMES = {"walls", "times", "rounds", "wall"}
_WHOLE = {"full", "whole", "complete", "it"}
_NEAR = 12
"""Tokens that are looked at from where a sentence may go on."""


def with_next_walls(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return what is told of walls, each such wall by its number."""
    done: list[Token] = []
    last, at = 0, 0
    while at < len(tokens):
        last = _named(tokens, at) or last
        match = (
            _NEXT.match(" ".join(token.low for token in tokens[at : at + 3 * _NEAR])) if _opens(tokens, at) else None
        )
        if match is None or not last:
            done.append(tokens[at])
            at += 1
            continue
        start = match.start("name")
        lead = match[0][:start].count(" ")
        done += tokens[at : at + lead]
        last += 1
        done += [word_like(tokens[at + lead], "wall"), number_like(tokens[at + lead], last)]
        at += lead + match["name"].count(" ") + 1
    return tuple(done)


def _opens(tokens: Sequence[Token], at: int) -> bool:
    """Whether a sentence, or a part of one, begins at a token."""
    before = tokens[at - 1] if at else None
    return before is not None and (before.text in (".", ";", ",", ":", "!", ")") or before.low in _TIMES)


def _named(tokens: Sequence[Token], at: int) -> int:
    """Return the number of the last wall that is named from a token on; 0 where none is."""
    if tokens[at].low in _WALLS:
        number, last = _number(tokens, at + 1)
        while number and last < len(tokens) and tokens[last].low in _JOINS:
            more, end = _number(tokens, last + 1)
            if more <= number:
                break
            number, last = more, end
        return number
    if tokens[at].low in _DANCED:
        here = at + 1
        while here < len(tokens) and tokens[here].low in _WHOLE:
            here += 1
        if tokens[here : here + 1] and tokens[here].low == "twice":
            return 2
        number, last = _number(tokens, here)
        while number and last < len(tokens) and tokens[last].low in _WHOLE:
            last += 1
        return number if number and last < len(tokens) and tokens[last].low in _TIMES else 0
    return 0


def _number(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    if at >= len(tokens):
        return 0, at
    value, last, _ = number_at(tokens, at)
    return (value, last) if last > at else (0, at)
