"""Numbers that the margin has parted from what they number: "Dance Sections" above "1 to 4 and start again".

They are told on the line of their noun; alone at the start of a line they look like counts.
"""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import NUMBERED, NUMBERS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line, taken_back
from trainer.sheet.prose.words import Token

_NOUNS = {"section", "wall", *NUMBERED}
_JOINS = {"to", "and", "-", ",", "&", "through"}
_SPEAKS = 3
"""Tokens before the noun; with fewer it may head the rows below."""


def with_numbers_at_their_nouns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such numbers at the end of the line above."""
    return tuple(taken_back(lines, _parted))


def _parted(above: Line, line: Line) -> int:
    """Return how many tokens of a line number the noun that ends the line above."""
    near = line.number == above.number + 1 and len(above.tokens) > _SPEAKS and len(line.tokens) > 1
    named = near and above.tokens[-1].low in _NOUNS and not _is_how_many(above.tokens[-2])
    if not named or any(token.text == BREAK for token in line.tokens):
        return 0
    last = 0
    for at, token in enumerate(line.tokens):
        if token.kind == "number":
            last = at + 1
        elif not last or token.low not in _JOINS or at > last:
            break
    opens = line.tokens[last : last + 1]
    return 0 if opens and opens[0].low in STEP_WORDS else last


def _is_how_many(token: Token) -> bool:
    """Whether a token says how many there are: "8 counts, 1 wall" numbers none."""
    return token.kind == "number" or token.low in NUMBERS
