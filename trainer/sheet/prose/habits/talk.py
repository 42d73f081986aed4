"""A teacher's talk beside the steps that seems to speak of extras and counts: "tag a friend", "the end", "5 6 7 8!".

To tag somebody is no tag, a line that only ends the page ends no dance, and "five, six, seven, eight" before the first
count only counts the dancers in.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_SOMEBODY = {
    "me", "us", "him", "her", "them", "ur", "your", "yr", "yer", "my", "our", "someone", "somebody", "people",
    "everyone", "everybody", "friends", "@", "anyone", "whoever", "each",
}  # fmt: skip
_FRIENDS = {
    "friend", "mate", "pal", "buddy", "partner", "dancer", "friends", "mates", "group", "gang", "crew", "class", "club",
    "teacher", "person", "bestie", "sister", "mum", "mom", "page", "video", "post",
}  # fmt: skip
_SIGNS_OFF = re.compile(
    r"^\W*(?:and )?(?:(?:that(?:'s| is) )?the end|end|fin|finis|finito|(?:the )?end of (?:the )?(?:dance|sheet|steps?|"
    r"page|story|script))\W*(?: x+|xx+)?\W*$"
)
_LAST = 3
"""Lines at the foot of a page."""
_COUNTS_IN = ("5", "6", "7", "8")
_SO_FAR = (("1", "4"), ("3", "4"))
"""Counts before them with which they go on: "1-4 vine", "sways (3-4)"."""


def with_talk_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without what only signs off or counts in, and with talk of tagging people as such."""
    told = [line for at, line in enumerate(lines) if not (at >= len(lines) - _LAST and _signs_off(line))]
    return tuple(_plain(line) for line in _counted_in(told))


def _signs_off(line: Line) -> bool:
    return bool(_SIGNS_OFF.match(line.words))


def _plain(line: Line) -> Line:
    tokens = list(line.tokens)
    changed = False
    for at, token in enumerate(tokens):
        if token.low in ("tag", "tags", "tagging", "tagged") and _is_of_people(tokens, at):
            tokens[at], changed = replace(token, text="name", low="name"), True
    return replace(line, tokens=tuple(tokens)) if changed else line


def _is_of_people(tokens: Sequence[Token], at: int) -> bool:
    """Whether a tag is what one does to people in a message: "tag a friend", "tag ur group"."""
    rest = [token.low for token in tokens[at + 1 : at + 5]]
    if not rest or (at and tokens[at - 1].low in ("the", "a", "this", "no", "each")):
        return False
    if rest[0] == "@" and rest[1:] and rest[1][:1].isdecimal():
        # "then tag @6:00" tells a facing.
        return False
    return rest[0] in _SOMEBODY or bool(rest[0] in ("a", "the", "all", "in") and set(rest) & _FRIENDS)


def _counted_in(lines: Sequence[Line]) -> list[Line]:
    """Return the lines without 5, 6, 7, 8 where no counts are told before them, and others are after them."""
    places = [(row, at) for row, line in enumerate(lines) for at in range(len(line.tokens)) if _number(line, at)]
    numbers = [_number(lines[row], at) for row, at in places]
    first = next((at for at in range(len(numbers)) if tuple(numbers[at : at + 4]) == _COUNTS_IN), None)
    if first is None or {"1", "2", "3", "4"} <= set(numbers[:first]) or numbers[first + 4 : first + 5] in ([], ["9"]):
        return list(lines)
    if len({row for row, _ in places[first : first + 4]}) > 1 or tuple(numbers[max(first - 2, 0) : first]) in _SO_FAR:
        return list(lines)
    row, start, end = places[first][0], places[first][1], places[first + 3][1]
    line = lines[row]
    between = {token.low for token in line.tokens[start : end + 1]} - {*_COUNTS_IN, *NUMBERS, ",", ".", "-", "and", "&"}
    if between:
        return list(lines)
    rest = (*line.tokens[:start], *line.tokens[end + 1 :])
    kept = [replace(line, tokens=rest)] if any(token.kind == "word" for token in rest) else []
    return [*lines[:row], *kept, *lines[row + 1 :]]


def _number(line: Line, at: int) -> str:
    """Return the number that a token is, in figures; nothing for other tokens."""
    token = line.tokens[at]
    if token.kind == "number":
        return token.text
    return str(NUMBERS.get(token.low, "")) if token.kind == "word" else ""
