"""Tags by a letter and a number, "A A B T1 A B T2" over "T1: hold 4 counts", and by their length, "Tag 4: stomp R, L".

A letter T with a number is the tag of that number where it opens a line with its steps, stands over them below steps
of the dance, or where the sheet has a tag of that number. A number behind the only tag of a sheet, which no other line
calls by one, is how long it is. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_LETTERED = re.compile(r"[Tt]([1-9])")
_PLAYS = {"phrasing", "pattern", "layout", "structure", "plan", "map", "sequence", "order", "play", "routine"}
_FEWEST = 2
_PARTS = tuple("ABCDEFGHT")
_SIGNS = (":", "=", "(", "-", BREAK)
_LENGTHS = ("2", "4", "6", "8", "12", "16")


def with_tags_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such tags called by their word and number, or with their length in counts."""
    lines = _by_letter(_under_order(tuple(lines)))
    if any(_opens(_in_row(line.tokens)) for line in lines) or _heads_alone(lines) or _numbered(lines):
        lines = tuple(_spelled(line) for line in lines)
    return _with_length(lines)


def _under_order(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return the lines, any name for the play over lines of part letters and tags as "Order:": "Phrasing", "Layout"."""
    done = list(lines)
    for at, (line, after) in enumerate(pairwise(lines)):
        named = {token.low for token in line.tokens if token.kind != "mark"}
        parts = [token for token in after.tokens if token.kind != "mark"]
        if named & _PLAYS and named <= _PLAYS | {"the", "of", "dance"} and len(parts) >= _FEWEST and _in_play(parts):
            near = line.tokens[0]
            done[at] = replace(line, tokens=(word_like(near, "Order"), mark_like(near, ":")), source="")
    return tuple(done)


def _in_play(parts: Sequence[Token]) -> bool:
    return all(token.text in _PARTS or token.low in ("tag", "bridge") for token in parts)


def _by_letter(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return the lines, a T by itself in lines of part letters as the tag: "A A / T A B" beside "Tag: ..."."""
    if sum(line.tokens[0].low == "tag" for line in lines) != 1:
        return lines
    plays = [_only_letters(line.tokens) for line in lines]
    return tuple(
        _spelled_out(line) if plays[at] and (len(line.tokens) > 1 or any(plays[max(at - 1, 0) : at])) else line
        for at, line in enumerate(lines)
    )


def _only_letters(tokens: Sequence[Token]) -> bool:
    """Whether a line holds letters of parts and signs between them only."""
    words = [token for token in tokens if token.kind != "mark" and token.low != "part"]
    return bool(words) and all(token.text in _PARTS for token in words)


def _spelled_out(line: Line) -> Line:
    if all(token.text != "T" for token in line.tokens):
        return line
    return replace(line, tokens=tuple(word_like(one, "Tag") if one.text == "T" else one for one in line.tokens))


def _opens(tokens: Sequence[Token]) -> bool:
    """Whether a line opens with such a letter and a sign before its steps."""
    length, number = _lettered(tokens, 0)
    return bool(number) and length < len(tokens) and tokens[length].text in _SIGNS


def _in_row(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return the tokens of a line without strokes before them."""
    return tokens[next((at for at, token in enumerate(tokens) if token.text != BREAK), 0) :]


def _heads_alone(lines: Sequence[Line]) -> bool:
    """Whether such a letter and number stands alone over steps, with steps of the dance above it."""
    counted = [at for at, line in enumerate(lines) if line.tokens[0].kind == "number" and len(line.tokens) > 1]
    heads = [
        at
        for at, line in enumerate(lines)
        if at + 1 in counted and (length := _lettered(line.tokens, 0)[0]) and length == len(line.tokens)
    ]
    return bool(heads) and counted[0] < heads[0]


def _numbered(lines: Sequence[Line]) -> bool:
    """Whether a tag of the number that follows a letter T heads a line: "after wall 2 T1" beside "Tag 1"."""
    own = [_in_row(line.tokens)[:2] for line in lines]
    tags = {words[1].text for words in own if len(words) > 1 and words[0].low == "tag" and words[1].kind == "number"}
    told = {_lettered(line.tokens, at)[1] for line in lines for at in range(len(line.tokens))} if tags else set()
    return bool(tags & {str(number) for number in told if number})


def _lettered(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return how many tokens from one on are T and a number, and the number; twice 0 where none are."""
    if found := _LETTERED.fullmatch(tokens[at].text):
        return 1, int(found[1])
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    lettered = tokens[at].text in ("T", "t") and after is not None and after.kind == "number" and after.glued
    return (2, int(after.text)) if lettered and after is not None and after.text.isdecimal() else (0, 0)


def _spelled(line: Line) -> Line:
    done: list[Token] = []
    at = 0
    while at < len(line.tokens):
        length, number = _lettered(line.tokens, at)
        if number:
            done += [replace(word_like(line.tokens[at], "Tag"), glued=line.tokens[at].glued)]
            done += [number_like(line.tokens[at], number)]
            at += length
        else:
            done.append(line.tokens[at])
            at += 1
    return replace(line, tokens=tuple(done), source="") if tuple(done) != line.tokens else line


def _with_length(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return the lines, "Tag 4: ..." as "Tag (4 counts): ..." where elsewhere it is the tag, and no number is used."""
    heads = [at for at, line in enumerate(lines) if _heads(line.tokens)]
    if len(heads) != 1:
        return lines
    others = [line.tokens for at, line in enumerate(lines) if at != heads[0]]
    named = [
        (one, two)
        for tokens in others
        for one, two in zip(tokens, (*tokens[1:], None), strict=True)
        if one.low in ("tag", "tags")
    ]
    if not named or any(two is not None and two.kind == "number" for _, two in named):
        return lines
    line = lines[heads[0]]
    head, number, *rest = line.tokens
    told = (head, mark_like(number, "("), number, word_like(number, "counts"), mark_like(number, ")"), *rest)
    return (*lines[: heads[0]], replace(line, tokens=told, source=""), *lines[heads[0] + 1 :])


def _heads(tokens: Sequence[Token]) -> bool:
    named = len(tokens) > 3 and tokens[0].low == "tag" and tokens[1].text in _LENGTHS
    return named and tokens[2].text in (":", "=")
