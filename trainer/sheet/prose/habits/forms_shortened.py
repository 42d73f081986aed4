"""A short form of a part by other words, "the clipped A", "a cut-short Verse", "A½", told as "short A" and half of it.

Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_SHORTENED = {
    "clipped", "trimmed", "docked", "abridged", "curtailed", "truncated", "cropped", "incomplete", "abbreviated",
    "stunted", "mini", "partial", "reduced", "lopped", "chopped", "snipped", "shortish", "brief", "unfinished",
}  # fmt: skip
_PARTS = frozenset("ABCDEFGH")
_HALVES = {f"{letter}½": letter for letter in _PARTS}
_CUT_SHORT = 3
"""Tokens of "cut-short"."""


def with_short_forms_of_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such words told as "short", "A½" as half of A."""
    done = []
    for line in lines:
        tokens = tuple(_told(line.tokens))
        done.append(replace(line, tokens=tokens, source="") if tokens != line.tokens else line)
    return tuple(done)


def _told(tokens: Sequence[Token]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        token = tokens[at]
        hyphened = [one.low for one in tokens[at : at + _CUT_SHORT]] == ["cut", "-", "short"]
        if token.text in _HALVES:
            yield replace(token, text=_HALVES[token.text], low=_HALVES[token.text].lower())
            yield from (mark_like(token, "("), word_like(token, "half"), mark_like(token, ")"))
        elif hyphened and _is_part(tokens, at + _CUT_SHORT):
            yield word_like(token, "short")
            at += _CUT_SHORT - 1
        elif token.low in _SHORTENED and _is_part(tokens, at + 1):
            yield word_like(token, "short")
        else:
            yield token
        at += 1


def _is_part(tokens: Sequence[Token], at: int) -> bool:
    """Whether a part is named at a token: a letter, or a part of a song."""
    at += at < len(tokens) and tokens[at].low == "part"
    return at < len(tokens) and (tokens[at].text in _PARTS or tokens[at].low.removesuffix("s") in SONG_PARTS)
