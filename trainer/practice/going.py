"""Going to another place while dancing: without a stop at the next eight where that is clean, and how it is announced.

It is clean where the dancer faces as the other place begins, with the weight on the foot that it needs, and no pick-up
of it falls on what is still to be danced. Beats are those of the timeline.
"""

from dataclasses import replace
from fractions import Fraction
from math import ceil

from trainer.practice.floor import DepartureView, Floor, FloorView
from trainer.practice.saying import place_words
from trainer.practice.take import Place, Take, events_of, joins, opens_at, resume_beat

NOTICE = 2
"""Counts that a dancer is told before at least: enough for a move that is known (course of an instructors' school, see
the note on cue lead: 4 beats for new moves, 2 for known ones)."""


def left_at(take: Take, place: Place) -> Fraction | None:
    """Return the beat of the next eight (waltz: six) at which a take can be left; None where its end comes sooner."""
    phrase = take.timeline.routine.phrase
    first = ceil(max(place.beat, take.first)) + max(NOTICE - int(place.before), 1)
    for beat in range(first, min(first + 2 * phrase, int(take.last)) + 1):
        if beat == take.last or resume_beat(take.timeline, Fraction(beat)) == beat:
            return Fraction(beat)
    return None


def without_stop(take: Take, place: Place, after: Take) -> Take | None:
    """Return what is danced of a take before another follows it at the next eight; None where that is not clean."""
    leaves = left_at(take, place)
    if leaves is None or leaves <= max(take.first, place.beat):
        return None
    rest = replace(take, last=leaves, rounds=1, seam=0, entry=None)
    onward = replace(after, first=after.enters, entry=None)
    return rest if joins(rest, onward).fits and not _collide(rest, onward) else None


def _collide(rest: Take, onward: Take) -> bool:
    events, following = events_of(rest), events_of(onward)
    if not events or not following or not opens_at(following[0], onward.first):
        return False
    return events[-1].beat - rest.last >= following[0].beat - onward.first


class Ahead:
    """A place that will be gone to at a beat without a stop, and what the floor says of it until then."""

    def __init__(self, leaves: Fraction, floor: Floor) -> None:
        self.leaves = leaves
        self.floor = floor
        """Of what is danced from there."""
        take = floor.take
        self._opening = floor.view(Place(0, take.enters, Fraction(1)))
        self._where = place_words(floor.chart, floor.chart.index_before(take.enters), take.enters)

    def told(self, view: FloorView, place: Place) -> FloorView:
        """Return the view of what is danced until then, with what comes after it in place of its end."""
        left = int(self.leaves - (place.beat - place.before) // 1) - 1
        opening = self._opening
        if view.next is None:
            view = replace(view, next=opening.next, dial=opening.dial, foot=opening.foot)
        if left < 0 or (view.departure is not None and view.departure.left < left):
            return view
        when = {0: "on the next count", 1: "in 1 count"}.get(left, f"in {left} counts")
        line = f"JUMP {when}: to {self._where}"
        facing = opening.dial.facing
        return replace(view, departure=DepartureView("JUMP", "", left, facing, near=True, urgent=False, line=line))
