"""A wall's counts with those of a tag added, "32 - 32 + 4 - 16", and the tag called by its counts: "+4 = sway R, L"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 12
"""Counts of a wall, and of a tag at most."""
_WALLS = 3
"""Numbers of a line that lists walls, at least."""
_MEANS = {"is", "are", "=", ":", "-"}
_EXTRA = {"+", "extra", "added", "additional"}


def with_sums_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with the one number that is added to walls told as a tag."""
    listing = {line.number: places for line in lines if (places := _sums(line.tokens))}
    added = {token.text for line in lines for at, token in enumerate(line.tokens) if at in listing.get(line.number, ())}
    if len(added) != 1:
        return tuple(lines)
    number = added.pop()
    done = []
    for line in lines:
        tokens = list(line.tokens)
        for at in listing.get(line.number, ()):
            tokens[at] = _tag(tokens[at])
        if line.number not in listing and (head := _named(tokens, number)):
            tokens[head[0] : head[1]] = [_tag(tokens[head[0]])]
        done.append(replace(line, tokens=tuple(tokens)))
    return tuple(done)


def _sums(tokens: Sequence[Token]) -> list[int]:
    """Return where numbers stand that are added to those of walls in a list of them."""
    numbers = [int(token.text) for token in tokens if token.kind == "number" and token.text.isdecimal()]
    if sum(number >= _LEAST for number in numbers) < _WALLS:
        return []
    return [
        at
        for at in range(2, len(tokens))
        if tokens[at - 1].text == "+"
        and tokens[at].kind == tokens[at - 2].kind == "number"
        and tokens[at].text.isdecimal()
        and tokens[at - 2].text.isdecimal()
        and int(tokens[at].text) <= _LEAST <= int(tokens[at - 2].text)
    ]


def _named(tokens: Sequence[Token], number: str) -> tuple[int, int] | None:
    """Return where a line names the tag by its counts, from its first token to the last, exclusive: "the +4 is"."""
    first = next((at for at, token in enumerate(tokens[:3]) if token.low in _EXTRA), None)
    if first is None or len(tokens) < first + 3 or tokens[first + 1].text != number:
        return None
    last = first + 2 + (tokens[first + 2].low in ("counts", "cts", "beats"))
    return (first, last) if tokens[last : last + 1] and tokens[last].low in _MEANS else None


def _tag(token: Token) -> Token:
    return replace(token, kind="word", text="tag", low="tag")
