"""Hours behind the parts of a play: "A (12), B (6), A (12), B (6)" where each begins, and no number of counts.

In a line that speaks of walls they may stand without brackets: "walls for each part: A 12, B 9, A 3".

They are hours where every such number is one of the four, one part stands with two of them, or a line says that walls
are told; they are read as clock times. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FOUR = frozenset({"12", "3", "6", "9"})
_FEWEST = 3
_PARTS = frozenset("ABCDEFGH")
_SAID = frozenset({"wall", "walls", "facing", "face", "faces", "o'clock", "clock"})


def with_faced_parts(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, hours in brackets behind single letters as clock times."""
    found: dict[str, set[str]] = {}
    places = 0
    said = False
    for index, line in enumerate(lines):
        here = list(_places(line.tokens))
        for at, hour in here:
            found.setdefault(line.tokens[at].text, set()).add(line.tokens[hour].text)
        places += len(here)
        above = lines[index - 1].tokens if index else ()
        said = said or (len(here) > 1 and any(token.low in _SAID for token in (*line.tokens, *above)))
    numbers = set().union(*found.values()) if found else set()
    if places < _FEWEST or not numbers <= _FOUR or len(numbers) < 2 or "12" not in numbers:
        return list(lines)
    if not said and all(len(own) == 1 for own in found.values()):
        return list(lines)
    return [replace(line, tokens=_told(line.tokens)) for line in lines]


def _places(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Yield where a part's letter stands before a number in brackets, or in a line on walls before one; and where."""
    speaks = any(token.low in _SAID for token in tokens)
    for at in range(len(tokens) - 1):
        if tokens[at].text not in _PARTS:
            continue
        number = at + 1 + (tokens[at + 1].text in "([")
        after = tokens[number + 1].text if number + 1 < len(tokens) else ""
        closed = after in ("])" if number > at + 1 else ",;/." if speaks else ())
        if number < len(tokens) and tokens[number].kind == "number" and closed and (after or speaks):
            yield at, number


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    done = list(tokens)
    for _, at in _places(tokens):
        hour = done[at]
        text = f"{hour.text}:00"
        done[at] = replace(hour, kind="clock", text=text, low=text, value=HOURS[hour.text])
    return tuple(done)
