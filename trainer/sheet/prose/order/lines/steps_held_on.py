"""A last step held on for some counts more, told as a hold at the end of its wall.

"On wall 3 hold the last clap 2 counts longer", "wall 3: after the last clap hold two more counts". Common practice, no
source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.lines.rows import WALL_WORDS
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_LAST = r"(?:the |your |that |this )?(?:very )?(?:last|final) (?!time|wall|count of|\d+)(?:\w+ ){1,2}?"
_LENGTH = r"(?:for |by )?(?:another |an extra |an additional )?(?P<n>[a-z]+|\d+) "
_MORE = r"(?:extra |more |additional )?(?:counts?|beats?|cts?)(?: longer| more| extra)?"
_HELD_ON = re.compile(
    rf"\b(?:hold|freeze|keep) (?:on )?(?:to |in )?{_LAST}(?:, )?{_LENGTH}{_MORE}|"
    rf"\bafter {_LAST}(?:, )?(?:hold|pause|freeze|wait) (?:still )?(?:for )?(?:another |an extra )?"
    rf"(?P<m>[a-z]+|\d+) {_MORE}|"
    r"\b(?:ends|finishes|closes) (?:with|on|in) (?P<k>[a-z]+|\d+) (?:extra )?(?:counts?|beats?) of "
    r"(?:silence|stillness|holding|rest|nothing|no music|standing still)(?: :| ,)?(?: (?:just )?hold)?"
)
_ADDED = re.compile(r"\b(?:extra|more|additional|longer|another)\b|^(?:hold|freeze|keep|ends|finishes|closes)\b")


def told_held_on(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence that has a step held on told as the end of its wall and a hold; others as they are."""
    words = " ".join(token.low for token in tokens)
    held = _HELD_ON.search(words)
    walls = [at for at, token in enumerate(tokens) if token.low in WALL_WORDS]
    if held is None or not walls or not _ADDED.search(held[0]):
        return tuple(tokens)
    first = words[: held.start()].count(" ")
    last = first + held[0].count(" ") + 1
    number = next((at for at in range(last - 1, first, -1) if number_at(tokens, at)[1] > at), 0)
    rest = [*tokens[:first], *tokens[last:]]
    if not number:
        return tuple(tokens)
    near = tokens[first]
    end = [word_like(near, word) for word in ("at", "the", "end", "of")]
    named = next(at for at, token in enumerate(rest) if token.low in WALL_WORDS)
    start = named
    while start and (rest[start - 1].low in _BEFORE or number_at(rest, start - 1)[2]):
        start -= 1
    counts = number_at(tokens, number)[0]
    told = [word_like(near, "hold"), word_like(near, "for"), number_like(near, counts)]
    lead = [one for one in rest[start:named] if one.low not in _BEFORE]
    while rest and rest[-1].text == ".":
        rest.pop()
    return (*rest[:start], *end, *lead, *rest[named:], mark_like(near, ","), *told, word_like(near, "counts"))


_BEFORE = {"on", "in", "during", "at", "the", "end", "of", "for"}
