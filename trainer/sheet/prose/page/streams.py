"""The words of a section and its counts in turn, and the words that belong to one count."""

from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.items.pointing import steps_told
from trainer.sheet.prose.page.endings import unannounced
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Fill, Token

FITS = 0.2
"""Words that fill counts so well are meant for them."""
_POINTER = 7
"""Tokens of words that do no more than point back: "do the same to the left"."""
_POINTED = 0.1
"""How badly these fill any counts."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A mark with the words that belong to it."""

    mark: Mark
    text: tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Stream:
    """The words of a section and its marks in turn: words[0] mark[0] words[1] mark[1] ... words[n]."""

    words: tuple[tuple[Token, ...], ...]
    marks: tuple[Mark, ...]


def trimmed(piece: Piece) -> Piece:
    """Return a piece without the word that announced its mark on the line above: "Counts", "on"."""
    text = unannounced(piece.text)
    while text and text[-1].text == BREAK:
        text = text[:-1]
    while text and text[0].text in (BREAK, ",", ";", ".", ":"):
        text = text[1:]
    return Piece(piece.mark, text)


def misfit(piece: Piece, fill: Fill) -> float:
    """How badly a piece's words fill its counts, "1 and 2" taken as it fits better."""
    cost = fill(piece.text, len(piece.mark.places))
    if cost > _POINTED and len(piece.text) <= _POINTER and points_back(piece.text):
        return _POINTED
    if cost > FITS and (told := steps_told(piece.text)):
        cost = min(cost, fill(told, len(piece.mark.places)))
    if cost > FITS and _has_upbeat(piece):
        cost = min(cost, fill(piece.text, len(piece.mark.places) + 1) + FITS)
    return min(cost, fill(piece.text, len(piece.mark.other))) if piece.mark.other else cost


def _has_upbeat(piece: Piece) -> bool:
    """Whether a half beat stands among a piece's words, which its counts leave out: "7 behind, & side, 8 cross"."""
    halves = [a.text in ",;" for a, b in pairwise(piece.text) if b.kind == "amp"]
    return halves == [True] and not any(place.sub for place in piece.mark.places)
