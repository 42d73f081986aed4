"""Degrees beside what they say again: "Facing 90° (3:00)", "Turn 180° (a half) right" are told once.

Only where the two agree: of two that do not, one is a fault of the sheet. Columns stay true, blanks stand for what
goes. Common practice, no source.
"""

import re

_SIGN = r" ?(?:°|º|deg(?:rees?)?\b)"
_FACED = re.compile(rf"\b(?P<degrees>\d{{1,3}}){_SIGN}(?= ?[(\[](?P<hour>\d{{1,2}})[:.](?P<minutes>\d\d)[)\]])")
_TURNED = re.compile(
    r"(?P<turn>\b(?:turn|turning|pivot|pivoting|spin|roll|rotate) (?:left |right )?"
    rf"(?P<degrees>\d{{2,3}}){_SIGN})(?P<again> ?\((?:an? |one )?"
    r"(?P<share>eighth|quarter|half|three[- ]quarters?|full|whole)(?: turn)?\))",
    re.IGNORECASE,
)
_SHARES = {"e": 45, "q": 90, "h": 180, "t": 270, "f": 360, "w": 360}
"""Degrees of an eighth, a quarter, a half, three quarters, a full or whole turn."""
_WHOLE = 360
_HOUR = 30
"""Degrees of an hour on the clock."""


def with_degrees_once(text: str) -> str:
    """Return the text without degrees before their clock time, and without fractions of a turn behind its degrees."""
    return _TURNED.sub(_turned, _FACED.sub(_faced, text))


def _faced(match: re.Match[str]) -> str:
    degrees = int(match["hour"]) * _HOUR + int(match["minutes"]) // 2
    return " " * len(match[0]) if degrees % _WHOLE == int(match["degrees"]) % _WHOLE else match[0]


def _turned(match: re.Match[str]) -> str:
    agrees = _SHARES[match["share"][0].lower()] == int(match["degrees"])
    return match["turn"] + " " * len(match["again"]) if agrees else match[0]
