"""Counts that stand in brackets each, side by side, are one mark: "[3] [&] [4]", "(1) to (4)", "1) 2)", "<5>-<8>"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_CLOSING = {*_BRACKETS.values(), "."}
_JOINS = {"to", "through", "thru", "-", ",", "&", "and", "+", "/"}
_SUBS = {"&", "a", "e", "and"}
_INSIDE = 6
"""Tokens of the counts in one bracket."""


def with_joined_marks(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts in brackets of their own that stand side by side as one bracket."""
    return tuple(replace(line, tokens=_joined(line.tokens)) if _may_join(line) else line for line in lines)


def _may_join(line: Line) -> bool:
    return sum(token.text in _CLOSING for token in line.tokens) > 1


def _joined(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        inner, end = _unit(tokens, at, done)
        units, value = 1, _last_number(inner)
        while inner and (found := _next(tokens, end, done, value)) and _alike(tokens, at, end):
            more, end = found
            inner, units, value = [*inner, *more], units + 1, _last_number(more) or value
        if units > 1:
            first, last = inner[0], inner[-1]
            done += [replace(first, kind="mark", text="(", low="("), *inner]
            done.append(replace(last, kind="mark", text=")", low=")", glued=True))
            at = end
            continue
        done.append(tokens[at])
        at += 1
    return tuple(done)


def _alike(tokens: Sequence[Token], at: int, after: int) -> bool:
    """Whether two marks are both in brackets, or none is: "2. (3, 4, &)" is the number of a row and its counts."""
    opens = [token.text in _BRACKETS for token in tokens[after : after + 2]]
    return any(opens) if tokens[at].text in _BRACKETS else not any(opens)


def _next(tokens: Sequence[Token], at: int, done: Sequence[Token], value: int) -> tuple[list[Token], int] | None:
    """Return the counts of the bracket after one, with what joins them, and where it ends; None where none goes on."""
    join = list(tokens[at : at + 1]) if at < len(tokens) and tokens[at].low in _JOINS else []
    inner, end = _unit(tokens, at + len(join), done)
    if join and not inner:
        join, (inner, end) = [], _unit(tokens, at, done)
    if not inner:
        return None
    number = count_told(inner[0])
    # A plus between two counts is the half beat between them.
    join = [replace(token, kind="amp", text="&", low="&") if token.text == "+" else token for token in join]
    join = [token for token in join if token.text != ","]
    ranged = bool(join) and join[0].low in ("to", "through", "thru", "-")
    goes_on = number is None or number == value + 1 or (ranged and number > value)
    return ([*join, *inner], end) if goes_on else None


def _unit(tokens: Sequence[Token], at: int, done: Sequence[Token]) -> tuple[list[Token], int]:
    """Return the counts of a bracket that begins at a token, and where it ends; without an opening one at the start."""
    nothing: tuple[list[Token], int] = ([], at)
    if at >= len(tokens):
        return nothing
    closing = _BRACKETS.get(tokens[at].text)
    start = at + 1 if closing else at
    if not closing and any(token.kind == "word" for token in done):
        return nothing
    end = start
    while end < len(tokens) and end - start < _INSIDE and _is_count(tokens[end]):
        end += 1
    if end == start or end == len(tokens) or not (tokens[end].text == closing or (not closing and _ends(tokens, end))):
        return nothing
    return list(tokens[start:end]), end + 1


def _ends(tokens: Sequence[Token], at: int) -> bool:
    """Whether a mark that stands right behind a number ends it: "1) 2)", "1. 2."."""
    return tokens[at].text in (")", ".") and tokens[at].glued


def _is_count(token: Token) -> bool:
    return count_told(token) is not None or token.low in _SUBS or token.kind == "amp" or token.text in ("-", ",")


def _last_number(tokens: Sequence[Token]) -> int:
    return next((value for token in reversed(tokens) if (value := count_told(token)) is not None), 0)
