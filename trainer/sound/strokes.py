"""What clicks on which beat of a timeline: first counts of sections, other beats, danced subdivisions, sub-beats.

Beats are those of the timeline. Strokes are made pass by pass when asked for, and kept.
"""

from bisect import bisect_left
from fractions import Fraction
from typing import NamedTuple

from trainer.dance.timeline import Pass, Timeline, danced_in
from trainer.practice.pieces import Piece, feel_of, pieces_of
from trainer.sound.clicks import Kind

SUB_BEATS = (Fraction(1, 3), Fraction(2, 3))
"""Where the & and the a of a rolling count fall."""


class Stroke(NamedTuple):
    """A beat of the timeline at which something may sound."""

    beat: Fraction
    kind: Kind
    """A "sub" sounds at a slow tempo only."""
    leads: bool
    """It is a pick-up, written with the section that begins after it."""


class Strokes:
    """The strokes of a timeline; they never change, only more of them become known."""

    def __init__(self, timeline: Timeline) -> None:
        self.timeline = timeline
        self._of_pass: dict[int, list[Stroke]] = {}

    def between(self, first: Fraction, last: Fraction) -> list[Stroke]:
        """Return the strokes with first <= beat < last, in order."""
        if first >= last:
            return []
        # A pick-up of the pass after the range may fall inside it.
        low, high = self.timeline.pass_at(first), min(self.timeline.pass_at(last) + 1, len(self.timeline.passes) - 1)
        found: list[Stroke] = []
        for index in range(low, high + 1):
            strokes = self._pass(index)
            found += strokes[bisect_left(strokes, (first,)) : bisect_left(strokes, (last,))]
        return sorted(found) if high > low else found

    def _pass(self, index: int) -> list[Stroke]:
        if index not in self._of_pass:
            self._of_pass[index] = strokes_of(self.timeline, self.timeline.passes[index])
        return self._of_pass[index]


def strokes_of(timeline: Timeline, one: Pass) -> list[Stroke]:
    """Return the strokes of one pass, in order, every beat once."""
    kinds: dict[Fraction, tuple[Kind, bool]] = {}
    for piece in pieces_of(one):
        kinds.update(_of_piece(piece, rolling=feel_of(timeline, one, piece) == "rolling"))
    for event in danced_in(one):
        if event.beat.denominator != 1:
            kinds[event.beat] = "step", event.row.section_number < 1
    return [Stroke(beat, *kinds[beat]) for beat in sorted(kinds)]


def _of_piece(piece: Piece, *, rolling: bool) -> dict[Fraction, tuple[Kind, bool]]:
    """Return the strokes that a piece has whatever is danced in it."""
    found: dict[Fraction, tuple[Kind, bool]] = {}
    for number in range(int(piece.last - piece.first)):
        beat = piece.first + number
        opens = number == 0 and piece.offset == 0 and piece.anchor == beat
        found[beat] = "section" if opens else "beat", False
        if rolling:
            found.update({beat + part: ("sub", False) for part in SUB_BEATS})
    return found
