"""The length that is told beside words: "(4)", "8 counts:", "- four beats"; it may be the count reached as well."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_UNITS = {"b", "bt", "bts", "beat", "beats", "c", "ct", "cts", "cnt", "cnts", "count", "counts", "steps"}
_BRACKETS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_SIGNS = {":", "-", BREAK, "=", ",", "~", ">", "."}
_MOST = 32
_ASIDE = 4
"""Tokens of an aside's length, its bracket and what parts it from the rest."""
_LEADS = {"then", "and", "the", "next", "last", "final", "first", "another", "now", "for", "finally", "over"}
"""Before a length that opens words: "and the last four counts: ..."."""
_SAYING_MORE = {";", ",", ":", ".", "-"}


def told_length(words: Sequence[Token]) -> tuple[int, tuple[Token, ...]]:
    """Return the length told at either end of words, 0 where none is, and the words without it."""
    first, last = 0, len(words)
    while last and words[last - 1].text in (".", ",", ";"):
        last -= 1
    aside = max((at for at in range(last) if words[at].text == "("), default=0)
    if aside and words[last - 1].text == ")" and (length := told_aside(words[aside:last])):
        return length, tuple(words[:aside])
    length, start = _closing(words, last)
    if length:
        while start and words[start - 1].text in _SIGNS:
            start -= 1
        return length, tuple(words[:start])
    length, first = _opening(words)
    while length and first < len(words) and words[first].text in _SIGNS:
        first += 1
    return length, tuple(words[first:])


def told_aside(words: Sequence[Token]) -> int:
    """Return the length that opens an aside which says more, 0 for none: "(four counts; step the first wide)"."""
    said = words[1:_ASIDE]
    opens = len(said) == _ASIDE - 1 and said[1].low in _UNITS and said[2].text in _SAYING_MORE
    return _value(said[0]) if opens else 0


def _closing(words: Sequence[Token], last: int) -> tuple[int, int]:
    """Return the length that ends with a token, and where it starts."""
    at = last
    closed = at > 2 and words[at - 1].text in _BRACKETS.values()
    at -= closed
    unit = at > 1 and words[at - 1].low in _UNITS
    at -= unit
    value = _value(words[at - 1]) if at else 0
    opened = closed and at > 1 and _BRACKETS.get(words[at - 2].text) == words[last - 1].text
    if not value or (closed and not opened) or not (opened or unit) or at - 1 - opened == 0:
        return 0, last
    return value, at - 1 - opened


def _opening(words: Sequence[Token]) -> tuple[int, int]:
    """Return the length that opens words, and the token after it."""
    opened = len(words) > 2 and words[0].text in _BRACKETS
    at = int(opened)
    while not opened and at < len(words) and words[at].low in _LEADS:
        at += 1
    value = _value(words[at]) if at < len(words) else 0
    at += 1
    unit = at < len(words) and words[at].low in _UNITS
    at += unit
    if not opened and words[at : at + 1] and words[at].low == "more":
        # "Two more: side left, touch right", "four counts more: ...".
        at, unit = at + 1, True
    closed = opened and at < len(words) and words[at].text == _BRACKETS[words[0].text]
    lasting = words[0].low in ("for", "over")
    signed = unit and at < len(words) and (lasting or words[at].text in _SIGNS)
    if not value or not (closed or signed) or (opened and not closed):
        return 0, 0
    return value, at + closed


def _value(token: Token) -> int:
    """Return the number of a token, 0 where it is none that may be a length."""
    value = int(token.text) if token.kind == "number" and token.text.isdecimal() else NUMBERS.get(token.low, 0)
    return value if 1 < value <= _MOST else 0
