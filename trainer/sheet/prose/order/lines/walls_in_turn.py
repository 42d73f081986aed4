"""Walls told with a facing each, told as the walls and then their facings in turn.

"Walls 2 (3:00) and 4 (6:00): restart after 16" is "walls 2 and 4 (3:00 and 6:00): restart after 16"; of three walls
danced "from 6, from 9 and from 12" the bare hours are facings. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.lines.rows import HOURS, WALL_WORDS, facing_of
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_BEFORE = {"so", "then", "on", "in", "for", "during", "at", "the", "restart", "restarts", ":", "and", "only"}
"""What may stand before the walls."""
_MOST_BEFORE = 3
_SUFFIXES = {"st", "nd", "rd", "th"}
_LEADS = {
    "(", "[", "from", "at", "starts", "begins", "start", "begin", "starting", "beginning", "facing", "faces", "to",
    "the", "which", "that", "you", "on", "now", "then", "face", "looks", "is", "danced", "goes", "sees", "towards",
}  # fmt: skip
_CLOSES = {")", "]", "o'clock", "oclock", "wall"}
_JOINS = {",", "and", "&", "then", "plus", "+", "/", "on", "in", "the", "again", "also"}
_STARTS = {"from", "starts", "begins", "start", "begin", "starting", "beginning"}
_FEWEST = 2
_LISTED = 3
_NAMED = 2
"""Words at least that tell what is danced in the walls."""
_FROM = {"from", "starting", "at"}


@dataclass(frozen=True, slots=True)
class _Faced:
    name: tuple[Token, ...]
    number: int
    facing: Token
    starts: bool


def with_walls_in_turn(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence with its walls first and then their facings, where each wall has its own behind it."""
    first = next((at for at, token in enumerate(tokens[: _MOST_BEFORE + 1]) if token.low not in _BEFORE), len(tokens))
    bare, end = _walls(tokens, first, bare=True)
    if len(bare) >= _LISTED and not any(token.kind in ("word", "number") for token in tokens[end:]):
        return _starts_of(bare, tokens[:first], tokens[end:])
    if (faced := _facings_first(tokens)) is not None:
        return faced
    walls, last = _walls(tokens, first)
    said = [token for token in tokens[last:] if token.kind in ("word", "number")]
    apart = not any(token.low in WALL_WORDS for token in tokens[last:])
    if len(walls) >= _FEWEST and not said:
        return _starts_of(walls, tokens[:first], tokens[last:])
    if len(walls) < _FEWEST or walls[0].number == 1 or len(said) < _NAMED or not apart:
        return _from_hours(tokens)
    told: list[Token] = [*tokens[:first], word_like(tokens[first], "walls")]
    for place, wall in enumerate(walls):
        number = number_like(wall.name[0], wall.number)
        told += [*([mark_like(number, ",")] if place else []), number]
    told.append(mark_like(tokens[first], "("))
    for place, wall in enumerate(walls):
        lead = [word_like(wall.facing, "starting"), word_like(wall.facing, "at")] if wall.starts else []
        told += [*([mark_like(wall.facing, ",")] if place else []), *lead, wall.facing]
    return (*told, mark_like(tokens[last - 1], ")"), *tokens[last:])


