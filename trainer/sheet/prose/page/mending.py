"""Words moved over a mark to its neighbour, where both fit better so: "jazz box on 5-8, with a quarter turn"."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.page.streams import Piece, Stream, misfit
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Fill, Token

_STROKES = ("/", ";", "•", "+")
_MOSTLY = 0.8
"""So many counts of a section are parted alike."""


def is_dense(stream: Stream) -> bool:
    """Whether lines stand close under each other, so that an empty line between two parts what they tell."""
    lines = {mark.number for mark in stream.marks} | {token.line for words in stream.words for token in words}
    return any(line + 1 in lines for line in lines)


def _apart(first: Piece, second: Piece) -> bool:
    """Whether an empty line stands between two pieces."""
    ends = max(first.mark.number, *(token.line for token in first.text), 0)
    return min([second.mark.number, *(token.line for token in second.text)]) > ends + 1


def mended(pieces: list[Piece], fill: Fill, *, apart: bool, labelled: bool) -> tuple[Piece, ...]:
    """Move words over a mark where both neighbours fit better so: "jazz box on 5-8, with a quarter turn".

    Where `apart` is true, words stay on their side of an empty line, where `labelled` is true in their row.
    """
    done = list(pieces)
    parting = strokes(pieces)
    for index in range(len(done) - 1):
        first, second = done[index], done[index + 1]
        if (apart and _apart(first, second)) or _parted_by(first, second) & parting:
            continue
        if (labelled or max(first.mark.first, second.mark.first) <= 1) and first.mark.line != second.mark.line:
            continue
        if first.mark.closed and second.mark.closed and any(token.text == BREAK for token in first.text):
            continue
        now = _pair(first, second, fill)
        if now < 0.9:
            continue
        best = now - 0.8
        for at in _breaks(second.text):
            moved = Piece(first.mark, (*first.text, *second.text[:at])), Piece(second.mark, second.text[at:])
            if (cost := _pair(*moved, fill)) < best:
                best, (done[index], done[index + 1]) = cost, moved
        for at in _breaks(first.text):
            moved = Piece(first.mark, first.text[:at]), Piece(second.mark, (*first.text[at:], *second.text))
            if (cost := _pair(*moved, fill)) < best:
                best, (done[index], done[index + 1]) = cost, moved
    return tuple(done)


def strokes(pieces: Sequence[Piece]) -> set[str]:
    """Return the marks that part most counts with their words in the lines of a section: "1 walk R / 2 walk L"."""
    inner = [_parted_by(first, second) for first, second in pairwise(pieces) if first.mark.line == second.mark.line]
    return {mark for mark in _STROKES if inner and sum(mark in here for here in inner) >= _MOSTLY * len(inner)}


def _parted_by(first: Piece, second: Piece) -> set[str]:
    """Return the marks that stand at the end of a piece, or at the start of the next."""
    return {token.text for token in (*first.text[-1:], *second.text[:1]) if token.text in _STROKES}


def _pair(first: Piece, second: Piece, fill: Fill) -> float:
    return misfit(first, fill) + misfit(second, fill)


def _breaks(words: Sequence[Token]) -> list[int]:
    """Where words may be parted: after a mark of punctuation, or at a new line."""
    return [
        at
        for at in range(1, len(words))
        if words[at - 1].text in (",", ".", ";", ":", BREAK) or words[at].line > words[at - 1].line
    ]
