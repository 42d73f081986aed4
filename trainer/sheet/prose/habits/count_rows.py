"""Rows of counts over rows of steps, parted by signs: "1 / 2 & / 3 / 4" over "right fwd / left fwd, right tog / ...".

Where the line under one of nothing but counts has as many pieces as it, each piece is told on
a line of its own, behind its count. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_HALVES = frozenset({"&", "a", "e", "and", "n", "+"})
_SIGNS = ("/", ";", ">", "•", "~", "-", ".", ",")
_LEAST = 3
"""Pieces of a row."""
_OFTEN = 2
"""Rows of a sheet that writes so."""


def with_count_rows(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, each row of steps as a line for each count of the row above it."""
    found = {at: told for at in range(1, len(lines)) if (told := _told(lines[at - 1], lines[at]))}
    under = sum(bool(_told(counts, steps)) for steps, counts in pairwise(lines))
    if len(found) < _OFTEN or under > len(found):
        # Counts under their steps are read as they stand.
        return list(lines)
    done: list[Line] = []
    for at, line in enumerate(lines):
        if at in found:
            done += found[at]
        elif at + 1 not in found:
            done.append(line)
    return done


def _told(above: Line, below: Line) -> list[Line]:
    """Return a row of steps, a line for each of the counts above it; nothing where two lines are none."""
    if abs(below.number - above.number) != 1 or any(token.text == BREAK for token in below.tokens):
        return []
    for counts in _counts(above.tokens):
        for sign in _SIGNS:
            pieces = _parted(below.tokens, sign)
            if len(pieces) == len(counts) and all(any(token.kind == "word" for token in piece) for piece in pieces):
                told = zip(counts, pieces, strict=True)
                return [replace(below, tokens=tuple(_counted(own, piece, below.tokens[0]))) for own, piece in told]
    return []


def _counts(tokens: Sequence[Token]) -> Iterator[list[list[Token]]]:
    """Yield the pieces of a row of counts, as its signs part them and beat by beat; nothing where it is none."""
    told = [token for token in tokens if token.text not in _SIGNS and token.text != BREAK]
    numbers = [int(token.text) for token in told if token.kind == "number"]
    goes_on = all(b == a + 1 for a, b in pairwise(numbers)) and all(
        token.kind == "number" or token.low in _HALVES for token in told
    )
    if len(numbers) < _LEAST or not goes_on or told[0].kind != "number":
        return
    for sign in (*_SIGNS, BREAK):
        pieces = _parted(tokens, sign)
        if len(pieces) >= _LEAST and all(
            piece[0].kind == "number" and not any(token.text in _SIGNS for token in piece) for piece in pieces
        ):
            yield pieces
    beats: list[list[Token]] = []
    for token in told:
        if token.kind == "number":
            beats.append([])
        beats[-1].append(token)
    yield beats


def _parted(tokens: Sequence[Token], sign: str) -> list[list[Token]]:
    pieces: list[list[Token]] = [[]]
    depth = 0
    for token in tokens:
        depth += (token.text in "([{") - (token.text in ")]}")
        if token.text == sign and depth <= 0 and not (sign in "-." and token.glued):
            pieces.append([])
        else:
            pieces[-1].append(token)
    return [piece for piece in pieces if piece]


def _counted(counts: Sequence[Token], piece: Sequence[Token], margin: Token) -> Iterator[Token]:
    """Yield a piece of a row of steps behind its counts, these at the margin where the row begins."""
    for at, one in enumerate(counts):
        token = replace(one, line=margin.line, column=margin.column, glued=bool(at))
        yield replace(token, kind="amp", text="&", low="&") if token.low in ("+", "and", "n") else token
    yield replace(piece[0], kind="mark", text=BREAK, low=BREAK, glued=False)
    yield from piece
