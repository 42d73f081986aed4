"""What the floor shows at a place of a take: one frozen value, ready for widgets that compute nothing.

All is the state after the shown count; the foot and the turn to come are those of the next event. The next step is the
next one that begins, never the rest of the present one. In a loop what comes after the last count is its first count.
"Counts left" before a departure are those still to be danced after the shown one: at 0 it comes on the next beat.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil
from typing import Literal

from trainer.dance.naming import short_name
from trainer.practice.chart import Chart
from trainer.practice.marks import Mark, MarkKind
from trainer.practice.saying import departure_line, full_name, place_words, sub_label
from trainer.practice.take import Mend, Place, Take, counts_before, fits, whole
from trainer.terms import Foot, Move, Weight

NEAR = 16
"""Counts before a departure from which it is marked."""
URGENT = 4
"""Counts before a departure from which it takes the place of the next step."""


@dataclass(frozen=True, slots=True)
class CountView:
    """The count as called."""

    number: int
    sub: str
    """The &, a or e danced since the whole count, else empty."""
    counting_in: bool
    """The number belongs to the count-in or the run-up: nothing is danced yet."""


@dataclass(frozen=True, slots=True)
class StepView:
    """A step by its name."""

    name: str
    """In full, with the turn that it makes: "sailor 1/4 left"."""
    short: str
    """At most 13 capitals."""
    foot: Foot | None
    """The foot that begins it; None when unread."""
    hold: bool
    progress: str = ""
    """How far a hold of several counts has come: "2 of 4"."""


@dataclass(frozen=True, slots=True)
class DialView:
    """Where the body faces and the turn of the next event, signed, right positive."""

    facing: Fraction
    turn: Fraction
    ends: Fraction
    """The facing after that turn."""


@dataclass(frozen=True, slots=True)
class FootView:
    """The foot to move next."""

    side: Foot
    """R or L; B when either may go; - when the weight could not be read."""
    acts: bool
    """It moves on the next event; False: not yet (a hold)."""
    weight: Weight | None
    """The foot that carries the dancer now."""


@dataclass(frozen=True, slots=True)
class DepartureView:
    """The next departure from the plain dance."""

    kind: MarkKind | Literal["JUMP"]
    """JUMP: not in the routine; the dancer asked for another place."""
    name: str
    left: int
    """Counts to go; 0: on the next beat."""
    facing: Fraction
    near: bool
    urgent: bool
    """It is told in place of the next step's name."""
    line: str
    """All of it in words."""


@dataclass(frozen=True, slots=True)
class FloorView:
    """All that the floor shows."""

    index: int
    """The event that was danced last, in the whole routine; -1: none."""
    count: CountView
    now: StepView | None
    """None before the first event."""
    next: StepView | None
    """None after the last."""
    dial: DialView
    foot: FootView
    departure: DepartureView | None
    place: str
    """Where in the dance: "wall 4, section 3 count 4 (20)"; counting in, "to" the first count to come."""
    round: int
    """The pass of the take, from 1."""
    mend: Mend | None
    """What to put right, in the seam of a loop whose end does not fit its start; None elsewhere."""


