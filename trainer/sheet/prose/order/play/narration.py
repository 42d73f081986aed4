"""Orders of play told in sentences: "You dance A twice, which takes you home. Then comes B", and so on.

Between two items anything may be said of where they lead. A sentence goes on with the order only when it opens like one
that does: with then, another, dance, after the part or the extra just told, or with a part that comes, once or again.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.words import Token

_OPENS = re.compile(r"[Dy]")
_PASSED_OVER = re.compile(r"[?IYyUDzfomA,&>kLNtJhuQ\-]+")
_ITEM = re.compile(r"[pTGHX]|S?p|i")
_GOES_ON = {
    "after", "again", "another", "dance", "do", "finally", "first", "follow", "followed", "last", "lastly", "next",
    "now", "once", "then", "there", "twice", "you", "we", "and",
}  # fmt: skip
_COMES = {"again", "comes", "follows", "once", "twice", "next", "three"}
_FIRST = {"first", "start", "begin", "dance", "we", "you"}
_FAR = 16
"""Lexemes between two items of one sentence."""


def is_narrated(head: str, tokens: Sequence[Token]) -> bool:
    """Return whether what stands before the first part tells what is danced: "You dance", "Start with"."""
    return bool(_OPENS.search(head)) or (bool(tokens) and tokens[0].low in _FIRST)


def next_item(letters: str, lexemes: Sequence[Lexeme], tokens: Sequence[Token], at: int) -> int | None:
    """Return the index of the next item beyond words that say nothing of the order, or of what leads to it."""
    match = _PASSED_OVER.match(letters, at)
    end = match.end() if match else at
    if end - at > _FAR or end >= len(letters):
        return None
    # What is returned always lies beyond `at`: the reader has to come to an end.
    if letters[end] == ".":
        return end + 1 if _opens_anew(lexemes, tokens, end + 1) else None
    return end if end > at and (_ITEM.match(letters, end) or letters[end] in "no") else None


def _opens_anew(lexemes: Sequence[Lexeme], tokens: Sequence[Token], at: int) -> bool:
    """Whether a sentence goes on with the order."""
    if at >= len(lexemes):
        return False
    if tokens[lexemes[at].first].low in _GOES_ON:
        return True
    beyond = lexemes[at].last
    return lexemes[at].kind == "p" and beyond < len(tokens) and tokens[beyond].low in _COMES
