"""The words of a card: what a sheet says without what could harm a page, and turns with the signs of fractions."""

import re
from fractions import Fraction
from unicodedata import category, normalize

from trainer.dance.facing import turn_text

LONGEST = 300
"""Characters of one text of a sheet; what is longer is cut and marked."""

_FRACTIONS = {
    "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞", "1/3": "⅓", "2/3": "⅔",
}  # fmt: skip
_FRACTION = re.compile(r"(?:(?<!\S)(\d+) )?(?<![\d/])(\d/\d)(?![\d/])")
_TURNING = re.compile(r"\bturning ((?:full|\d[\d/ ]*) (?:right|left))")


def plain(text: str, longest: int = LONGEST) -> str:
    """Return a text of a sheet on one line, without control characters and marks that turn the way of writing."""
    kept = (" " if one.isspace() or category(one) == "Cc" else one for one in normalize("NFC", text[: 4 * longest]))
    told = " ".join("".join(one for one in kept if category(one) not in ("Cf", "Cs", "Co", "Cn")).split())
    return told if len(told) <= longest else told[: longest - 1].rstrip() + "…"


def turned(turn: Fraction) -> str:
    """Return a turn as a card says it: "¼ right", "full left", "1½ right"."""
    return with_fractions(turn_text(turn))


def with_fractions(text: str) -> str:
    """Return a text with the signs of fractions: 1/4 is ¼, 1 1/2 is 1½."""
    return _FRACTION.sub(lambda found: (found[1] or "") + _FRACTIONS.get(found[2], found[2]), text)


def without_turning(text: str) -> str:
    """Return a clause of a fair copy as a card says it: "shuffle turning 1/4 right" is "shuffle ¼ right"."""
    return _TURNING.sub(lambda found: with_fractions(found[1]), text).replace("full turn full ", "full turn ")
