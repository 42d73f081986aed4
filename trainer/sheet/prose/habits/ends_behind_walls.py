"""The end of a wall told behind it: "in wall 2, at the end, and ..." is "at the end of wall 2, and ..."."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_NTH = "|".join(ORDINALS) + r"|\d+ (?:st|nd|rd|th)"
_ENDED = re.compile(
    rf"(?<!\S)(?:in|on|during) (?P<wall>(?:the )?(?:wall \w+|(?:{_NTH}) wall)) "
    r"(?P<end>(?:, |\( )?(?:right |just )?at (?:the|its) (?:very )?end(?: \)| (?=[,.;)&]|and |$)))"
)


def with_ends_before_walls(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, such an end before its wall."""
    return [replace(line, tokens=_told(line.tokens)) for line in lines]


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    words = " ".join(token.low for token in tokens) + " "
    if "end" not in words:
        return tokens
    done = list(tokens)
    for found in reversed(list(_ENDED.finditer(words))):
        first = words[: found.start()].count(" ")
        wall = words[: found.start("wall")].count(" ")
        end = words[: found.start("end")].count(" ")
        last = words[: found.end()].count(" ")
        at = tokens[first]
        done[first:last] = [*(word_like(at, word) for word in ("at", "the", "end", "of")), *tokens[wall:end]]
    return tuple(done)
