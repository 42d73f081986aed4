"""A title that sounds like the order, "Old Mill Wall", "Restart My Heart": its words are a name, and tell nothing."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HOT = {"wall", "walls", "restart", "restarts", "tag", "tags", "bridge", "repeat", "again"}
_LONGEST = 6
_NAMING = {"'", '"', "-", "!", "&", "~", "*", "="}
_ORDERS = {
    "every", "each", "all", "no", "last", "final", "next", "after", "until", "before", "during", "only", "then",
    "dance", "start", "starts", "end", "ends", "begin", "begins", "order", "list", "note", "notes", "with",
    "without", "is", "are", "short", "full",
} | set(ORDINALS)  # fmt: skip
"""What tells of walls all the same."""


def with_title_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the words of the first one without what they mean where it is but a name."""
    if len(lines) < _LONGEST or not _is_a_name(lines[0].tokens):
        return tuple(lines)
    named = tuple(replace(token, low="name") if token.low in _HOT else token for token in lines[0].tokens)
    return (replace(lines[0], tokens=named), *lines[1:])


def _is_a_name(tokens: Sequence[Token]) -> bool:
    """Whether tokens are a few words, first of them in capitals, without numbers or what gives an order."""
    plain = all(token.kind in ("word", "amp") or token.text in _NAMING for token in tokens)
    if not plain or not 1 < len(tokens) <= _LONGEST or not any(token.low in _HOT for token in tokens):
        return False
    words = [token for token in tokens if token.kind == "word"]
    told = {token.low for token in words}
    numbered = any(number_at(tokens, at)[0] for at in range(len(tokens)))
    return (
        all(word.text[0].isupper() for word in (words[0], words[-1]))
        and not numbered
        and not told & _ORDERS
        and not (told & STEP_WORDS - {"step", "right", "left", "walk", "point", "back"})
    )
