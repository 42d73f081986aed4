"""What to dance now: a range of the timeline, how often, and what lies in the seams.

Beats of a take count from 0, the first count danced; the count-in lies before it, in negative beats. Pass k of the take
(from 0) begins at beat k x cycle exactly, so that a position can be found from a beat and a beat from a position.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from trainer.dance.timeline import Danced, Timeline
from trainer.terms import Weight


class Place(NamedTuple):
    """Where in a take: the pass of the take, and the beat of the timeline; in a seam or the count-in, `before` is set."""

    round: int
    """The pass of the take, from 0; the seam before a pass belongs to that pass, as the count-in to pass 0."""
    beat: Fraction
    """The beat of the timeline; while counting in, that of the first count to come."""
    before: Fraction
    """Beats still to go to the first count of the pass, 0 while dancing."""


class Mend(NamedTuple):
    """What the dancer must put right between two passes of a loop: back to this facing, weight on that foot."""

    facing: Fraction | None
    """The facing to go back to; None when it fits."""
    weight: Weight | None
    """The foot that must carry the weight; None when it fits."""


@dataclass(frozen=True, slots=True)
class Take:
    """A range of a timeline to dance, once, several times or until stopped."""

    timeline: Timeline
    first: Fraction
    """The timeline's beat of the first count danced, a whole number."""
    last: Fraction
    """The beat after the last count danced."""
    rounds: int | None = 1
    """How often; None: until stopped."""
    seam: int = 0
    """Counts of run-up between two passes of the take."""
    count_in: int = 4
    """Counts before the first count."""

    @property
    def length(self) -> Fraction:
        """Counts danced in one pass of the take."""
        return self.last - self.first

    @property
    def cycle(self) -> Fraction:
        """Counts from one pass of the take to the next, the seam included."""
        return self.length + self.seam

    @property
    def ends(self) -> Fraction | None:
        """The beat of the take after its last count, or None when it goes on until stopped."""
        return None if self.rounds is None else self.rounds * self.cycle - self.seam

    def place(self, beat: Fraction) -> Place:
        """Return the place of a beat of the take."""
        if beat < 0:
            return Place(0, self.first, -beat)
        number, rest = divmod(beat, self.cycle)
        if self.rounds is not None and number >= self.rounds:
            return Place(self.rounds - 1, self.last, Fraction(0))
        if rest >= self.length:
            return Place(int(number) + 1, self.first, self.cycle - rest)
        return Place(int(number), self.first + rest, Fraction(0))

    def beat_of(self, place: Place) -> Fraction:
        """Return the beat of the take of a place: the inverse of `place`."""
        return place.round * self.cycle + place.beat - self.first - place.before


def events_of(take: Take) -> list[Danced]:
    """Return the events of one pass of a take; a pick-up just before its first count belongs to it."""
    events = take.timeline.window(take.first - 1, take.last)
    leading = [one for one in events if one.beat < take.first and _opens_with(one, take.first)]
    return [*leading, *(one for one in events if one.beat >= take.first and not _opens_with(one, take.last))]


def _opens_with(one: Danced, beat: Fraction) -> bool:
    """Whether an event is a pick-up that is written with the block or section that begins at a beat."""
    return one.beat < beat and one.beat > beat - 1 and one.row.section_number < 1
