"""The sign by which a sheet tells the half beat between two counts at a line's edge: 5 + 6, 5'6, 5 u 6, 5 -&- 6.

What stands between two counts that go on is such a sign where the words of its lines are a step more than the counts
without it, line by line, or where the sheet says what it means: "“+” is said “and”". Among other signs an & is one
always. All of them are told as an &.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_PLAIN = {
    "", "&", "and", ",and", ",&", "&,", ",&,", ",and,", "a", "e", "&a", "e&", "e&a", "+a", "to", "thru", "through",
    "or", "of", "x", "until", "till",
}  # fmt: skip
"""What is understood as it is, or joins counts without a half beat."""
_EDGES = {BREAK, ":", "|", "(", ")", "[", "]", "{", "}", "=", "//"}
"""What stands at the edge of counts."""
_USUAL = {"+"}
"""Signs that may be explained and stand only at the edge of counts."""
_PARTING = ".,;:/-_>()[]{}"
_QUOTES = "'\"*"
_SURE = {"&", "and", "n"}
_MEANS = {"and", "half", "halves", "&", "between", "upbeat", "offbeat"}
_LONGEST = 10
"""Letters of a sign."""
_TOKENS = 5
"""Tokens of a sign."""
_LEAST = 2
"""Lines with a sign that is known by their steps."""
_BETTER = 0.3
"""So much better the words of a line fill its counts with the half beats."""
_POOR = 0.6
_KEY = 14
"""Tokens of a line that explains a sign."""


@dataclass(frozen=True, slots=True)
class _Join:
    """What stands between two counts: tokens first to last (exclusive)."""

    first: int
    last: int
    sign: str


@dataclass(frozen=True, slots=True)
class _Edge:
    """The counts that open or close a line."""

    line: int
    first: int
    last: int
    """Its tokens, last exclusive."""
    joins: tuple[_Join, ...]


def with_half_signs(lines: Sequence[Line], fill: Fill) -> tuple[Line, ...]:
    """Return the lines with the sheet's own sign for the half beat as an &."""
    edges = [edge for index, line in enumerate(lines) for edge in _edges(line.tokens, index)]
    strange = {join.sign for edge in edges for join in edge.joins if join.sign not in _PLAIN}
    signs = {sign for sign in strange if _is_half(sign, edges, lines, fill)}
    signs |= {sign for sign in _USUAL - signs if any(_explains(line, sign) for line in lines)}
    if not signs:
        return tuple(lines)
    done = list(lines)
    for edge in edges:
        done[edge.line] = _told(done[edge.line], edge, signs)
    return tuple(replace(line, tokens=_with_outer_halves(line.tokens, signs)) for line in done)


def _with_outer_halves(tokens: tuple[Token, ...], signs: Collection[str]) -> tuple[Token, ...]:
    """Return tokens with the sign as an & also before the first of some counts, or behind the last: "+3 4", "5+6+"."""
    return tuple(
        replace(token, kind="amp", text="&", low="&", value=None)
        if token.kind == "mark" and token.low in signs and (_opens_counts(tokens, at) or _closes_counts(tokens, at))
        else token
        for at, token in enumerate(tokens)
    )


def _opens_counts(tokens: Sequence[Token], at: int) -> bool:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    edge = at == 0 or tokens[at - 1].text in _EDGES
    return edge and after is not None and bool(_value(after)) and not _turns(tokens, at + 1)


def _closes_counts(tokens: Sequence[Token], at: int) -> bool:
    edge = at + 1 == len(tokens) or tokens[at + 1].text in _EDGES
    return edge and at > 0 and bool(_value(tokens[at - 1])) and tokens[at].glued


