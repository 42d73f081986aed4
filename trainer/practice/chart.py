"""Finding one's way in a timeline: the event at a beat, its step, the count called, and the next departure.

An index is the place of an event in the whole routine as danced, from 0; -1 is before the first. Events are made pass
by pass when asked for and kept, so that a long routine costs no more than what was looked at; questions are bisects.
A step is what a dancer learns as one thing: the events of one figure danced without a break, holds in a row, or a
single event. Beats are those of the timeline.
"""

from bisect import bisect_left, bisect_right
from fractions import Fraction
from itertools import accumulate

from trainer.dance.timeline import Danced, Pass, Stretch, Timeline, danced_in
from trainer.practice.marks import Mark, marks_of
from trainer.practice.take import number_called, opens_at
from trainer.terms import Move, Weight


class Chart:
    """A timeline with its index; made once for each timeline and shared by all that ask about it."""

    def __init__(self, timeline: Timeline) -> None:
        self.timeline = timeline
        self.marks = marks_of(timeline)
        self._mark_beats = [mark.beat for mark in self.marks]
        sizes = (sum(stretch.last - stretch.first for stretch in one.stretches) for one in timeline.passes)
        self._ends = list(accumulate(sizes))
        self._made: dict[int, tuple[Danced, ...]] = {}
        self._called: dict[int, int] = {}

    @property
    def size(self) -> int:
        """How many events are danced in all."""
        return self._ends[-1] if self._ends else 0

    def event(self, index: int) -> Danced:
        """Return the event at an index; IndexError outside the routine."""
        if not 0 <= index < self.size:
            raise IndexError(f"event {index} of {self.size}")
        number = bisect_right(self._ends, index)
        return self._events(number)[index - self._before(number)]

    def index_at(self, beat: Fraction) -> int:
        """Return the index of the last event at or before a beat, -1 where there is none."""
        number = self.timeline.pass_at(beat)
        # The next pass may open with an & before its count 1; a beat before all events of a pass is in the pass before.
        for place in (number + 1, number, number - 1):
            if 0 <= place < len(self._ends):
                found = bisect_right(self._events(place), beat, key=lambda one: one.beat)
                if found:
                    return self._before(place) + found - 1
        return -1

    def index_before(self, beat: Fraction) -> int:
        """Return the index of the last event before whatever begins at a whole beat; its pick-up does not count."""
        index = self.index_at(beat)
        while index >= 0 and (self.event(index).beat >= beat or opens_at(self.event(index), beat)):
            index -= 1
        return index

    def facing_after(self, index: int) -> Fraction:
        """Return the facing after an event; before the first, that from which it is danced."""
        if index >= 0:
            return self.event(index).facing
        one = self.event(0)
        return (one.facing - one.turn) % 1

    def weight_after(self, index: int) -> Weight | None:
        """Return the foot that carries the weight after an event; None when that could not be read."""
        return self.event(index).weight if index >= 0 else self.timeline.routine.starts

    def step(self, index: int, low: int = 0, high: int | None = None) -> tuple[int, int]:
        """Return the first and the last index of the step that an event is a part of, within low <= index < high."""
        high = self.size if high is None else high
        key = _step_key(self.event(index))
        first = last = index
        while key and first > low and _step_key(self.event(first - 1)) == key:
            first -= 1
        while key and last + 1 < high and _step_key(self.event(last + 1)) == key:
            last += 1
        return first, last

    def section(self, index: int) -> tuple[int, int]:
        """Return the first and the last index of the run of events in the same section or extra of the same wall."""
        number = bisect_right(self._ends, index)
        events, before = self._events(number), self._before(number)
        first = last = index - before
        key = _section_key(events[first])
        while first and _section_key(events[first - 1]) == key:
            first -= 1
        while last + 1 < len(events) and _section_key(events[last + 1]) == key:
            last += 1
        return before + first, before + last

    def stretch_at(self, beat: Fraction) -> tuple[Pass, Stretch] | None:
        """Return the pass and the stretch that a beat is danced in; None before the first and after the last count."""
        if not self.timeline.passes:
            return None
        one = self.timeline.passes[self.timeline.pass_at(beat)]
        return next(((one, stretch) for stretch in one.stretches if stretch.begins <= beat < stretch.ends), None)

    def called(self, beat: Fraction) -> int:
        """Return the whole count called at or last before a beat: 1 to 8, in a waltz 1 to 6."""
        whole = int(beat // 1)
        if whole not in self._called:
            self._called[whole] = number_called(self.timeline, Fraction(whole))
        return self._called[whole]

    def next_mark(self, beat: Fraction) -> Mark | None:
        """Return the first departure after a beat."""
        found = bisect_right(self._mark_beats, beat)
        return self.marks[found] if found < len(self.marks) else None

    def marks_from(self, first: Fraction, last: Fraction) -> tuple[Mark, ...]:
        """Return the departures with first <= beat < last."""
        return self.marks[bisect_left(self._mark_beats, first) : bisect_left(self._mark_beats, last)]

    def _before(self, number: int) -> int:
        return self._ends[number - 1] if number else 0

    def _events(self, number: int) -> tuple[Danced, ...]:
        if number not in self._made:
            self._made[number] = tuple(danced_in(self.timeline.passes[number]))
        return self._made[number]


def _step_key(one: Danced) -> object:
    """What events of one step have in common; None for a step of a single event."""
    figure = one.event.figure
    # An extra danced twice in one wall has the same figures both times; one of the part goes on after an extra.
    where = one.stretch if one.extra_kind else -1
    if figure is not None:
        return one.wall, where, figure.id
    if one.event.move is Move.HOLD:
        return one.wall, one.stretch, one.section, "hold"
    return None


def _section_key(one: Danced) -> object:
    return one.extra_kind, one.section, one.stretch if one.extra_kind else -1