def _starts_of(walls: Sequence[_Faced], before: Sequence[Token], after: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence that says no more than where some walls begin: "wall 2 looks at 9, wall 3 at 6"."""
    told: list[Token] = list(before)
    for place, wall in enumerate(walls):
        near = wall.name[0]
        number = number_like(near, wall.number)
        told += [*([mark_like(near, ",")] if place else []), word_like(near, "wall"), number]
        told += [word_like(near, "starts"), word_like(near, "at"), wall.facing]
    return (*told, *after)


def _facings_first(tokens: Sequence[Token]) -> tuple[Token, ...] | None:
    """Return a sentence that lists the facing of each wall before it: "3:00 on wall 2, 6:00 on wall 3"; None: none."""
    at = next((at for at, token in enumerate(tokens) if token.kind in ("facing", "clock")), len(tokens))
    first = at
    found: list[_Faced] = []
    while at + 2 < len(tokens) and _is_facing(tokens[at]) and tokens[at + 1].low in _ON:
        name = _past_name(tokens, at + 2, worded=not found)
        if name == at + 2:
            break
        number = next(number_at(tokens, one)[0] for one in range(at + 2, name) if number_at(tokens, one)[1] > one)
        found.append(_Faced(tuple(tokens[at + 2 : name]), number, _as_facing(tokens[at]), starts=True))
        at = name
        while at < len(tokens) and tokens[at].low in _JOINS - _ON:
            at += 1
    plain = all(token.low in _LOOKING for token in tokens[:first])
    ends = not any(token.kind in ("word", "number") for token in tokens[at:])
    return _starts_of(found, (), tokens[at:]) if len(found) >= _FEWEST and plain and ends else None


_ON = {"on", "in", "for", "at"}
_LOOKING = {
    "you", "will", "we", "face", "facing", "look", "looking", "at", "start", "starts", "begin", "so", "the", "are",
}  # fmt: skip


def _walls(tokens: Sequence[Token], at: int, *, bare: bool = False) -> tuple[list[_Faced], int]:
    """Return the walls that stand one after the other, a facing behind each, and the index after them."""
    found: list[_Faced] = []
    last = at
    while at < len(tokens):
        name = _past_name(tokens, at, worded=not found)
        if name == at:
            break
        end, lows = name, []
        while end < len(tokens) and (tokens[end].low in _LEADS or (tokens[end].text == "," and end == name)):
            lows.append(tokens[end].low)
            end += 1
        if end >= len(tokens) or not _is_facing(tokens[end]):
            break
        if not bare and not set(lows) - {","} and tokens[end].kind != "facing":
            # A bare number behind a wall may be its length.
            break
        number = next(number_at(tokens, one)[0] for one in range(at, name) if number_at(tokens, one)[1] > one)
        found.append(_Faced(tuple(tokens[at:name]), number, _as_facing(tokens[end]), bool(_STARTS & set(lows))))
        end += 1
        while end < len(tokens) and tokens[end].low in _CLOSES:
            end += 1
        at = last = end
        while at < len(tokens) and tokens[at].low in _JOINS:
            at += 1
    return found, last


def _past_name(tokens: Sequence[Token], at: int, *, worded: bool) -> int:
    """Return the index after the name of a wall, "wall 2", "W2", "2nd wall", in a row "4" alone; itself if none."""
    said = at + (tokens[at].low in WALL_WORDS)
    if said >= len(tokens):
        return at
    _, last, ordinal = number_at(tokens, said)
    if last == said:
        return at
    if last < len(tokens) and tokens[last].low in _SUFFIXES and tokens[last].glued:
        last, ordinal = last + 1, True
    after = last < len(tokens) and tokens[last].low in WALL_WORDS
    named = said > at or (ordinal and after) or not worded
    return last + (after and said == at) if named else at


def _from_hours(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence with the hours of several walls as facings: "from 6, from 9 and from 12"."""
    done = list(tokens)
    hours = [
        at for at, (lead, token) in enumerate(pairwise(tokens), 1)
        if lead.low in _FROM and token.kind == "number" and token.text in HOURS and _ends(tokens, at + 1)
    ]  # fmt: skip
    joined = all(b - a <= _FEWEST + 1 for a, b in pairwise(hours))
    if len(hours) < _FEWEST or not joined or not any(token.low in WALL_WORDS for token in tokens[: hours[0]]):
        return tuple(tokens)
    for at in hours:
        done[at] = _as_facing(tokens[at])
        done[at - 1] = word_like(tokens[at - 1], "starting")
    return tuple(done)


def _ends(tokens: Sequence[Token], at: int) -> bool:
    return at >= len(tokens) or tokens[at].low in _JOINS or tokens[at].text in (".", ";", ")")


def _is_facing(token: Token) -> bool:
    return facing_of(token) is not None


def _as_facing(token: Token) -> Token:
    value = facing_of(token)
    assert isinstance(value, Fraction)
    return replace(token, kind="facing", value=value, glued=False)
