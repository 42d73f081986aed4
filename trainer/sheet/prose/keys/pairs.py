"""The pieces of a line as names with their meanings: "tch touch", "tch = touch", "touch (tch)", "fw bk = forward back".

A line is parted at commas, strokes, full stops and gaps; a piece is a pair where a name is made of the words beside
it, or where a sign of equality stands between them. Several names before a sign share the meanings after it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.keys.shortened import LONGEST, is_name, shortens
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

Words = tuple[Token, ...]

_PARTS = frozenset({",", ";", "/", ".", "•", BREAK, "+"})
SIGNS = frozenset({"=", ":", ">", "-", "~"})
_SAYING = words_in("is are means mean for stands stand as")
_EQUALS = frozenset({"=", "means", "mean", "stands"})
_OPENS = frozenset({"(", "[", '"', "'", "-", "*", ">"})
_FOLLOWS = words_in("and plus also or")
_WAY_IN = 10
"""Tokens at most before the first name of a key: "In this sheet I write tc for touch"."""
_ENOUGH = 3
"""Pairs among which a letter may be one."""
_FEW = 4
"""Words of such a piece."""
_MOST = 16
"""Names before one sign."""
_MADE = 0.7
"""So many of the names that share a sign are made of their meanings."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A name with what it stands for."""

    name: Token
    meaning: Words
    signed: bool
    """A sign of equality stands between them."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a line with the pairs that it tells."""

    first: int
    last: int
    """Indexes into the line's tokens; the last one is past it."""
    pairs: tuple[Pair, ...]
    parted: str = ""
    """The mark after it."""


def told_by(piece: Sequence[Token]) -> list[Pair]:
    """Return the pairs that words which stand by themselves tell, also several names that share a sign."""
    return [pair for one in pieces_of(piece) for pair in one.pairs]


def pieces_of(tokens: Sequence[Token]) -> list[Piece]:
    """Return the pieces of a line in order."""
    spans = list(_spans(tokens))
    done: list[Piece] = []
    at = 0
    while at < len(spans):
        joined = _shared(tokens, spans, at) or _beside(tokens, spans, at)
        if joined is not None:
            piece, at = joined
            done.append(piece)
            continue
        first, last = spans[at]
        opened = not any(piece.pairs for piece in done)
        parted = tokens[last].text if last < len(tokens) else ""
        done.append(Piece(first, last, tuple(_pairs(tokens[first:last], way_in=opened)), parted))
        at += 1
    return _with_letters(tokens, done)


def _with_letters(tokens: Sequence[Token], pieces: list[Piece]) -> list[Piece]:
    """Return the pieces; among enough pairs a single letter, or a sign, is one with the words beside it as well."""
    if sum(len(piece.pairs) for piece in pieces) < _ENOUGH:
        return pieces
    return [
        piece if piece.pairs else replace(piece, pairs=tuple(_lettered(_bare(tokens[piece.first : piece.last]))))
        for piece in pieces
    ]


def _lettered(words: Sequence[Token]) -> list[Pair]:
    if not 1 < len(words) <= _FEW:
        return []
    name, meaning = words[0], tuple(words[1:])
    sign = name.kind == "mark" and name.text not in _PARTS and all(token.kind == "word" for token in meaning)
    letter = len(name.low) == 1 and is_name(name) and shortens(name, meaning, sure=True)
    return [Pair(name, meaning, False)] if sign or letter else []


