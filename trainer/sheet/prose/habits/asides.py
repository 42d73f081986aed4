"""Asides in brackets that say nothing of the order: "On wall 3 (yes, really) restart after section 2".

Dropped are a few words in brackets, behind a wall that a line names, none of which can tell a place, a facing, an extra
or a step; a name of the teacher's own could, and stays.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.lexis.lexemes import lexemes
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST = 5
"""Words of an aside."""
_SAYS_NOTHING = {"?", ",", "."}
_WALL = re.compile(r"\b(?:wall|time|round|through|rotation|repetition|wall \w+)$")
_NONE = Names({}, {})


def without_asides(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without such asides."""
    return tuple(_without(line) if is_order(line.tokens) else line for line in lines)


def _without(line: Line) -> Line:
    tokens = list(line.tokens)
    kept: list[Token] = []
    at = 0
    while at < len(tokens):
        last = _aside(tokens, at)
        if last:
            at = last
            continue
        kept.append(tokens[at])
        at += 1
    return line if len(kept) == len(tokens) else replace(line, tokens=tuple(kept))


def _aside(tokens: Sequence[Token], at: int) -> int:
    """Return the index behind an aside that opens at a token; 0 where none does."""
    if tokens[at].text != "(" or not at or not _WALL.search(" ".join(one.low for one in tokens[max(at - 2, 0) : at])):
        return 0
    closes = next((to for to in range(at + 1, len(tokens)) if tokens[to].text == ")"), None)
    inside = tokens[at + 1 : closes] if closes is not None else []
    words = [one for one in inside if one.kind == "word"]
    if closes is None or not 1 <= len(words) <= _LONGEST or closes + 1 >= len(tokens):
        return 0
    told = any(one.low in STEP_WORDS or one.kind not in ("word", "mark") for one in inside)
    named = any(one.text[:1].isupper() and one.low != "i" for one in words)
    if len(words) > 1 and words[-1].low == "one":
        inside = inside[: inside.index(words[-1])]  # "the odd one"
    return 0 if told or named or {one.kind for one in lexemes(inside, _NONE)} - _SAYS_NOTHING else closes + 1
