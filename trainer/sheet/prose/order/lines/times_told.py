"""How often an extra is danced, in the words of different teachers, told with "twice after wall ...".

"(twice after 3)", "(double on wall 3)", "2x after wall 3", "two times after wall 3", "twice at wall 3".
Common practice, no source.
"""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.lines.rows import WALL_WORDS
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_TWO = {"2", "two"}
_TIMES = {"times", "x", "time"}
_DOUBLE = {"double", "doubled", "2x", "x2"}
_ARTICLES = {"the", "these", "this", "add", "insert"}
_AT = {"on", "in", "at", "for", "after"}
_COUNTED = {"counts", "count", "beats", "cts", "ct", "-", "eights", "bars", "sections", "times", "x"}


def with_times_told(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence that speaks of walls with such words as "twice", and "after wall" before the bare number."""
    if not any(token.low in WALL_WORDS for token in tokens):
        return tuple(tokens)
    return tuple(_placed(_twice(_without_following(tokens))))


def _without_following(tokens: Sequence[Token]) -> list[Token]:
    """Return the tokens without the word in "add the following 4 counts": it tells of no place."""
    return [
        token
        for at, token in enumerate(tokens)
        if not (
            token.low == "following"
            and 0 < at < len(tokens) - 2
            and tokens[at - 1].low in _ARTICLES
            and number_at(tokens, at + 1)[1] > at + 1
        )
    ]


def _twice(tokens: Sequence[Token]) -> list[Token]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        token, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else None
        beyond = tokens[at + 2] if at + 2 < len(tokens) else None
        counted = beyond is not None and (beyond.kind == "number" or beyond.low in _COUNTED)
        pair = after is not None and {token.low, after.low} & _TWO and {token.low, after.low} & _TIMES
        if pair and not counted and (token.low in _TWO or token.low == "x"):
            done.append(word_like(token, "twice"))
            at += 2
        elif token.low in _DOUBLE and (after is None or after.low in _AT | {")", "end"}):
            done.append(word_like(token, "twice"))
            at += 1
        else:
            done.append(token)
            at += 1
    return done


def _placed(tokens: Sequence[Token]) -> list[Token]:
    """Return the tokens; behind "twice" stands "after wall", whichever word and number told of it."""
    done: list[Token] = []
    for at, token in enumerate(tokens):
        before = tokens[at - 1] if at else None
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        twice = before is not None and before.low == "twice"
        if twice and token.low in _AT and after is not None and after.low in WALL_WORDS:
            done.append(word_like(token, "after"))
        elif twice and token.low == "after" and after is not None and _is_bare(tokens, at + 1):
            done += [token, word_like(after, "wall")]
        else:
            done.append(token)
    return done


def _is_bare(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number stands alone, so that it is no number of counts."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closes = after is None or after.text in (")", ".", ",", ";")
    return tokens[at].kind == "number" and tokens[at].text.isdecimal() and closes and int(tokens[at].text[:4]) <= _MOST


_MOST = 16
"""Walls that are counted so."""
