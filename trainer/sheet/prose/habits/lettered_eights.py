"""Eights that a sheet tells apart by letters or numbers, "8a: ...", "8-B", "8.1", "8ct #2", "a8", "#3": its sections.

Known by their order alone: such names open lines, all of one make, and rise from the first. Elsewhere, a name of that
make is the section's too: "8a to 8d, restart".
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.lexis.vocabulary import ROMAN
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_EIGHTS = {"8", "eight", "6", "six"}
_SPELLED = {"eight", "six"}
_COUNTS = {"c", "ct", "cts", "count", "counts", "beat", "beats", "s"}
_SIGNS = {"-", ".", "/", "#", "_", ":"}
_LETTERS = "abcdefgh"
_LEAST = 3
_MOST = 16
_ENDS = {":", ".", ")", "-", BREAK, "=", "]", ">"}


class _Name(NamedTuple):
    """The name of an eight: its make (what stands in it but its value), its value from 1 on, the token after it."""

    make: tuple[str, ...]
    value: int
    end: int


def with_lettered_eights(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, eights that are told apart by letters or numbers named as sections."""
    opened: dict[tuple[str, ...], dict[int, _Name]] = defaultdict(dict)
    for at, line in enumerate(lines):
        for name in _openings(line.tokens):
            opened[name.make].setdefault(at, name)
    for make, heads in opened.items():
        values = [name.value for name in heads.values()]
        # "Eight A" over "Eight B" is a name already; two rows of "8 a" may be counts.
        large = (
            all(lines[at].tokens[name.end - 1].text.isupper() for at, name in heads.items()) and make[-1] == "letter"
        )
        least = 2 if make[0] in _SPELLED or (large and len(make) == 2) else _LEAST
        if len(values) >= least and values == list(range(1, len(values) + 1)):
            return tuple(
                replace(line, tokens=_as_head(line.tokens, heads.get(at), make)) for at, line in enumerate(lines)
            )
    return tuple(lines)


def _openings(tokens: Sequence[Token]) -> list[_Name]:
    """Return what names of eights may open a line, its marks around them included."""
    at = next((at for at, token in enumerate(tokens) if token.kind != "mark" or token.text == "#"), len(tokens))
    found = []
    for name in _names(tokens, at):
        end = name.end
        if end < len(tokens) and tokens[end].text not in _ENDS and not _set_apart(tokens, name):
            continue
        while end < len(tokens) and tokens[end].text in _ENDS:
            end += 1
        found.append(name._replace(end=end))
    return found


def _set_apart(tokens: Sequence[Token], name: _Name) -> bool:
    """Whether a letter is written on to its eight, before words: "8A  mambo right", which no count is."""
    letter = tokens[name.end - 1]
    return name.make[-1] == "letter" and letter.glued and tokens[name.end].kind in ("word", "fraction")


def _names(tokens: Sequence[Token], at: int) -> list[_Name]:
    """Return the names that may stand at a token."""
    if at >= len(tokens):
        return []
    end = at
    if tokens[at].low in _EIGHTS:
        end += 1
        counted = end + 1 < len(tokens) and tokens[end].low in _COUNTS
        # "8c" is the third of them, "8c 2" the second.
        end += counted and (tokens[end].low != "c" or bool(_value(tokens, end + 1)))
    sign = end < len(tokens) and tokens[end].text in (_SIGNS if end > at else {"#"})
    opens = not sign and end > at and [token.text for token in tokens[end : end + 1]] == ["("]
    first = end + sign + opens
    found = []
    for kind, value in _value(tokens, first):
        close = opens and [token.text for token in tokens[first + 1 : first + 2]] == [")"]
        glued = tokens[first].glued
        bare = end == at + 1 and not (sign or opens)
        if opens != close or first == at or (bare and tokens[at].kind == "number" and not (glued and kind != "number")):
            continue
        make = (*(token.low for token in tokens[at:first]), kind)
        found.append(_Name(make, value, first + 1 + close))
    for kind, value in _value(tokens, at) if end == at else ():
        eight = at + 1 + any(token.text in _SIGNS for token in tokens[at + 1 : at + 2])
        if eight < len(tokens) and tokens[eight].low in _EIGHTS and tokens[eight].glued and kind == "letter":
            found.append(_Name((kind, *(token.low for token in tokens[at + 1 : eight + 1])), value, eight + 1))
    return found


def _value(tokens: Sequence[Token], at: int) -> list[tuple[str, int]]:
    """Return of what kinds the value at a token may be, each with its number."""
    if at >= len(tokens):
        return []
    token = tokens[at]
    if token.kind == "number" and len(token.text) < 3:
        return [("number", int(token.text))]
    letters = [("letter", _LETTERS.index(token.low) + 1)] if len(token.text) == 1 and token.low in _LETTERS else []
    roman = [("roman", ROMAN[token.low])] if token.low in ROMAN else []
    word = [("word", NUMBERS[token.low])] if token.low in NUMBERS else []
    return [*letters, *roman, *word]


def _as_head(tokens: tuple[Token, ...], head: _Name | None, make: tuple[str, ...]) -> tuple[Token, ...]:
    if head is None:
        return _named(tokens, make)
    colon = replace(tokens[head.end - 1], kind="mark", text=":", low=":", glued=True)
    rest = _named(tokens[head.end :], make)
    return (*_section(head.value, tokens[0]), *((colon,) if rest else ()), *rest)


def _section(number: int, place: Token) -> tuple[Token, Token]:
    word = replace(place, kind="word", text="Section", low="section")
    return word, replace(place, kind="number", text=str(number), low=str(number), glued=False)


def _named(tokens: Sequence[Token], make: tuple[str, ...]) -> tuple[Token, ...]:
    """Return tokens with each name of that make as its section."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        name = next((one for one in _names(tokens, at) if one.make == make and one.value <= _MOST), None)
        if name is not None:
            done += _section(name.value, tokens[at])
            at = name.end
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)
