"""A sheet's own signs about its counts, read as those that everyone uses: "/7 & 8/" and "[7 + 8]" as "[7 & 8]".

What stands between two strokes, or in brackets, and is nothing but counts is a mark; a plus in it is the half beat. So
is a plus alone in brackets: "close L [+]".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_PLAIN = ("(", "[")
_STROKES = {"/", "\\"}
_JOINS = {",", "-", "a", "e", "and", "n", "to", ".", "/"}
_HALVES = {"+", "'", "*", "^", "~"}
"""Signs for the half beat between two counts."""
_LONGEST = 20
"""Tokens of the counts of one mark."""
_LEAST = 3
"""So many pairs of strokes with nothing but counts in them are a sheet's way of marking counts."""

Pair = tuple[int, int]
"""The tokens of an opening and a closing sign."""


def with_count_signs(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts between strokes in brackets, a plus among counts in brackets as an &."""
    stroked = [_pairs(line.tokens, strokes=True) for line in lines]
    if sum(map(len, stroked)) < _LEAST:
        stroked = [[] for _ in lines]
    return tuple(
        _marked(line, pairs, _pairs(line.tokens, strokes=False)) for line, pairs in zip(lines, stroked, strict=True)
    )


def _marked(line: Line, stroked: Sequence[Pair], bracketed: Sequence[Pair]) -> Line:
    """Return a line with pairs of strokes as brackets, and the half beats in all its marks as &."""
    if not stroked and not bracketed:
        return line
    done = list(line.tokens)
    for opening, closing in (*stroked, *bracketed):
        for at in range(opening + 1, closing):
            if done[at].text in _HALVES:
                done[at] = replace(done[at], kind="amp", text="&", low="&")
    gone: set[int] = set()
    for opening, closing in (*stroked, *bracketed):
        if done[opening].text in _PLAIN:
            continue
        done[opening] = replace(done[opening], text="[", low="[")
        done[closing] = replace(done[closing], text="]", low="]")
        # Strokes may be doubled: "//1 2//".
        gone |= {at for at in (opening - 1, closing + 1) if 0 <= at < len(done) and done[at].text in _STROKES}
    return replace(line, tokens=tuple(token for at, token in enumerate(done) if at not in gone))


def _pairs(tokens: Sequence[Token], *, strokes: bool) -> list[Pair]:
    """Return the pairs of strokes, or of brackets, with nothing but counts in them.

    Plain brackets are a pair only with a sign of the sheet's own for a half.
    """
    found: list[Pair] = []
    at = 0
    while at < len(tokens):
        closing = _closing(tokens, at, strokes=strokes)
        if closing:
            found.append((at, closing))
        at = closing + 1 if closing else at + 1
    return found


def _closing(tokens: Sequence[Token], at: int, *, strokes: bool) -> int:
    """Return where the sign stands that closes the counts after an opening sign; 0 where it opens none."""
    sign = tokens[at].text
    close = (sign if sign in _STROKES else "") if strokes else _BRACKETS.get(sign, "")
    if not close:
        return 0
    numbers = halves = signs = 0
    for end in range(at + 1, min(at + _LONGEST, len(tokens))):
        token = tokens[end]
        if token.text == close and end > at + 1 and _closes(tokens, at, end, strokes=strokes):
            alone = not numbers and end == at + 2 and tokens[at + 1].text in ("+", "&")
            several = sign not in _PLAIN and numbers + halves > 1
            return end if alone or (numbers and (strokes or several or signs)) else 0
        if token.kind == "number" and len(token.text) <= 2:
            numbers += 1
        elif token.text in _HALVES or token.kind == "amp":
            halves += 1
            signs += token.kind != "amp"
        elif token.low not in _JOINS or token.text == sign:
            return 0
    return 0


def _closes(tokens: Sequence[Token], at: int, end: int, *, strokes: bool) -> bool:
    """Whether a sign closes: a stroke that touches what stands before it, and no word after it."""
    if not strokes:
        return True
    after = tokens[end + 1] if end + 1 < len(tokens) else None
    touches = tokens[end].glued == tokens[at + 1].glued
    return touches and not (after is not None and after.glued and after.kind in ("word", "number"))
