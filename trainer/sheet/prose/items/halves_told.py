"""Steps told in a sentence without counts, the second half of which points back to the first: "..., then the same".

Each half is given its counts: "1-4 step right to the side, ..., 5-8 the same to the left".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.words import Token

_PARTS = {",", ".", ";"}
_LEADS = {"then", "and", "&"}
_AGAIN = {"same", "repeat", "mirror"}
_LONGEST = 32


def with_halves_counted(tokens: Sequence[Token], counts: int | None) -> tuple[Token, ...]:
    """Return steps with counts before each half, where they have none and the second half is the first again."""
    if not counts or counts % 2 or counts > _LONGEST or any(mark.strength >= 1 for mark in marks_in(tokens, 0)):
        return tuple(tokens)
    for at in range(1, len(tokens) - 1):
        opens = tokens[at - 1].text in _PARTS or tokens[at - 1].low in _LEADS
        rest = tokens[at:]
        if (
            opens
            and points_back(rest[:4])
            and _says_so(rest)
            and not _AGAIN & {token.low for token in tokens[: at - 1]}
        ):
            half = counts // 2
            return (*_range(tokens[0], 1, half), *tokens[:at], *_range(tokens[at], half + 1, counts), *rest)
    return tuple(tokens)


def _says_so(rest: Sequence[Token]) -> bool:
    """Whether the words begin with what points back."""
    lows = [token.low for token in rest[:4] if token.low not in ("then", "dance", "do", "now")]
    return bool(lows) and lows[0] in ("the", "repeat", "same", "this", "that", "all", "again", "mirror", "it", "once")


def _range(token: Token, first: int, last: int) -> tuple[Token, ...]:
    one = replace(token, kind="number", text=str(first), low=str(first), glued=False, value=None)
    dash = replace(token, kind="mark", text="-", low="-", glued=True, value=None)
    return one, dash, replace(one, text=str(last), low=str(last), glued=True)
