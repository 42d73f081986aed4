"""Bars numbered by letters or words before their steps: "bar iii  left forward ...", "second bar: ...".

Each is told with its number in figures. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.number_words import numeral
from trainer.sheet.prose.tables.words import word_like
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_BARS = {"bar", "measure"}
_PARTED = {BREAK, ":", "-", ".", ")", "=", ","}
_PLACES = {"st", "nd", "rd", "th"}
_LEAST = 2
"""Bars that follow each other; a single one may be a heading."""


def with_bars_numbered(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, such bars by their numbers; they stand one below the other, from the first on."""
    done = list(lines)
    at = 0
    while at < len(done):
        heads = _heads(done, at)
        if len(heads) >= _LEAST:
            done[at : at + len(heads)] = [
                _numbered(line, number, last)
                for number, (line, last) in enumerate(zip(done[at:], heads, strict=False), 1)
            ]
        at += max(len(heads), 1)
    return done


def _heads(lines: Sequence[Line], first: int) -> list[int]:
    """Return where the bars' names end in the lines from an index on, as far as they name bars in turn."""
    heads: list[int] = []
    for place, line in enumerate(lines[first:]):
        number, last = _named(line.tokens)
        below = not place or line.number == lines[first + place - 1].tokens[-1].line + 1
        if number != len(heads) + 1 or not below:
            break
        heads.append(last)
    return heads


def _named(tokens: Sequence[Token]) -> tuple[int, int]:
    """Return the number of the bar that a line opens with in other than figures, and the index after it; 0 for none."""
    lows = [token.low for token in tokens[:4]]
    at = int(lows[:1] == ["the"])
    if lows[at : at + 1] and lows[at] in _BARS:
        at += 1 + (lows[at + 1 : at + 2] == ["the"])
        name = lows[at] if at < len(lows) else ""
        number, last = numeral(name), at + 1
    else:
        name = lows[at] if at < len(lows) else ""
        written = lows[at + 1 : at + 2] and lows[at + 1] in _PLACES
        number = ORDINALS.get(name, int(name) if written and name.isdecimal() and len(name) < 3 else 0)
        last = at + 1 + bool(written)
        number, last = (number, last + 1) if lows[last : last + 1] and lows[last] in _BARS else (0, 0)
    told = last + 1 < len(tokens) and tokens[last].text in _PARTED
    return (number, last) if told else (0, 0)


def _numbered(line: Line, number: int, last: int) -> Line:
    first = line.tokens[0]
    named = (word_like(first, "bar"), replace(first, kind="number", text=str(number), low=str(number), glued=False))
    return replace(line, tokens=(*named, *line.tokens[last:]))
