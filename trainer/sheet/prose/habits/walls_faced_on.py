"""Walls that go on in a list without their words: "The fourth wall faces 9, the fifth 12, the sixth 3".

Each is told in full, "the fifth wall faces 12". Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_WALLS = {"wall", "walls", "round", "time"}
_VERBS = {"faces", "face", "starts", "start", "begins", "begin", "facing", "starting", "looks"}
_JOINS = {",", "and", "&", ";"}
_NEAR = 3
"""Tokens at most between a wall and its verb: "therefore", "then"."""


def with_walls_faced_on(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, in each list of walls the word for a wall and its verb with every ordinal or number."""
    return [replace(line, tokens=_told(line.tokens)) for line in lines]


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    done = list(tokens)
    at = 0
    while at < len(done):
        if done[at].low in _VERBS and _is_of_a_wall(done, at):
            verb, past = done[at], _past_the_facing(done, at + 1)
            while past and (more := _next_wall(done, past)):
                named, hour = more
                wall = [] if any(one.low in _WALLS for one in done[named - 2 : named]) else [_word(verb, "wall")]
                told = [] if any(one.low in _VERBS for one in done[named:hour]) else [_word(verb, verb.low)]
                done[named:named] = [*wall, *told]
                past = hour + len(wall) + len(told) + 1
            at = max(at, past)
        at += 1
    return tuple(done)


def _is_of_a_wall(tokens: Sequence[Token], at: int) -> bool:
    """Whether a verb is that of a wall with its number: "the fourth wall therefore faces"."""
    for place in range(max(at - _NEAR, 0), at):
        before, after = tokens[place - 1] if place else None, tokens[place + 1]
        numbered = (before is not None and before.low in ORDINALS) or after.kind == "number"
        if tokens[place].low in _WALLS and numbered:
            return True
    return False


def _past_the_facing(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a facing, with the words before and behind it; 0 where there is none."""
    at += at < len(tokens) and tokens[at].low in ("at", "to", "on", "facing", "towards")
    if at >= len(tokens) or not _is_facing(tokens[at]):
        return 0
    return at + 1 + (at + 1 < len(tokens) and tokens[at + 1].low == "o'clock")


def _next_wall(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """Return the index after the next wall of a list, and where its facing stands."""
    first = at
    while first < len(tokens) and tokens[first].low in _JOINS:
        first += 1
    if first == at:
        return None
    first += first < len(tokens) and tokens[first].low == "the"
    named = [token.low for token in tokens[first : first + 2]]
    if len(named) < 2 or not (named[0] in ORDINALS or (named[0] in _WALLS and tokens[first + 1].kind == "number")):
        return None
    last = hour = first + 1 + (named[1] in _WALLS or named[0] in _WALLS)
    while hour < len(tokens) and tokens[hour].low in _VERBS | {"at", "to", "on"}:
        hour += 1
    return (last, hour) if hour < len(tokens) and _is_facing(tokens[hour]) else None


def _is_facing(token: Token) -> bool:
    return token.kind in ("clock", "facing") or (token.kind == "number" and token.text in HOURS)


def _word(token: Token, text: str) -> Token:
    return replace(token, kind="word", text=text, low=text, glued=False, value=None)