def _turns(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number begins a fraction."""
    return at + 1 < len(tokens) and tokens[at + 1].text == "/"


def _edges(tokens: Sequence[Token], index: int) -> Iterator[_Edge]:
    """Yield the counts at both edges of a line that are more than one."""
    opening = _joined(tokens, 0) if _value(tokens[0]) else ()
    if opening:
        yield _Edge(index, 0, opening[-1].last + 1, opening)
        return
    end = len(tokens) - 1
    start = end
    while _value(tokens[end]) and (before := _count_before(tokens, start)) is not None:
        start = before
    closing = _joined(tokens, start) if start < end else ()
    if closing and closing[-1].last == end:
        yield _Edge(index, start, len(tokens), closing)


def _joined(tokens: Sequence[Token], at: int) -> tuple[_Join, ...]:
    """Return what joins the counts that go on from a count at a token."""
    joins: list[_Join] = []
    while (after := _count_after(tokens, at)) is not None:
        joins.append(_Join(at + 1, after, _sign(tokens[at + 1 : after])))
        at = after
    return tuple(joins)


def _count_after(tokens: Sequence[Token], at: int) -> int | None:
    value = _value(tokens[at])
    for after in range(at + 1, min(at + 2 + _TOKENS, len(tokens))):
        if tokens[after].kind == "number" or tokens[after].text == BREAK:
            between = _text(tokens[at + 1 : after])
            # "{7 & 8} @9": what a bracket closes off joins no counts.
            closed = sum(sign in ")]}" for sign in between) > sum(sign in "([{" for sign in between)
            goes_on = _value(tokens[after]) == value + 1 and not (closed and between.strip(_PARTING))
            return after if goes_on and len(between) <= _LONGEST else None
    return None


def _count_before(tokens: Sequence[Token], at: int) -> int | None:
    for before in range(at - 1, max(at - 2 - _TOKENS, -1), -1):
        if tokens[before].kind == "number" or tokens[before].text == BREAK:
            return before if _value(tokens[before]) and _count_after(tokens, before) == at else None
    return None


def _value(token: Token) -> int:
    """Return the count that a token is; 0 for none."""
    return int(token.text) if token.kind == "number" and len(token.text) <= 2 else 0


def _text(tokens: Sequence[Token]) -> str:
    return "".join(token.low for token in tokens)


def _sign(tokens: Sequence[Token]) -> str:
    """Return the sign that tokens are, without what only parts it from the counts; as it stands where that is all."""
    text = _text(tokens)
    if text in _PLAIN:
        return text
    core = text.strip(_PARTING)
    core = core.strip(_QUOTES).strip(_PARTING) or core
    return f"{core} " if core in _PLAIN and core else core


def _is_half(sign: str, edges: Sequence[_Edge], lines: Sequence[Line], fill: Fill) -> bool:
    """Whether a sign tells the half beat."""
    if sign.strip() in _SURE or any(_explains(line, sign) for line in lines):
        return True
    here = [edge for edge in edges if any(join.sign == sign for join in edge.joins)]
    if len(here) < _LEAST:
        return False
    plain = halved = 0.0
    for edge in here:
        tokens = lines[edge.line].tokens
        words = tokens[edge.last :] if edge.first == 0 else tokens[: edge.first]
        counts = len(edge.joins) + 1
        plain += fill(words, counts)
        halved += fill(words, counts + sum(join.sign == sign for join in edge.joins))
    return halved < min(plain - _BETTER * len(here), _POOR * len(here))


def _explains(line: Line, sign: str) -> bool:
    """Whether a line says that a sign is an and: "+ = and", "The “u” is the half beat"."""
    pieces: list[list[str]] = [[]]
    for token in line.tokens:
        # A word may stand in any sentence; a sign is explained among others.
        pieces += [[]] if token.text in (";", ".", BREAK) and not sign.isalpha() else []
        pieces[-1].append(token.low)
    return any(
        sign in piece and len(piece) <= _KEY and any(low in _MEANS for low in piece if low != sign) for piece in pieces
    )


def _told(line: Line, edge: _Edge, signs: set[str]) -> Line:
    """Return a line, those signs between the counts of an edge, and right after them, as an &; words stay in place."""
    halves = {join.first: join.last for join in edge.joins if join.sign in signs}
    after = line.tokens[edge.last : edge.last + 2]
    last = edge.last
    if edge.first == 0 and after and after[0].low in signs and (len(after) == 1 or after[1].text == BREAK):
        halves[edge.last] = last = edge.last + 1
    if not halves:
        return line
    inner = list(_with_halves(line.tokens[:last], edge.first, halves))
    begin = line.tokens[edge.first].column - 1
    end = line.tokens[last - 1].column - 1 + len(line.tokens[last - 1].text)
    text = "".join(" " * (bool(at) and not token.glued) + token.text for at, token in enumerate(inner))
    shift = 0 if edge.first == 0 else end - begin - len(text)
    counts = [replace(token, column=begin + 1 + shift + _width(inner, at)) for at, token in enumerate(inner)]
    blanks = " " * (end - begin - len(text))
    told = text + blanks if edge.first == 0 else blanks + text
    source = line.source[:begin] + told + line.source[end:] if line.source else ""
    return replace(line, tokens=(*line.tokens[: edge.first], *counts, *line.tokens[last:]), source=source)


def _with_halves(tokens: Sequence[Token], first: int, halves: Mapping[int, int]) -> Iterator[Token]:
    """Yield tokens from one on, each sign as an & that is glued to both counts."""
    at = first
    while at < len(tokens):
        half = at in halves
        token = replace(tokens[at], kind="amp", text="&", low="&", glued=True) if half else tokens[at]
        after_half = any(last == at for last in halves.values())
        yield replace(token, glued=True) if after_half else token
        at = halves[at] if half else at + 1


def _width(tokens: Sequence[Token], at: int) -> int:
    """Return how many columns the tokens before one take, and the blank before it."""
    told = sum(len(token.text) + (bool(place) and not token.glued) for place, token in enumerate(tokens[:at]))
    return told + (bool(at) and not tokens[at].glued)
