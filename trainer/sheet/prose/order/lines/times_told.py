"""How often an extra is danced, in the words of different teachers, told with "twice after wall ...".

"(twice after 3)", "(double on wall 3)", "2x after wall 3", "two times after wall 3", "twice at wall 3".
Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

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
    return tuple(_placed(_behind_the_name(_twice(_without_following(tokens)))))


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
        # "x2 - end of wall 5" is no count of two.
        counted = counted and not (token.low == "x" and beyond is not None and beyond.text == "-" and not beyond.glued)
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


_EXTRAS = {"tag", "bridge", "tags", "bridges"}
_APART = re.compile(
    r"(?:(?<=[,(:;-])|(?<=\d) the (?:tag|bridge)) (?:and )?(?:(?:it|this) is |is )?"
    r"(?:(?:danced|done|played|repeated|to be danced) |(?:do|dance) (?:it |this )?)?"
    r"(?:(?:back to back|in a row|in succession) )?twice"
    r"(?: (?:in a row|over|running|through|in succession|back to back|one after the other|without a break))?"
    r"(?: ,(?! and)| (?=[):;.]|(?:after|at|behind) )|$)"
)
"""How often an extra is danced, set apart in its heading: "TAG (4 counts, danced twice in a row, after wall 3)"."""


def _behind_the_name(tokens: Sequence[Token]) -> list[Token]:
    """Return the tokens of a heading, what says that its extra is danced twice told right behind its name."""
    named = next((at for at, token in enumerate(tokens[:3]) if token.low in _EXTRAS), None)
    words = " ".join(token.low for token in tokens)
    said = _APART.search(words)
    walls = [token.low for token in tokens if token.low in WALL_WORDS]
    # "After walls 1 and 3 (twice after 3)" says it of one of several.
    several = len(walls) != 1 or walls[0].endswith("s") or "once" in words.split()
    if named is None or said is None or several:
        return list(tokens)
    first, last = words[: said.start()].count(" ") + 1, words[: said.end()].rstrip().count(" ") + 1
    if first <= named + 1:
        return list(tokens)
    twice = next(token for token in tokens[first:last] if token.low == "twice")
    # The place that it gets is that of the name: what is told of an extra stands beside it.
    kept = [*tokens[: named + 1], replace(tokens[named], text=twice.text, low=twice.low, glued=False)]
    rest = [*tokens[named + 1 : first], *tokens[last:]]
    following = zip(rest, [*rest[1:], None], strict=True)
    return [*kept, *(token for token, after in following if not _is_stray(token, after))]


def _is_stray(token: Token, after: Token | None) -> bool:
    """Whether a comma is left over before what closes."""
    return token.text == "," and (after is None or after.text in (")", ",", ".", ";"))


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
