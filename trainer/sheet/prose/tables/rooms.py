"""Marks of a sheet's own for the walls of the room: letters of the compass, hours with a mark before them.

A key ("N is the stage, E the wall on your right hand") tells what the letters mean; without one N is where the dance
begins. Letters are read as facings only where a key or a column of a table says that they are.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.tables.cells import COMPASS, HOURS, QUARTERS, ROOM, as_facing
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LOOKS = frozenset(
    {"face", "faces", "facing", "see", "seeing", "looking", "look", "towards", "toward", "now", "still", "at", "begun"}
)  # fmt: skip
_FIRST_COMPASS = frozenset("nesw")
_MARKS = frozenset({"o", "@", "^", "~", "f", "fc", "°"})


def key_of(lines: Sequence[Line]) -> dict[str, Fraction]:
    """Return what the letters of the compass mean by the sheet's own words."""
    best: dict[str, Fraction] = {}
    for line in lines:
        found = _keyed(line.tokens)
        if len(found) > max(len(best), 1):
            best = found
    if len(best) < 3:
        return {}
    return best


def _keyed(tokens: Sequence[Token]) -> dict[str, Fraction]:
    letters = [at for at, token in enumerate(tokens) if token.text.isupper() and token.low in _FIRST_COMPASS]
    found: dict[str, Fraction] = {}
    for at, until in zip(letters, [*letters, len(tokens)][1:], strict=True):
        told = next(
            (
                ROOM.get(token.low, HOURS.get(token.text) if token.text in QUARTERS else None)
                for token in tokens[at + 1 : until]
                if token.low in ROOM or token.text in QUARTERS
            ),
            None,
        )
        if told is not None and tokens[at].low not in found:
            found[tokens[at].low] = told
    return found


def with_room(lines: Sequence[Line], key: dict[str, Fraction], *, compass: bool) -> tuple[Line, ...]:
    """Return the lines with the sheet's own marks for facings as facings."""
    prefixes = _prefixes(lines)
    done = []
    for line in lines:
        tokens = _with_prefixed(line.tokens, prefixes) if prefixes else line.tokens
        if compass:
            tokens = _with_letters(tokens, {**COMPASS, **key}, keyed=_keyed(tokens))
        done.append(line if tokens is line.tokens else replace(line, tokens=tokens))
    return tuple(done)


def _prefixes(lines: Sequence[Line]) -> set[str]:
    """Return the marks that stand close before hours, and before no other number of the sheet."""
    numbers: dict[str, list[str]] = defaultdict(list)
    for line in lines:
        for mark, number in zip(line.tokens, line.tokens[1:], strict=False):
            if mark.low in _MARKS and number.kind == "number" and number.glued:
                numbers[mark.low].append(number.text)
    return {mark for mark, found in numbers.items() if len(found) > 2 and set(found) <= QUARTERS}


def _with_prefixed(tokens: Sequence[Token], prefixes: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    for token in tokens:
        before = done[-1] if done else None
        if before is not None and before.low in prefixes and token.glued and token.text in QUARTERS:
            done[-1] = as_facing((before, token), HOURS[token.text])
            continue
        done.append(token)
    return tuple(done)


def _with_letters(
    tokens: tuple[Token, ...], table: dict[str, Fraction], *, keyed: dict[str, Fraction]
) -> tuple[Token, ...]:
    """Return tokens with letters of the compass as facings: alone in a cell or bracket, or after a word of looking."""
    if len(keyed) > 2:
        return tokens
    done: list[Token] = []
    for at, token in enumerate(tokens):
        before = tokens[at - 1] if at else None
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        letter = token.kind == "word" and token.text.isupper() and token.low in table and len(token.text) < 3
        edged = _is_edge(before) and _is_edge(after) and not (before is None and after is None)
        if letter and (edged or (before is not None and before.low in _LOOKS)):
            done.append(as_facing((token,), table[token.low]))
        else:
            done.append(token)
    return tuple(done)


def _is_edge(token: Token | None) -> bool:
    return token is None or token.text in (BREAK, "(", ")", "[", "]")
