"""What a section says beside its steps: a greeting before them, remarks among them, a count added to another."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.page.endings import said_in
from trainer.sheet.prose.page.streams import FITS, Piece, Stream, misfit
from trainer.sheet.prose.words import Fill, Token

_MARGIN = 45
"""A line that ends beyond this column may have been broken there."""


def without_greeting(stream: Stream, fill: Fill) -> Stream:
    """Return the words without what is said before the steps of the first count: "16 counts 4 walls. stomp right 1"."""
    words = stream.words[0]
    end = next((at + 1 for at in range(len(words) - 1, 0, -1) if words[at].text in (".", "!", "?")), 0)
    said = {token.low for token in words[:end]}
    if not said & _FACTS or end == len(words) or not stream.marks:
        return stream
    counts = len(stream.marks[0].places)
    if fill(words[end:], counts) < FITS and fill(words, counts) > FITS + fill(words[end:], counts):
        return replace(stream, words=(words[end:], *stream.words[1:]))
    return stream


def with_said_once(stream: Stream, pieces: list[Piece], fill: Fill) -> tuple[Piece, ...]:
    """Return the pieces, a count that is only added to another with its words: "clap on 7 and on 8"."""
    for at in range(1, len(pieces)):
        one, before = pieces[at], pieces[at - 1]
        added = {token.low for token in stream.words[at]}
        single = len(one.mark.places) == len(before.mark.places) == 1
        if not single or said_in(one.text) or "and" not in added or not added <= _ADDING:
            continue
        if said_in(before.text) and fill(before.text, 1) < FITS:
            pieces[at] = Piece(one.mark, before.text)
    return tuple(pieces)


_FACTS = {"counts", "cts", "walls", "wall", "weight", "music", "song", "tune", "track"}
"""Words of a greeting that states facts of the dance."""
_ADDING = {"and", "on", "again", "also", "then", ",", "at", "for"}


def without_remarks(piece: Piece, fill: Fill) -> Piece:
    """Return a piece without whole lines that make its words fit worse: "n the same back again", "watch your arms"."""
    now = misfit(piece, fill)
    for line in dict.fromkeys(token.line for token in piece.text):
        if line == piece.mark.number or now < 0.5 or _is_wrapped(piece.text, line):
            continue
        rest = tuple(token for token in piece.text if token.line != line)
        if said_in(rest) and (cost := misfit(Piece(piece.mark, rest), fill)) <= now - 0.5:
            piece, now = Piece(piece.mark, rest), cost
    return piece


def without_easier(piece: Piece, fill: Fill) -> Piece:
    """Return a piece without a last sentence for those who do less: "... step right. Bad knees just walk."."""
    stops = [at for at, token in enumerate(piece.text) if token.text in (".", "!", "?")]
    for stop in reversed(stops):
        last = said_in(piece.text[stop + 1 :])
        if not last:
            continue
        lows = {token.low for token in last}
        easier = bool(lows & _JUST) and last[0].low not in STEP_WORDS and last[0].text[0].isupper()
        rest = Piece(piece.mark, piece.text[: stop + 1])
        return rest if easier and misfit(rest, fill) <= misfit(piece, fill) - _WORTH else piece
    return piece


_JUST = {"just", "simply", "may", "can", "could", "instead", "prefer", "merely"}
_WORTH = 0.5


def _is_wrapped(words: Sequence[Token], line: int) -> bool:
    """Whether a line goes on with a sentence that was broken at the margin, or is broken there itself."""
    for before, after in pairwise(words):
        if before.line == after.line or line not in (before.line, after.line):
            continue
        wide = before.column + len(before.text) > _MARGIN
        small = after.text[0].islower() or after.text in ",;"
        if wide and (before.text == "," or (before.text not in (".", "!", "?", ":", ")") and small)):
            return True
    return False
