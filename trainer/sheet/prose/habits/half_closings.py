"""A half beat that closes a mark behind its count: "right heel, right home (1 and)", "1 and: ...", "... on 2 +".

In running words "and" joins two steps. Where a mark begins before its count, and a bracket, a colon, a break or the
line's end follows, nothing is left that it could join, and it is the half beat after the count. So it is where counts
open a line whose words are a step more: "1 and  right heel forward, step it home".
"""

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_HALVES = {"and", "+", "n"}
_JOINS = {"and", "&", "+", ",", "-", "n", "a"}
_COUNTING = {"count", "counts", "ct", "cts", "cnt", "beat", "beats"}
_LEADING = {"on", "for", "at"}
_SIGNS = {"-", "=", ":", "/", "|", ">", BREAK}
"""What parts counts from their words, on either side."""
_CLOSING = {*_SIGNS, ".", ";", ","}
_GOING_ON = {",", ";", ".", "then"}
_HEADING = {"-", "=", ":", ")", "|", ">", BREAK}
"""What parts counts from words that follow them, wherever in a line they stand."""
_MOST = 12
"""Tokens of the counts of one mark."""
_LONGEST = 40
"""Tokens of the words of one mark."""
_CROWDED = 0.5
"""Words that fill their counts so badly are more than so many steps."""
_BETTER = 0.3
_LEAST = 4
"""Lines that open with counts."""
_MOSTLY = 0.6
"""The share of the lines with numbers that begin, or end, with counts where that is the sheet's way."""
_HIGHEST = 33
"""Numbers from here on count no sheet whose lines open so, or are two counts in one: 34."""
_FITS = 0.4


@dataclass(frozen=True, slots=True)
class _Ways:
    """Where a sheet has its counts."""

    opens: bool
    """Its lines begin with them."""
    ends: bool
    """Its lines end with them: "step right, touch left, for 3 and 4"."""


def with_half_closings(lines: Sequence[Line], fill: Fill) -> list[Line]:
    """Return the lines, each "and" or plus that closes a mark as an &, and those between the counts of such marks."""
    opened = sum(_count(line.tokens[0]) is not None or line.tokens[0].low in _COUNTING for line in lines)
    ended = sum(_is_led(line.tokens, _ending(line.tokens)) for line in lines)
    least = max(_LEAST, _MOSTLY * sum(any(_count(token) is not None for token in line.tokens) for line in lines))
    ways = _Ways(opened >= least, ended >= least)
    closing = [[at for at in range(1, len(line.tokens)) if _closes(line.tokens, at, ways)] for line in lines]
    opening = [_opening(line.tokens, fill) if ways.opens else 0 for line in lines]
    signs = {line.tokens[at].low for line, found in zip(lines, closing, strict=True) for at in found}
    ways = replace(ways, opens=any(opening))
    if not signs and not ways.opens:
        return list(lines)
    done: list[Line] = []
    for line, found, first in zip(lines, closing, opening, strict=True):
        inner = _between(line.tokens, {*signs, *(("and",) if ways.opens else ())}, ways)
        done.append(_told(line, [*found, *([first] if first else []), *inner]))
    return done


def _ending(tokens: Sequence[Token]) -> int:
    """Return where the counts begin that end a line; 0 where none do."""
    last = len(tokens) - 1
    while last > 0 and (tokens[last].low in _HALVES or tokens[last].kind == "amp" or tokens[last].text == "."):
        last -= 1
    return _first(tokens, last) if last > 0 and _count(tokens[last]) is not None else 0


def _is_led(tokens: Sequence[Token], first: int) -> bool:
    """Whether a word or a comma leads to counts: "for 3 and 4", ", 3 and 4"."""
    return first > 1 and tokens[first - 1].low in (*_LEADING, ",")