def _spans(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Yield where the pieces of a line begin and end."""
    first = depth = 0
    for at, token in enumerate(tokens):
        depth += (token.text in ("(", "[")) - (token.text in (")", "]"))
        outer = depth <= 0 or (depth == 1 and tokens[0].text in "([")
        if outer and token.text in _PARTS:
            if at > first:
                yield first, at
            first = at + 1
    if first < len(tokens):
        yield first, len(tokens)


def _shared(tokens: Sequence[Token], spans: Sequence[tuple[int, int]], at: int) -> tuple[Piece, int] | None:
    """Return the pairs of names that share a sign, and the index of the piece after their meanings."""
    names: list[Token] = []
    end = at
    while end < len(spans):
        first, last = spans[end]
        piece = _bare(tokens[first:last])
        sign = next((place for place, token in enumerate(piece) if token.text in ("=", ":")), len(piece))
        own = [token for token in piece[:sign] if token.low not in _FOLLOWS]
        if not own or not all(_is_short(token) for token in own) or len(names) + len(own) > _MOST:
            return None
        names += own
        end += 1
        if sign < len(piece):
            return _with_meanings(tokens, spans, at, end, names, piece[sign + 1 :])
    return None


def _beside(tokens: Sequence[Token], spans: Sequence[tuple[int, int]], at: int) -> tuple[Piece, int] | None:
    """Return the pair of a name in a cell with the words in the next one."""
    if at + 1 >= len(spans) or tokens[spans[at][1]].text != BREAK:
        return None
    name, meaning = (_bare(tokens[first:last]) for first, last in spans[at : at + 2])
    if len(name) > 1 and name[-1].text in SIGNS:
        name.pop()
    if len(name) != 1 or not meaning or not shortens(name[0], meaning, sure=True):
        return None
    return Piece(spans[at][0], spans[at + 1][1], (Pair(name[0], tuple(meaning), False),)), at + 2


def _with_meanings(
    tokens: Sequence[Token],
    spans: Sequence[tuple[int, int]],
    at: int,
    end: int,
    names: Sequence[Token],
    first: Sequence[Token],
) -> tuple[Piece, int] | None:
    """Return names with a meaning each: the words after their sign one by one, or that and the pieces after it."""
    if len(names) < 2:
        return None
    single = [token for token in first if token.kind == "word" and token.low not in _FOLLOWS]
    if len(single) == len(names):
        meanings: list[Words] = [(token,) for token in single]
    else:
        more = [tuple(_bare(tokens[low:high])) for low, high in spans[end : end + len(names) - 1]]
        meanings = [tuple(first), *more]
        end += len(names) - 1
    if len(meanings) != len(names) or not all(meanings):
        return None
    pairs = [Pair(name, meaning, True) for name, meaning in zip(names, meanings, strict=True)]
    if sum(shortens(pair.name, pair.meaning, sure=True) for pair in pairs) < _MADE * len(pairs):
        return None
    return Piece(spans[at][0], spans[end - 1][1], tuple(pairs)), end


def _is_short(token: Token) -> bool:
    return token.kind == "word" and len(token.low) <= LONGEST


def _bare(piece: Sequence[Token]) -> list[Token]:
    """Return a piece without quotes, and what opens it."""
    kept = [token for token in piece if token.text not in ('"', "'", "`")]
    while kept and (kept[0].text in _OPENS or kept[0].low in _FOLLOWS):
        kept = kept[1:]
    if kept and kept[-1].text in ")]" and not any(token.text in "([" for token in kept):
        kept.pop()
    return kept


def _pairs(piece: Sequence[Token], *, way_in: bool) -> list[Pair]:
    """Return the pairs that a piece tells: one, or several that only their signs part."""
    words = _bare(piece)
    joint = next((at for at, token in enumerate(words) if token.low == "and"), 0)
    if joint and (second := _one(_bare(words[joint:]))) and (first_two := _one(words[:joint])):
        return [*first_two, *second]
    for first in range(min(_WAY_IN, len(words) - 1) if way_in else 1):
        rest = _bare(words[first:])
        if found := _run_of(rest) or _one(rest):
            return found
    return []


def _run_of(words: Sequence[Token]) -> list[Pair]:
    """Return pairs without commas between them: "tc:touch kk:kick"."""
    signs = [at for at, token in enumerate(words) if token.text in ("=", ":")]
    if len(signs) < 2 or signs[0] != 1:
        return []
    ends = [sign - 1 for sign in signs[1:]] + [len(words)]
    found = [
        Pair(words[sign - 1], tuple(words[sign + 1 : end]), words[sign].text == "=")
        for sign, end in zip(signs, ends, strict=True)
    ]
    made = sum(bool(pair.meaning) and shortens(pair.name, pair.meaning, sure=True) for pair in found)
    return [pair for pair in found if pair.meaning] if made >= _MADE * len(found) else []


def _one(words: Sequence[Token]) -> list[Pair]:
    """Return the pair that a piece is, if it is one."""
    if len(words) < 2:
        return []
    if words[-1].text in ")]":
        at = max((at for at, token in enumerate(words) if token.text in "(["), default=0)
        before, inside = words[:at], words[at + 1 : -1]
        if at and len(inside) == 1 and shortens(inside[0], before, sure=True):
            return [Pair(inside[0], tuple(before), False)]
        if at == 1 and shortens(words[0], inside, sure=True):
            return [Pair(words[0], tuple(inside), False)]
    at = next((at for at, token in enumerate(words[1:], 1) if token.text in SIGNS or token.low in _SAYING), 0)
    rest = words[at + 1 :]
    if at and sum(token.text == words[at].text for token in rest) > 1:
        return []  # "A - B - Tag - A" is a list
    while at and rest and (rest[0].text in SIGNS or rest[0].low in _SAYING):
        rest = rest[1:]
    if at == 1 and rest and shortens(words[0], rest, sure=True):
        return [Pair(words[0], tuple(rest), words[1].low in _EQUALS)]
    if at and len(rest) == 1 and shortens(rest[0], words[:at], sure=True):
        return [Pair(rest[0], tuple(words[:at]), words[at].low in _EQUALS)]
    if at == 1 and rest and words[1].text == "=" and is_name(words[0]):
        return [Pair(words[0], tuple(rest), True)]
    if shortens(words[0], words[1:], sure=False) and not at:
        return [Pair(words[0], tuple(words[1:]), False)]
    return []
