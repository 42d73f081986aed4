"""A line that only tells where one looks on some counts above it: "Looking at 6 after {6} and at 3 after {8}.".

Each facing is put where its count stands, "{5 6} (6:00)", so that it is checked there. A line that says more, or a
count that closes no mark above, leaves it as it is.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.facing.walls_named import HOURS, OCLOCK, WALLS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Token

_LOOKS = {
    "look", "looking", "looks", "face", "facing", "faces", "see", "seeing", "you", "we", "are", "you're", "will", "be",
    "at", "to", "towards", "the", "wall", "now", "then", "and", "still", "again", "turned", "should", "end", "having",
} | OCLOCK  # fmt: skip
"""Words beside the hours and counts."""
_ON = {"after", "on", "by", "count", "counts", "beat", "beats", "ct", "from"}
"""Before these a number is a count."""
_SIGNS = {"(", ")", "[", "]", "{", "}", "<", ">", ",", ";", ".", ":", "-", "&"}
_OPENERS = {"(", "[", "{", "<"}
_ROOM = {name: WALLS[name] for name in ("front", "back", "rear", "home")}
_CLOSERS = {")", "]", "}", ">"}
_NEAR = 8
"""Lines above among which the counts stand."""
_STRONG = 1.0

Told = tuple[Token, Fraction, int]
"""The token of a facing, the facing, and the count after which it is reached."""


def with_facings_at_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, facings told for some counts in a line of their own behind those counts."""
    done: list[Line] = []
    for line in lines:
        told = _told(line.tokens)
        placed = _placed(done[-_NEAR:], told) if told else []
        if placed:
            done[-len(placed) :] = placed
        else:
            done.append(line)
    return tuple(done)


def _told(tokens: Sequence[Token]) -> list[Told]:
    """Return the facings that a line tells, each with its count; none where it says anything else."""
    hours: list[tuple[Token, Fraction]] = []
    counts: list[int] = []
    looks = False
    for at, token in enumerate(tokens):
        if token.kind == "number" and _is_count(tokens, at):
            counts.append(int(token.text[:2]))
        elif token.kind in ("clock", "facing") and token.value is not None:
            hours.append((token, token.value))
            looks = True
        elif token.low in _ROOM or (token.kind == "number" and token.text in HOURS):
            hours.append((token, HOURS.get(token.text, _ROOM.get(token.low, Fraction(0)))))
        elif token.low not in _LOOKS | _ON and token.text not in _SIGNS:
            return []
        looks = looks or token.low in _LOOKS
    fits = looks and counts and len(hours) == len(counts) and counts == sorted(set(counts))
    return [(*hour, count) for hour, count in zip(hours, counts, strict=True)] if fits else []


def _is_count(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is a count: a word of place stands before it, or it is alone in brackets."""
    before = tokens[at - 1].text if at else ""
    closed = before in _OPENERS and at + 1 < len(tokens) and tokens[at + 1].text in _CLOSERS
    return closed or before.lower() in _ON


def _placed(lines: Sequence[Line], told: Sequence[Told]) -> list[Line]:
    """Return the lines above with the facings behind their counts; none where a count closes no mark there."""
    done = list(lines)
    last = len(done)
    for hour, facing, count in reversed(told):
        for row in reversed(range(last)):
            mark = next((mark for mark in reversed(_marks(done[row])) if mark.end.number == count), None)
            if mark is not None:
                done[row] = replace(done[row], tokens=_with(done[row].tokens, mark, hour, facing))
                last = row + 1
                break
        else:
            return []
    return done


def _marks(line: Line) -> list[Mark]:
    return [mark for mark in marks_in(line.tokens, 0) if mark.strength >= _STRONG or mark.first == 0]


def _with(tokens: tuple[Token, ...], mark: Mark, hour: Token, facing: Fraction) -> tuple[Token, ...]:
    """Return a line with a facing in brackets behind a mark, or behind its words where they follow it."""
    at = len(tokens) if mark.first == 0 else mark.last
    if at < len(tokens) and tokens[at - 1].text in _OPENERS:
        at += 1
    text = f"{facing.numerator * 12 // facing.denominator or 12}:00"
    clock = replace(hour, kind="clock", text=text, low=text, glued=True, value=facing)
    return (*tokens[:at], mark_like(hour, "("), clock, replace(mark_like(hour, ")"), glued=True), *tokens[at:])