def _opening(tokens: Sequence[Token], fill: Fill) -> int:
    """Return where an "and" stands behind the counts that open a line, if its words are a step more than those."""
    at = int(tokens[0].low in _COUNTING)
    if at >= len(tokens) or (_count(tokens[at]) or _HIGHEST) >= _HIGHEST:
        return 0
    last = _last(tokens, at)
    half, words = tokens[last], tokens[last + 1 : last + _LONGEST]
    if half.low not in _HALVES or half.kind == "amp" or not words or words[0].kind != "word":
        return 0
    counts = 1 + sum(_count(token) is not None or token.low in _HALVES for token in tokens[at + 1 : last])
    crowded = fill(words, counts)
    return last if crowded >= _CROWDED and fill(words, counts + 1) <= min(_FITS, crowded - _BETTER) else 0


def _told(line: Line, halves: Sequence[int]) -> Line:
    if not halves:
        return line
    tokens = tuple(
        replace(token, kind="amp", text="&", low="&") if at in halves else token for at, token in enumerate(line.tokens)
    )
    return replace(line, tokens=tokens)


def _between(tokens: Sequence[Token], signs: Container[str], ways: _Ways) -> Iterator[int]:
    """Yield where one of a sheet's signs stands between two counts of a mark that is set apart as its others are.

    Counts that open their line are one, whatever follows, where the sheet's do.
    """
    for at in range(1, len(tokens) - 1):
        before, after = _count(tokens[at - 1]), _count(tokens[at + 1])
        if tokens[at].low in signs and before is not None and after == before + 1:
            first, last = _first(tokens, at - 1), _last(tokens, at + 1)
            if (ways.opens and first <= 1) or _is_apart(tokens, first, last + 1, ways):
                yield at


def _closes(tokens: Sequence[Token], at: int, ways: _Ways) -> bool:
    """Whether the "and" at a token closes a mark that begins before its count."""
    if tokens[at].low not in _HALVES or _count(tokens[at - 1]) is None:
        return False
    first = _first(tokens, at - 1)
    return (first > 0 or at + 1 < len(tokens)) and _is_apart(tokens, first, at + 1, ways)


def _is_apart(tokens: Sequence[Token], first: int, end: int, ways: _Ways) -> bool:
    """Whether counts that end before a token stand in a bracket, or between other signs that part them from words."""
    before = tokens[first - 1] if first else None
    after = tokens[end] if end < len(tokens) else None
    if before is not None and before.text in _BRACKETS:
        return after is not None and after.text == _BRACKETS[before.text]
    led = before is not None and before.low in _LEADING and after is not None
    if ways.ends and after is None and _is_led(tokens, first):
        return True
    counted = before is not None and before.low in _COUNTING
    goes_on = before is not None and before.low in _GOING_ON and after is not None and after.text in _HEADING
    if before is not None and before.text not in _SIGNS and not (counted or led or goes_on):
        return False
    if after is None:
        return True
    return after.text in _CLOSING or after.text in _BRACKETS.values()


def _last(tokens: Sequence[Token], at: int) -> int:
    """Return the index of the last of the counts that go on from a count, with a half beat that closes them."""
    while at + 1 < len(tokens):
        value = _count(tokens[at])
        ahead = at + 1 + (tokens[at + 1].low in _JOINS)
        if ahead < len(tokens) and value is not None and _count(tokens[ahead]) == value + 1:
            at = ahead
            continue
        return at + (tokens[at + 1].low in _HALVES or tokens[at + 1].kind == "amp")
    return at


def _first(tokens: Sequence[Token], at: int) -> int:
    """Return the index of the first of the counts that go on up to a count, with what joins them."""
    first = at
    value = _count(tokens[at])
    look = at - 1
    while look >= max(at - _MOST, 0) and value is not None:
        number = _count(tokens[look])
        if number is not None and number != value - 1:
            break
        if number is not None:
            first, value = look, number
        elif tokens[look].low not in _JOINS:
            break
        look -= 1
    return first


def _count(token: Token) -> int | None:
    if token.kind == "number" and len(token.text) < 3:
        return int(token.text)
    return NUMBERS.get(token.low) if token.kind == "word" else None
