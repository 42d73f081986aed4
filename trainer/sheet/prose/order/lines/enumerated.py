"""Sentences about the order that a list numbers: "1. The third wall is left ...", "(b) So does the fifth.".

The numbers are none of counts, nor of walls.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ROMAN, STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_OPENS = re.compile(r"(?:\( ?)?(\d{1,2}|[a-z]|[ivx]{1,4}) ?[.)\]:-]+ ")
_SHARE = 0.25
"""Of the words of a sentence, those of steps, where it tells steps."""
_SHORT = 8
_LONGEST = 4
"""Tokens of a number with its marks."""
_WALLS = {"wall", "walls", "round", "rounds", "time", "repetition", "restart", "restarts", "tag", "bridge"}


def unnumbered(group: Sequence[Line]) -> list[Line]:
    """Return the lines of a paragraph without the numbers of a list of sentences about the order."""
    marked = [_number(line) for line in group]
    first = next((at for at, mark in enumerate(marked) if mark), len(group))
    listed = [mark for mark in marked[first:] if mark]
    if len(listed) < 2 or [value for value, _ in listed] != list(range(1, len(listed) + 1)):
        return list(group)
    told = [line for line, mark in zip(group, marked, strict=True) if mark]
    rest = [line.tokens[mark[1] :] for line, mark in zip(group, marked, strict=True) if mark]
    if not _tell_the_order(rest) or any(len(line.tokens) <= mark[1] for line, mark in zip(told, listed, strict=True)):
        return list(group)
    done: list[Line] = []
    for line, mark in zip(group, marked, strict=True):
        tokens = line.tokens[mark[1] :] if mark else line.tokens
        if mark and done and not is_order(tokens) and _is_the_same(tokens):
            done[-1] = replace(done[-1], tokens=(*done[-1].tokens, *tokens))
        else:
            done.append(replace(line, tokens=tokens))
    return done


def _is_the_same(tokens: Sequence[Token]) -> bool:
    """Whether a sentence only says that another wall goes as the one before: "So does the fifth."."""
    lows = [token.low for token in tokens]
    return bool({"likewise", "ditto", "idem", "same"} & set(lows)) or (lows[:1] == ["so"] and len(lows) < _SHORT)


def _number(line: Line) -> tuple[int, int] | None:
    """The place in its list that a line opens with, and how many tokens tell it."""
    head = line.tokens[:_LONGEST]
    match = _OPENS.match(" ".join(token.low for token in head) + " ")
    if match is None:
        return None
    tokens = match[0].count(" ")
    told = match[1]
    if told.isdecimal():
        return int(told), tokens
    return (ROMAN[told] if told in ROMAN and len(told) > 1 else ord(told[0]) - ord("a") + 1), tokens


def _tell_the_order(rest: Sequence[Sequence[Token]]) -> bool:
    """Whether lines speak of the order, by words for walls, and those that tell steps do so, too."""
    orders = [is_order(tokens) and bool({token.low for token in tokens} & _WALLS) for tokens in rest]
    steps = [_tells_steps(tokens) for tokens in rest]
    opened = all(tokens and tokens[0].kind in ("word", "number", "mark") for tokens in rest)
    return (
        orders[0]
        and opened
        and 2 * sum(orders) >= len(rest)
        and not any(step and not order for step, order in zip(steps, orders, strict=True))
    )


def _tells_steps(tokens: Sequence[Token]) -> bool:
    words = [token for token in tokens if token.kind in ("word", "fraction")]
    return sum(token.low in STEP_WORDS for token in words) > _SHARE * len(words)
