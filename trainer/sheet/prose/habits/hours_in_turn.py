"""Hours that the walls begin at, one then the next: "so 12 then 9 then 6 then 3", "facing 3, then 6, then 9".

They go round by the same turn each time; so they are hours and no counts, and are told as clock times with commas.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Token

_JOINS = {"then", ",", "and", "back", "to", "at", "again", "next", "-", ">", "round"}
_THEN = {"then", ">", "next"}
_COUNTING = {"count", "counts", "beat", "beats", "on", "cts", "ct", "for", "walls", "wall", "section", "sections"}
_LEAST = 3
_BETWEEN = 5
"""Tokens between two hours at most."""
_ROUND = (3, 6, 9)


def with_hours_in_turn(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, hours that follow one another told as clock times."""
    return tuple(replace(line, tokens=_told(line.tokens)) if _may_tell(line.tokens) else line for line in lines)


def _may_tell(tokens: Sequence[Token]) -> bool:
    hours = sum(token.text in HOURS for token in tokens)
    return hours >= _LEAST and not _THEN.isdisjoint(token.low for token in tokens)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    for first, token in enumerate(tokens):
        if token.text not in HOURS or token.kind != "number" or (first and tokens[first - 1].low in _COUNTING):
            continue
        hours = _run(tokens, first)
        if len(hours) < _LEAST or not _goes_round([int(tokens[at].text) for at in hours]):
            continue
        joins = {one.low for one in tokens[first : hours[-1]] if one.low in _THEN}
        if not joins:
            continue
        done = [*tokens[:first]]
        for at in hours:
            done += [mark_like(tokens[at], ",")] * (at > first)
            text = f"{tokens[at].text}:00"
            done.append(replace(tokens[at], kind="clock", text=text, low=text, value=HOURS[tokens[at].text]))
        return (*done, *tokens[hours[-1] + 1 :])
    return tokens


def _run(tokens: Sequence[Token], first: int) -> list[int]:
    """Return where the hours stand that follow one another from a token on."""
    found = [first]
    for at in range(first + 1, len(tokens)):
        if tokens[at].kind == "number" and tokens[at].text in HOURS and at > found[-1] + 1:
            found.append(at)
        elif tokens[at].low not in _JOINS or at - found[-1] > _BETWEEN:
            break
    return found


def _goes_round(hours: Sequence[int]) -> bool:
    turns = {(after - before) % 12 for before, after in pairwise(hours)}
    return len(turns) == 1 and turns <= set(_ROUND)
