"""Headings of an ending by the word "end" that say how long it is and that it comes once: "END (3 counts, once)".

"End" alone is a name as "ending" is; with "once" beside it, it would tell that the dance ends in its first wall.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line

_HEADS = re.compile(
    r"\W*(?:the )?end ?[|(\[,:\-] ?(?=.*\b\d+ (?:counts?|cts?|ct|beats?)\b)(?=.*\b(?:once|one time)\b)"
    r"(?!.*\b(?:walls?|round|after|before|restart|tag|dance ends)\b)"
)
_LONGEST = 14
"""Tokens of such a heading."""


def with_ends_named(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such headings with the name of an ending."""
    return tuple(_named(line) if len(line.tokens) <= _LONGEST and _HEADS.match(line.words) else line for line in lines)


def _named(line: Line) -> Line:
    at = next(place for place, token in enumerate(line.tokens) if token.low == "end")
    word = replace(line.tokens[at], low="ending")
    return replace(line, tokens=(*line.tokens[:at], word, *line.tokens[at + 1 :]))
