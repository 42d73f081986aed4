"""Where a place of a dance lies once its sheet was changed and read anew.

The same count of the same wall; where that is danced no longer, as far into that wall; else in its last wall.
"""

from fractions import Fraction

from trainer.practice.chart import Chart
from trainer.practice.roadmap import beat_of, count_of, road_map, row_at


def same_place(old: Chart, beat: Fraction, new: Chart) -> Fraction:
    """Return the beat of the new dance that a whole beat of the old one has become."""
    was = row_at(road_map(old), beat)
    rows = road_map(new)
    row = next((row for row in rows if (row.number, row.part) == (was.number, was.part)), rows[-1])
    count = count_of(old, beat)
    same = None if count is None else beat_of(new, row, count)
    return same if same is not None else row.first + max(Fraction(0), min(beat - was.first, Fraction(row.counts - 1)))


def same_index(old: Chart, index: int, new: Chart) -> int:
    """Return which event of the new dance one of the old has become; -1, before the first, stays."""
    if index < 0:
        return -1
    beat = old.event(index).beat
    whole = Fraction(beat // 1)
    return new.index_at(same_place(old, whole, new) + beat - whole)


def same_range(old: Chart, first: Fraction, last: Fraction, new: Chart) -> tuple[Fraction, Fraction] | None:
    """Return what a run of counts has become; None where nothing is left of it."""
    begins, ends = same_place(old, first, new), same_place(old, last - 1, new) + 1
    return (begins, ends) if begins < ends else None
