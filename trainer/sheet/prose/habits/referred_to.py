"""What the head of an extra only refers to: "ending | 3 counts, once, see wall 7", "TAG (4 counts, see the walls)".

Where it is danced is told elsewhere, in a list of the walls or in notes. A wall that the reference names is a place of
its own, and stays, unless another line tells of the same extra and the same wall.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token
from trainer.terms import ExtraKind

_WALL = r"(?:walls?|rounds?|times?|rotations?|w)"
_WALLS = rf"{_WALL} \d+(?: ?(?:,|and|&|\+|,? and) ?(?:{_WALL} )?\d+)*|(?:the )?(?:last|final) {_WALL}"
_LIST = (
    rf"(?:(?:the|our|my|this) )?(?:(?:list|order|sequence|table|plan|notes?|rows?|overview|run) (?:of|on|for) )?"
    rf"(?:(?:the|our|all) )?(?:{_WALL}|{_WALL} ?-? ?(?:list|order|table|plan|notes?|overview|by wall)|list|order|"
    r"notes?|remarks?|sequence|structure|table|plan|phrasing|"
    r"below|above|overleaf|underneath|bottom|foot|end|there|page \d)"
    r"(?: of (?:the |this )?(?:walls|page|sheet|dance))?(?: (?:below|above|overleaf|underneath))?"
)
_REFERS = re.compile(
    r"(?:(?:for|as to) (?:when|where|which walls?|the walls?|how often|place),? ?:? ?)?"
    r"(?:please )?(?:see(?: also)?|cf ?\.?|compare|look(?: it)? (?:up |at |under |in )+|refer to|(?:as )?"
    r"(?:told|listed|shown|given|noted|marked|explained) (?:at|in|under|with|on|by)|"
    r"details? (?:at|in|under|with|on)|->|>) ?"
    rf"(?:at |under |in |on )*(?:(?P<walls>{_WALLS})(?: (?:in|on|of) {_LIST}| below| above)?|{_LIST})"
)
_PARTS = frozenset({",", ";", "(", "[", "-", ".", BREAK})
_ENDS = frozenset({",", ";", ")", "]", ".", ":", BREAK})
_CLOSING = {"(": ")", "[": "]"}
_NAME = 4
"""Tokens in which the name of an extra stands."""
_LONGEST = 16
"""Tokens of a reference."""
_LONGEST_HEAD = 30
_NUMBER = re.compile(r"\d+")


def without_references(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the heads of extras without such references."""
    return tuple(_without(line, lines) if _heads_an_extra(line) else line for line in lines)


def _heads_an_extra(line: Line) -> bool:
    return len(line.tokens) <= _LONGEST_HEAD and extra_kind(line.tokens[:_NAME]) not in (None, "intro")


def _without(line: Line, lines: Sequence[Line]) -> Line:
    tokens = line.tokens
    for first in range(1, len(tokens) - 1):
        if tokens[first - 1].text not in _PARTS:
            continue
        ends = range(min(len(tokens), first + _LONGEST), first + 1, -1)
        last = next((end for end in ends if _refers(line, first, end, lines)), 0)
        if not last:
            continue
        start = first - 1 if tokens[first - 1].text != BREAK else first
        if last < len(tokens) and tokens[last].text == _CLOSING.get(tokens[first - 1].text):
            last += 1
        elif tokens[first - 1].text in _CLOSING:
            # "(see walls 2 and 5, twice)": the bracket stays open.
            start = first
            last += tokens[last].text == ","
        rest = tokens[last:]
        if rest and rest[0].text in _CLOSING.values():
            # No gap is left, as one would be between two columns.
            rest = (replace(rest[0], column=tokens[start].column), *rest[1:])
        return replace(line, tokens=(*tokens[:start], *rest))
    return line


def _refers(line: Line, first: int, last: int, lines: Sequence[Line]) -> bool:
    """Whether tokens are a reference and no more, to what is told elsewhere."""
    tokens = line.tokens
    if last < len(tokens) and tokens[last].text not in _ENDS:
        return False
    match = _REFERS.fullmatch(" ".join(token.low for token in tokens[first:last]))
    if match is None or match["walls"] is None:
        return match is not None
    others = [other for other in lines if other is not line and extra_kind(tokens[:_NAME]) in _kinds(other)]
    numbers = _NUMBER.findall(match["walls"])
    if not numbers:
        return any(_walls_of(other) for other in others)
    return all(any(number in _walls_of(other) for other in others) for number in numbers)


def _kinds(line: Line) -> set[ExtraKind | None]:
    """Return the kinds of extras that the words of a line name."""
    return {extra_kind([token]) for token in line.tokens} | {extra_kind(list(pair)) for pair in pairwise(line.tokens)}


def _walls_of(line: Line) -> set[str]:
    """Return the numbers of the walls that a line names."""
    return {
        after.text
        for before, after in pairwise(line.tokens)
        if after.kind == "number" and (re.fullmatch(_WALL, before.low) or _lists(line.tokens, before))
    }


def _lists(tokens: Sequence[Token], joint: Token) -> bool:
    """Whether a joint stands in a list of walls: "walls 2 and 5"."""
    named = any(re.fullmatch(_WALL, token.low) for token in tokens if token.column < joint.column)
    return joint.low in (",", "and", "&") and named
