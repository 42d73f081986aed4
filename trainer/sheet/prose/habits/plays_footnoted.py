"""A part of the play with a mark behind it, "A B A* B", that a line below takes up: "* only the first 16 counts".

A mark that opens a line is taken for a bullet; the line is told as what the marked part is: "A* = only the first ...".
Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_MARKS = ("*", "+", "^", "#", "~")
_PARTS = (*"ABCDEFGH",)
_HOLD = re.compile(
    r"\W*(?:(?:and|then|afterwards|after|behind|this|that|these|it|one|part|[a-h]|verse|chorus|you|we|:|=|-|,) )*"
    rf"(?:hold|wait|pause|freeze|stand still)(?: for)? (\d+|{'|'.join(NUMBERS)})"
    r"(?: (?:counts?|beats?|cts))?(?: more)? ?[.!]?"
)
_STOPS = {"stop", "stops", "stopping", "cut", "ends", "leave", "break"}
_FEWEST = 3
"""Parts in a line that tells a play."""
_NEAR = 6
"""Lines below the play among which its note stands."""


def with_plays_footnoted(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a note told as what the marked part is."""
    lines = [one for line in lines for one in _with_note_apart(line)]
    done = list(lines)
    emptied: set[int] = set()
    for at, line in enumerate(lines):
        for mark in _MARKS:
            marked = _marked(line, mark)
            if marked is None:
                continue
            notes = [on for on in range(at + 1, min(at + _NEAR, len(lines))) if _notes(lines[on], mark)]
            if len(notes) != 1:
                continue
            note = lines[notes[0]]
            if held := _held(note):
                # What is told behind the marked part stands there in the play.
                done[at] = replace(done[at], tokens=tuple(_with_hold(done[at].tokens, mark, held)), source="")
                emptied.add(notes[0])
            else:
                done[notes[0]] = replace(note, tokens=_told(note.tokens, marked, mark), source="")
    return tuple(line for at, line in enumerate(done) if at not in emptied)


def _held(note: Line) -> int:
    """Return for how many counts a note has one hold: "* then hold 4 counts"; 0: it says something else."""
    found = _HOLD.fullmatch(note.words)
    return (NUMBERS.get(found[1]) or int(found[1])) if found else 0


def _with_hold(tokens: Sequence[Token], mark: str, counts: int) -> Iterator[Token]:
    """Yield the tokens of a play with a hold behind each marked part, in the place of its mark."""
    for before, token in zip((None, *tokens), tokens, strict=False):
        if before is not None and _is_part(before) and token.text == mark and token.glued:
            yield from (mark_like(token, ","), word_like(token, "hold"), number_like(token, counts))
            yield from (word_like(token, "counts"), mark_like(token, ","))
        else:
            yield token


def _with_note_apart(line: Line) -> list[Line]:
    """Return a line of the play, and what it notes in brackets at its end as a line: "A, B, A*, B (*stop after 16)"."""
    tokens = line.tokens
    opens = next((at for at, one in enumerate(tokens[:-1]) if one.text == "(" and tokens[at + 1].text in _MARKS), 0)
    mark = tokens[opens + 1].text if opens else ""
    if not opens or tokens[-1].text != ")" or _marked(replace(line, tokens=tokens[:opens]), mark) is None:
        return [line]
    inside = tokens[opens + 1 : -1]
    note = replace(line, tokens=inside, source=" ".join(token.text for token in inside))
    return [replace(line, tokens=tokens[:opens], source=""), note]


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
    rest = tuple(_without_brackets(tokens[1:] if tokens[0].text == mark else tokens))
    while rest and rest[0].text in ("=", ":", "-"):
        rest = rest[1:]
    if len(rest) > 2 and rest[0].low in _STOPS and rest[1].low in ("after", "at") and rest[2].kind == "number":
        # "* stop after 16 counts" is how much is danced, and no pause.
        rest = rest[2:]
    first = tokens[0]
    name = replace(word_like(first, part.text), text=part.text)
    return (name, replace(mark_like(first, mark), glued=True), mark_like(first, "="), *rest)


def _without_brackets(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield the tokens without what only says in a bracket which steps are left out: "(no jazz box, no stomps)"."""
    at = 0
    while at < len(tokens):
        end = next((on for on in range(at, len(tokens)) if tokens[on].text == ")"), -1)
        if tokens[at].text == "(" and end > at and tokens[at + 1].low in ("no", "without"):
            at = end + 1
            continue
        yield tokens[at]
        at += 1
