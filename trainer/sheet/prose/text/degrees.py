"""Degrees beside what they say again: "Facing 90° (3:00)", "Turn 180° (a half) right" are told once.

Columns stay true: blanks stand for what goes. Common practice, no source.
"""

import re

_FACED = re.compile(r"\b\d{1,3} ?(?:°|º|deg(?:rees?)?\b)(?= ?[(\[]\d{1,2}[:.]\d\d[)\]])")
_TURNED = re.compile(
    r"(\b(?:turn|turning|pivot|pivoting|spin|roll|rotate) (?:left |right )?\d{2,3} ?(?:°|º|deg(?:rees?)?\b))"
    r"( ?\((?:an? |one )?(?:quarter|half|eighth|full|three[- ]quarters?|whole)(?: turn)?\))",
    re.IGNORECASE,
)


def with_degrees_once(text: str) -> str:
    """Return the text without degrees before a clock time, and without fractions of a turn behind its degrees."""
    text = _FACED.sub(lambda match: " " * len(match[0]), text)
    return _TURNED.sub(lambda match: match[1] + " " * len(match[2]), text)
