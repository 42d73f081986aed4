"""Facings told by the clock in the words of other languages: "(kl. 9)", "9 uur", "6 Uhr", "ore 3", "3u", "3h".

They are read as the time. Beside a time, "begin from the front" is "begin again", as German and Dutch have it. The
words are those of Danish, Norwegian, Swedish, Dutch, German, Italian, Finnish and French; from memory.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BEFORE = {"kl", "klokken", "klokka", "klockan", "klo", "ore"}
"""Words before the hour."""
_AFTER = {"uur", "uhr", "heures", "heure"}
"""Words after it."""
_GLUED = {"u", "h"}
"""Letters that are written on to it."""
_LEADS = {"to", "at", "from", "facing", "face", "see", "towards", "until"}
_QUARTERS = {"12:00", "3:00", "6:00", "9:00"}
"""Hours behind which an h may stand apart: "6 h"."""
_LAST = 12
_OCLOCK = {"o'clock", "oclock"}
_BEGIN = {"begin", "start", "begins", "starts"}
_AGAIN = {"again", "anew", "over"}


def with_hours_from_abroad(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with such hours as clock times."""
    return tuple(replace(line, tokens=_anew(_told(line.tokens))) for line in lines)


def _anew(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return a line with "begin from the front" as "begin again" where it tells the facing besides."""
    told = any(token.kind == "clock" or token.low in _OCLOCK for token in tokens)
    lows = [token.low for token in tokens]
    at = next((at for at in range(1, len(lows)) if lows[at : at + 3] == ["from", "the", "front"]), 0)
    begun = at and ({lows[at - 1]} | ({lows[at - 2]} if lows[at - 1] in _AGAIN else set())) & _BEGIN
    if not (told and begun) or lows[at + 3 : at + 4] in (["wall"], ["of"]):
        return tokens
    end = at + 3 + (lows[at + 3 : at + 4] == ["on"])
    again = () if lows[at - 1] in _AGAIN else (replace(tokens[at], text="again", low="again"),)
    return (*tokens[:at], *again, *tokens[end:])


def _told(tokens: Sequence[Token]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        length, hour = _hour_at(tokens, at)
        if hour is None:
            done.append(tokens[at])
            at += 1
            continue
        done.append(replace(hour, column=tokens[at].column, glued=tokens[at].glued))
        at += length
    return tuple(done)


def _hour_at(tokens: Sequence[Token], at: int) -> tuple[int, Token | None]:
    """Return how many tokens from one on tell an hour so, and the time."""
    if tokens[at].low in _BEFORE:
        dotted = at + 1 < len(tokens) and tokens[at + 1].text in (".", ":")
        number = _as_time(tokens, at + 1 + dotted)
        return (2 + dotted, number) if number is not None else (0, None)
    number = _as_time(tokens, at)
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if number is None or after is None:
        return 0, None
    told = after.low in _AFTER or (after.glued and after.low in _GLUED)
    apart = after.text == "h" and number.text in _QUARTERS and _leads_on(tokens, at)
    return (2, number) if told or apart else (0, None)


def _leads_on(tokens: Sequence[Token], at: int) -> bool:
    """Whether words beside an hour say that it is one; "6 h" alone may be a count and a hold."""
    before = tokens[at - 1].low if at else ""
    return before in _LEADS or (at + 2 < len(tokens) and tokens[at + 2].low == "to")


def _as_time(tokens: Sequence[Token], at: int) -> Token | None:
    """Return a number of the clock as the time of a full hour, and a time as it is."""
    if at >= len(tokens):
        return None
    token = tokens[at]
    if token.kind == "clock":
        return token
    if token.kind != "number" or not 0 < int(token.text) <= _LAST:
        return None
    text = f"{token.text}:00"
    return replace(token, kind="clock", text=text, low=text, value=Fraction(int(token.text) % _LAST, _LAST))
