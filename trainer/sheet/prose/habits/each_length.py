"""Sheets without counts that tell once how long each piece is: "4 cts to each bit", "each box 3 cts".

The pieces of a paragraph are counted where they make up the stated length of the dance: lines, or what strokes part.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_UNITS = (
    r"(?:little |small |short |separate )?"
    r"(?P<unit>bit|box|cell|line|row|piece|figure|move|part|step|go|one|thing|group|bunch|chunk|clump|bundle|cluster|dash|bar)"
    r"(?:s|es)?"
)
_COUNTS = r"(?:c|ct|cts|count|counts|beat|beats)"
_CALLED = r"(?:one|1) (?:[-,] )?(?:two|2) (?:[-,] )?(?:three|3)(?: (?:[-,] )?(?:four|4))?"
_EACH = re.compile(
    rf"\b(?P<number>\d) {_COUNTS} (?:to|for|in|per|on|a)? ?(?:each|every|all|the)? ?{_UNITS}\b|"
    rf"\b(?:each|every|all|a) {_UNITS.replace('unit', 'thing')}(?: of (?:steps|moves))? "
    rf"(?:is|has|takes|gets|goes|lasts|are|=|:|for)? ?(?:an? |counted |called |danced )?"
    rf"(?:(?P<length>\d) {_COUNTS}\b|(?P<called>{_CALLED})\b)|"
    rf"\b(?P<before>{_CALLED}) (?:to|for|in|on) (?:each|every) {_UNITS.replace('unit', 'other')}\b"
)
_LINES = {"line", "row"}
_PARTS = {"/", BREAK, ";", "•"}
_HEAD = 5
"""Lines that may state the length of the dance."""
_LEAST = 4
"""Pieces of a dance."""


def with_each_length(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the pieces of a dance that has no counts each in a line with its own."""
    told = [(at, match) for at, line in enumerate(lines) if (match := _EACH.search(line.words))]
    if len(told) != 1:
        return tuple(lines)
    at, match = told[0]
    called = match["called"] or match["before"]
    length = int(match["number"] or match["length"] or (4 if called.split()[-1] in ("four", "4") else 3))
    whole = (match["unit"] or match["thing"] or match["other"]) in _LINES
    totals = {int(one.text) for line in lines[:_HEAD] for one in line.tokens if one.kind == "number"}
    for first, last in _paragraphs(lines):
        if first <= at < last:
            continue
        pieces = [_pieces(line, whole=whole) for line in lines[first:last]]
        number = sum(map(len, pieces))
        if number < _LEAST or number * length not in totals or not all(pieces):
            continue
        if 2 * sum(any(mark.strength > 1 for mark in marks_in(one, 0)) for line in pieces for one in line) > number:
            continue
        dance = _counted(lines[first:last], pieces, length)
        rest = replace(lines[at], tokens=_without_rule(lines[at].tokens))
        lines = [*lines[:at], *([rest] if rest.tokens else []), *lines[at + 1 :]]
        shift = (not rest.tokens) * (at < first)
        return (*lines[: first - shift], *dance, *lines[last - shift :])
    return tuple(lines)


def _without_rule(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the words of the line that tells the length, without its clause."""
    inner = tokens[1:-1] if tokens[0].text == "(" and tokens[-1].text == ")" else tokens
    cuts = [-1, *(at for at, one in enumerate(inner) if one.text in (",", ".", ";")), len(inner)]
    clauses = [inner[a + 1 : b + 1] for a, b in pairwise(cuts)]
    kept = [clause for clause in clauses if not _EACH.search(" ".join(one.low for one in clause))]
    return tuple(token for clause in kept for token in clause)


def _paragraphs(lines: Sequence[Line]) -> list[tuple[int, int]]:
    """Return where paragraphs, and rows of them, begin and end."""
    cuts = [0, *(at for at, (a, b) in enumerate(pairwise(lines), 1) if b.number > a.tokens[-1].line + 1), len(lines)]
    return [(first, last) for place, first in enumerate(cuts) for last in cuts[place + 1 :]]


def _pieces(line: Line, *, whole: bool) -> list[tuple[Token, ...]]:
    """Return the pieces of a line that tell steps; none where something else is told in it."""
    if whole:
        cells = [line.tokens]
    else:
        cuts = [-1, *(at for at, one in enumerate(line.tokens) if one.text in _PARTS), len(line.tokens)]
        cells = [line.tokens[a + 1 : b] for a, b in pairwise(cuts)]
    said = [cell for cell in cells if any(one.kind == "word" for one in cell)]
    steps = all(any(one.low in STEP_WORDS for one in cell) for cell in said)
    return said if steps else []


def _counted(lines: Sequence[Line], pieces: Sequence[Sequence[tuple[Token, ...]]], length: int) -> list[Line]:
    phrase = 6 if length in (3, 6) else 8
    done = []
    place = 0
    for line, cells in zip(lines, pieces, strict=True):
        for cell in cells:
            first = place % phrase + 1
            start = replace(cell[0], kind="number", glued=False, value=None)
            counts = [replace(start, text=str(n), low=str(n)) for n in range(first, first + length)]
            gap = replace(start, kind="mark", text=BREAK, low=BREAK)
            done.append(replace(line, tokens=(*counts, gap, *cell)))
            place += length
    return done
