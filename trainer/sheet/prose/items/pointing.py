"""Words that point back and then tell their steps all the same: "same with the left, heel", "now left, point"."""

from collections.abc import Sequence

from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.words import Token

_LONGEST = 8
"""Tokens of words that do no more than point back before the steps are told."""
_SIDES = {"left", "right", "l", "r", "lf", "rf"}
_FILLERS = {"and", "then", "now", "the", "foot", "with", "on", "to", "&", ","}
_CHANGES = {"but", "except", "finish", "finishing", "ending", "instead", "starting", "leading", "beginning"}


def steps_told(words: Sequence[Token]) -> tuple[Token, ...]:
    """Return the steps told after the words that point back, with the foot that these name; none where none are.

    A side alone before a comma points back as well: "and left, point".
    """
    start = next((at for at, token in enumerate(words) if token.text not in (",", ";", ".")), 0)
    end = next(
        (at for at in range(start, min(len(words), start + _LONGEST)) if words[at].text in (",", ":", ";", ".")), 0
    )
    head, rest = tuple(words[start:end]), tuple(words[end + 1 :])
    if not head or not rest or _CHANGES & {token.low for token in words}:
        return ()
    sides = [token for token in head if token.low in _SIDES]
    bare = len(sides) == 1 and all(token.low in _SIDES | _FILLERS for token in head)
    if not bare and not points_back(head):
        return ()
    if len(sides) == 1 and not any(token.low in _SIDES for token in rest):
        return (sides[0], *rest)
    return () if bare else rest


_AGAIN = {"again", "once", "more", "same", "too", "also", "this", "time", "of", "finally", ".", ";", "so"}


def names_a_foot_only(words: Sequence[Token]) -> bool:
    """Whether words name no more than a foot: "and with the left", "then the right again"."""
    sides = [token for token in words if token.low in _SIDES]
    return len(sides) == 1 and all(token.low in _SIDES | _FILLERS | _AGAIN for token in words)
