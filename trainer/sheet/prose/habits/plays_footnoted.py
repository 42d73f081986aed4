"""A part of the play with a mark behind it, "A B A* B", that a line below takes up: "* only the first 16 counts".

A mark that opens a line is taken for a bullet; the line is told as what the marked part is: "A* = only the first ...".
Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_MARKS = ("*", "+", "^", "#", "~")
_PARTS = (*"ABCDEFGH",)
_FEWEST = 3
"""Parts in a line that tells a play."""
_NEAR = 6
"""Lines below the play among which its note stands."""


def with_plays_footnoted(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a note told as what the marked part is."""
    done = list(lines)
    for at, line in enumerate(lines):
        for mark in _MARKS:
            marked = _marked(line, mark)
            if marked is None:
                continue
            notes = [on for on in range(at + 1, min(at + _NEAR, len(lines))) if _notes(lines[on], mark)]
            if len(notes) == 1:
                note = lines[notes[0]]
                done[notes[0]] = replace(note, tokens=_told(note.tokens, marked, mark), source="")
    return tuple(done)


def _marked(line: Line, mark: str) -> Token | None:
    """Return the part that a line of the play marks; None: it marks none, or several."""
    if sum(map(_is_part, line.tokens)) < _FEWEST:
        return None
    found = [
        one
        for one, after in zip(line.tokens, line.tokens[1:], strict=False)
        if _is_part(one) and after.text == mark and after.glued
    ]
    return found[0] if len({one.low for one in found}) == 1 else None


def _is_part(token: Token) -> bool:
    return token.text in _PARTS or token.low in SONG_PARTS


def _notes(line: Line, mark: str) -> bool:
    """Whether a line is a note to a mark, and no item of a list nor steps."""
    opens = line.source.lstrip().startswith(mark) and not line.source.lstrip().startswith(2 * mark)
    return opens and not _named(line) and not any(one.first <= 1 for one in marks_in(line.tokens, 0))


def _named(line: Line) -> bool:
    """Whether a line names the marked part itself: "*A: only 16 counts"."""
    return any(map(_is_part, line.tokens[:2]))


def _told(tokens: tuple[Token, ...], part: Token, mark: str) -> tuple[Token, ...]:
    rest = tokens[1:] if tokens[0].text == mark else tokens
    while rest and rest[0].text in ("=", ":", "-"):
        rest = rest[1:]
    first = tokens[0]
    name = replace(word_like(first, part.text), text=part.text)
    return (name, replace(mark_like(first, mark), glued=True), mark_like(first, "="), *rest)
