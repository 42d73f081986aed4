"""Words that point back and then tell their steps all the same: "same with the left, heel", "now left, point"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.words import Draft, Item, Reading, Token

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


def tells_itself(item: Item, own: Sequence[Reading], source: Sequence[Draft | None]) -> bool:
    """Whether words that point back tell what they need: the steps one by one, or a figure that is not danced there."""
    if not own or own[0].breaches > 0:
        return False
    return _says_enough(item) or _spells_out(item.text, len(item.slots)) or _names_another(own[0], source)


def _says_enough(item: Item) -> bool:
    """Whether the words name steps of their own beside the reference: "kick right again"."""
    if names_a_foot_only(item.text):
        return False
    words = " ".join(token.low for token in item.text)
    return not re.search(
        r"\brepeat|\bsame\b|\bmirror|\bditto\b|^\W*(?:\w+ ){0,2}once (?:more|again)\b|\bdo (?:that|this|it)\b|"
        r"^\W*(?:as|like)(?: in| for| on)?(?: counts?)? \d",
        words,
    )


def _spells_out(words: Sequence[Token], counts: int) -> bool:
    """Whether what is danced again is told once more, step by step: "the same jazz box: cross right, ..."."""
    end = next((at for at, token in enumerate(words) if token.text in (":", ",", "(", ";")), len(words))
    head, rest = words[:end], words[end + 1 :]
    sides = sum(token.low in _SIDES for token in rest)
    others = sum(token.kind == "word" and token.low not in _SIDES | _FILLERS for token in rest)
    return points_back(head) and sides >= max(counts, _LEAST) and others >= counts - 1


_LEAST = 3
"""Steps of a figure that is spelled out."""


def _names_another(own: Reading, source: Sequence[Draft | None]) -> bool:
    """Whether words that point back name a figure that is not danced there: "the same jazz box" behind two kicks."""
    figures = {draft.figure if draft is not None else "" for draft in own.drafts}
    return len(figures) == 1 and figures != {""} and not figures & {one.figure for one in source if one is not None}
