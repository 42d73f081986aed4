"""Ways from hour to hour that a sheet's headings tell: "from 12 to 6", "(12 > 9)", "starts 6, ends 3".

They are hours, and no counts, where one begins as the one above it ended, again and again, from 12 on; then each is
told as "from 12:00 to 6:00". Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.facing.walls_named import HOURS, OCLOCK
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_WORDS = {"twelve": "12", "three": "3", "six": "6", "nine": "9"}
_LEADS = {"from", "facing", "start", "starts", "starting", "begin", "begins", "beginning", "at", "on", "in", "face"}
_JOINS = {"to", "-", ">", ",", ";", "and", "then", "until", "/", "till"}
_ENDS = {"end", "ends", "ending", "finish", "finishes", "finishing", "at", "facing", "to", "on", "out", "arrive", ":"}
_AROUND = {"(", "[", "{", BREAK, "•", "-", ",", ":", ";", ".", ">", "<", "="}
_CLOSES = {")", "]", "}", BREAK, "•", ".", ",", ";"}
_BETWEEN = 4
"""Tokens between both hours of a way at most."""
_LEAST = 2
"""So many ways begin where the one above them ended, for it to be no chance."""
_EACH_WAY = 2


def with_ways_told(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the ways in their headings told in clock times."""
    found = {index: hours for index, line in enumerate(lines) if (hours := _way(line.tokens)) is not None}
    told = [[_hour(lines[index].tokens[at]) for at in hours] for index, hours in found.items()]
    if not told or told[0][0] != "12" or all(int(start) < int(end) for start, end in told):
        return list(lines)
    # Counts never go back: "from 12 to 9", "from 6 to 6".
    back = sum(int(start) >= int(end) for start, end in told)
    joined = sum(before[1] == after[0] for before, after in pairwise(told)) + (back >= _LEAST)
    if joined < max(_LEAST, len(told) - 3, len(told) / _EACH_WAY):
        return list(lines)
    return [
        replace(line, tokens=_told(line.tokens, *found[index])) if index in found else line
        for index, line in enumerate(lines)
    ]


def _told(tokens: Sequence[Token], start: int, end: int) -> tuple[Token, ...]:
    """Return tokens with the way from one hour to the other told as "from 12:00 to 6:00"."""
    first = start
    while first and tokens[first - 1].low in _LEADS:
        first -= 1
    led = replace(tokens[first], kind="word", text="from", low="from", value=None)
    joined = replace(tokens[start + 1], kind="word", text="to", low="to", glued=False)
    return (*tokens[:first], led, _clock(tokens[start]), joined, _clock(tokens[end]), *tokens[end + 1 :])


def _way(tokens: Sequence[Token]) -> tuple[int, int] | None:
    """Return where both hours of the last way of a line stand; None where it tells none."""
    return next(_ways(tokens), None)


def _ways(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    hours = [at for at, token in enumerate(tokens) if _hour(token)]
    for start, end in reversed(list(pairwise(hours))):
        between = [token.low for token in tokens[start + 1 : end] if token.low not in OCLOCK]
        joined = 0 < len(between) <= _BETWEEN and between[0] in _JOINS and set(between) <= _JOINS | _ENDS
        after = tokens[end + 1] if end + 1 < len(tokens) else None
        closed = after is None or after.text in _CLOSES or after.low in OCLOCK
        if joined and closed and (not start or tokens[start - 1].low in _LEADS | _AROUND):
            yield start, end


def _hour(token: Token) -> str:
    """Return the full hour that a token may be."""
    text = token.text.removesuffix(":00") if token.kind in ("number", "clock") else _WORDS.get(token.low, "")
    return text if text in HOURS else ""


def _clock(token: Token) -> Token:
    text = f"{_hour(token)}:00"
    return replace(token, kind="clock", text=text, low=text, value=HOURS[_hour(token)], glued=False)