class Floor:
    """What one take shows on the floor; each view costs a few bisects."""

    def __init__(self, chart: Chart, take: Take) -> None:
        self.chart = chart
        self.take = take
        self.events = self._range(take.first, take.last)
        """The indices of the events of one round."""
        self._entered = self._range(take.enters, take.last)
        self._key: tuple[int, int, int, bool] | None = None
        self._view: FloorView

    @cached_property
    def _mend(self) -> Mend:
        # What is shown may be the mirror of what is called.
        return fits(replace(self.take, timeline=self.chart.timeline))

    @cached_property
    def _count_in(self) -> tuple[int, ...]:
        return counts_before(self.take, max(self.take.count_in, 1), entering=True)

    @cached_property
    def _run_up(self) -> tuple[int, ...]:
        return counts_before(self.take, max(self.take.seam, 1))

    @classmethod
    def of_whole(cls, chart: Chart) -> "Floor":
        """Return the floor of the whole dance, for stepping through it by hand."""
        return cls(chart, whole(chart.timeline))

    def view(self, place: Place) -> FloorView:
        """Return what is shown at a place of the take; the same value while nothing new is danced or called."""
        beat = place.beat - place.before
        low = (self.events if place.round else self._entered).start - 1
        index = max(min(self.chart.index_at(beat), self.events.stop - 1), low)
        key = (place.round, index, beat // 1, bool(place.before))
        if key != self._key:
            self._key, self._view = key, self._made(place, beat, index, low)
        return self._view

    def _made(self, place: Place, beat: Fraction, index: int, low: int) -> FloorView:
        again = self.take.rounds is None or place.round + 1 < self.take.rounds
        view = replace(self._shown(index, beat, again, place.beat, fresh=index == low), round=place.round + 1)
        if not place.before:
            return view
        counts = self._run_up if place.round else self._count_in
        number = counts[-min(ceil(place.before), len(counts))]
        count = replace(view.count, number=number, counting_in=True)
        where = f"to {place_words(self.chart, index, place.beat)}"
        return replace(view, count=count, place=where, mend=self._mend if place.round and not self._mend.fits else None)

    def at(self, index: int) -> FloorView:
        """Return what is shown after an event, for stepping by hand; -1 is before the first."""
        beat = self.chart.event(index).beat if index >= 0 else self.take.first - 1
        return self._shown(index, beat, False, max(beat, self.take.first), fresh=index < 0)

    def _range(self, first: Fraction, last: Fraction) -> range:
        return range(self.chart.index_before(first) + 1, self.chart.index_before(last) + 1)

    def _shown(self, index: int, beat: Fraction, again: bool, since: Fraction, *, fresh: bool) -> FloorView:
        chart, events = self.chart, self.events
        coming = index + 1 if index + 1 < events.stop else events.start if again and events else None
        turn = chart.event(coming).turn if coming is not None else Fraction(0)
        facing = chart.facing_after(index)
        return FloorView(
            index=index,
            count=_count(chart, index, beat),
            now=None if fresh else _step(self, index),
            next=_step(self, index + 1) if fresh and index + 1 in events else _next(self, index, again),
            dial=DialView(facing, turn, (facing + turn) % 1),
            foot=_foot(chart, index, coming),
            departure=_departure(self, beat, again, since),
            place=place_words(chart, index, beat),
            round=1,
            mend=None,
        )


def floor_view(chart: Chart, take: Take, place: Place) -> FloorView:
    """Return what the floor shows at one place; whoever asks often keeps the Floor."""
    return Floor(chart, take).view(place)


def _count(chart: Chart, index: int, beat: Fraction) -> CountView:
    return CountView(chart.called(beat), sub_label(chart, index, beat), False)


def _next(floor: Floor, index: int, again: bool) -> StepView | None:
    """Return the step that begins after the present one."""
    chart, events = floor.chart, floor.events
    after = chart.step(index, events.start, events.stop)[1] + 1 if index in events else max(index + 1, events.start)
    if after in events:
        return _step(floor, after)
    return _step(floor, events.start) if again and events else None


def _step(floor: Floor, index: int) -> StepView:
    first, last = floor.chart.step(index, floor.events.start, floor.events.stop)
    steps = [floor.chart.event(place) for place in range(first, last + 1)]
    one = steps[0]
    hold = one.event.move is Move.HOLD
    progress = f"{index - first + 1} of {len(steps)}" if hold and len(steps) > 1 else ""
    return StepView(full_name(steps), short_name(one.event), one.foot, hold, progress)


def _foot(chart: Chart, index: int, coming: int | None) -> FootView:
    weight = chart.weight_after(index)
    acting = chart.event(coming).foot if coming is not None else None
    free = {"R": Foot.LEFT, "L": Foot.RIGHT, "B": Foot.BOTH, None: Foot.NONE}[weight]
    if acting is None or acting is Foot.NONE:
        return FootView(free, False, weight)
    return FootView(acting, True, weight)


def _departure(floor: Floor, beat: Fraction, again: bool, since: Fraction) -> DepartureView | None:
    """Return the first departure after `since`, with the counts left from `beat`, which is earlier in a count-in."""
    chart, take = floor.chart, floor.take
    count = Fraction(beat // 1)
    mark = chart.next_mark(Fraction(since // 1))
    shift = Fraction(0)
    if again and (mark is None or mark.beat >= take.last):
        # What lies behind the end of a loop is not danced; the loop's own first departure comes round again.
        mark, shift = next(iter(chart.marks_from(take.first + 1, take.last)), None), take.cycle
    elif not again and (mark is None or mark.beat > take.last):
        mark = _end(floor)
    left = int(mark.beat + shift - count) - 1 if mark else -1
    if mark is None or left < 0:
        return None
    urgent = left <= URGENT and not mark.closing
    return DepartureView(mark.kind, mark.name, left, mark.facing, left <= NEAR, urgent, departure_line(mark, left))


def _end(floor: Floor) -> Mark:
    """Return the end of a take that stops where the routine says nothing."""
    last = floor.chart.event(floor.events[-1])
    after = int(last.row.number)
    return Mark(floor.take.last, "END", "", 0, last.wall, last.part, after, last.facing)
