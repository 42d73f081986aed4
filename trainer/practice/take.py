"""What to dance now: a range of the timeline, how often, and what lies in the seams.

Beats of a take count from 0, the first count danced; the count-in lies before it, in negative beats. Round k of the
take (from 0) begins at beat k x cycle exactly, less what a late entry leaves out of round 0, so that a position can be
found from a beat and a beat from a position.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from trainer.dance.counts import is_number
from trainer.dance.timeline import Danced, Timeline
from trainer.practice.pieces import Piece, group_at, piece_at
from trainer.terms import Time, Weight


class Place(NamedTuple):
    """Where in a take: its round, and the beat of the timeline; in a seam or the count-in, `before` is set."""

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

    @property
    def fits(self) -> bool:
        """Whether there is nothing to mend."""
        return self.facing is None and self.weight is None


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
    entry: Fraction | None = None
    """The timeline's beat at which the first round begins, after a stop inside the range; None: `first`."""

    def __post_init__(self) -> None:
        """Refuse a range that cannot be danced."""
        if not self.first < self.last or not self.first <= self.enters < self.last:
            raise ValueError("a take begins before its end, and is entered inside it")
        if self.seam < 0 or self.count_in < 0 or (self.rounds is not None and self.rounds < 1):
            raise ValueError("a take has at least one round, and no negative counts")

    @property
    def enters(self) -> Fraction:
        """The timeline's beat of the first count of the first round."""
        return self.first if self.entry is None else self.entry

    @property
    def length(self) -> Fraction:
        """Counts danced in one whole round of the take."""
        return self.last - self.first

    @property
    def cycle(self) -> Fraction:
        """Counts from one round of the take to the next, the seam included."""
        return self.length + self.seam

    @property
    def ends(self) -> Fraction | None:
        """The beat of the take after its last count, or None when it goes on until stopped."""
        if self.rounds is None:
            return None
        return self.rounds * self.cycle - self.seam - (self.enters - self.first)

    def round_beat(self, number: int) -> Fraction:
        """Return the beat of the take at which round `number` begins (for round 0: would begin, were it whole)."""
        return number * self.cycle - (self.enters - self.first)

    def place(self, beat: Fraction) -> Place:
        """Return the place of a beat of the take."""
        if beat < 0:
            return Place(0, self.enters, -beat)
        number, rest = divmod(beat + self.enters - self.first, self.cycle)
        if self.rounds is not None and (number >= self.rounds or (number == self.rounds - 1 and rest >= self.length)):
            return Place(self.rounds - 1, self.last, Fraction(0))
        if rest >= self.length:
            return Place(int(number) + 1, self.first, self.cycle - rest)
        return Place(int(number), self.first + rest, Fraction(0))

    def beat_of(self, place: Place) -> Fraction:
        """Return the beat of the take of a place: the inverse of `place`."""
        return self.round_beat(place.round) + place.beat - self.first - place.before


def counted_in(time: Time) -> int:
    """Return the counts of a count-in or a run-up: 4, in a waltz 3."""
    return 3 if time == "3/4" else 4


def whole(timeline: Timeline) -> Take:
    """Return the take of the whole dance, once, from its first danced count to its last; the wait is left out."""
    return Take(timeline, first_danced(timeline), timeline.ends, count_in=counted_in(timeline.routine.time))


def onward(timeline: Timeline, beat: Fraction) -> Take:
    """Return the take from a whole count to the end of the dance."""
    first = max(first_danced(timeline), min(Fraction(beat // 1), timeline.ends - 1))
    return replace(whole(timeline), first=first)


def looped(
    timeline: Timeline, first: Fraction, last: Fraction, rounds: int | None = None, *, run_up: bool = False
) -> Take:
    """Return a range again and again; a run-up lies in each seam if its end does not fit its start, or if asked."""
    counts = counted_in(timeline.routine.time)
    take = Take(timeline, first, last, rounds, count_in=counts)
    return replace(take, seam=counts) if run_up or not fits(take).fits else take


def resumed(take: Take, place: Place) -> Take:
    """Return the take to go on with after a stop: what is left of it, its first round entered at `resume_beat`."""
    entry = min(max(resume_beat(take.timeline, place.beat), take.first), take.last - 1)
    left = None if take.rounds is None else take.rounds - place.round
    return replace(take, rounds=left, entry=None if entry == take.first else entry)


def first_danced(timeline: Timeline) -> Fraction:
    """Return the beat of the first count danced, that of a danced intro included."""
    return next((stretch.begins for one in timeline.passes for stretch in one.stretches), Fraction(timeline.wait))


def resume_beat(timeline: Timeline, beat: Fraction) -> Fraction:
    """Return where to go on after a stop at a beat: the first count of its section, or that section's latest eight.

    In a waltz its latest six. A tag or bridge is gone on with at its own first count; counts that are changed or held
    belong to the section that they lie in. A beat outside the dance counts as the nearest danced one.
    """
    begins = piece_at(timeline, beat).anchor
    phrase = timeline.routine.phrase
    held = min(max(beat, begins), timeline.ends - 1)
    return begins + (held - begins) // phrase * phrase


def section_range(timeline: Timeline, beat: Fraction) -> tuple[Fraction, Fraction]:
    """Return the first beat of the section danced at a beat, and the beat after its last.

    A section is taken as it is danced there: with a change, hold or bridge inside it, cut short by a restart. Inside a
    tag or bridge it is that one's own range.
    """
    return group_at(timeline, beat)


def fits(take: Take) -> Mend:
    """Return what a dancer must put right to begin the range again right after its end; nothing where it fits."""
    return joins(take, take)


def joins(before: Take, after: Take) -> Mend:
    """Return what a dancer must put right to dance one range right after the end of another; nothing where it fits.

    The facing and the weighted foot before the first event of the one are held against those after the other's last.
    """
    events, following = events_of(before), events_of(after)
    if not events or not following:
        return Mend(None, None)
    opening, closing = following[0], events[-1]
    begins = (opening.facing - opening.turn) % 1
    needed = _needed_weight(after, opening)
    weight = next((one.weight for one in reversed(events) if one.weight), needed)
    return Mend(
        facing=None if closing.facing == begins else begins,
        weight=None if weight in (needed, "B") or needed == "B" else needed,
    )


def _needed_weight(take: Take, opening: Danced) -> Weight:
    """Return the foot that carries the dancer before a range; where it is both, the one its first step leaves."""
    before = [one.weight for one in take.timeline.window(take.first - 16, opening.beat) if one.weight]
    weight = before[-1] if before else take.timeline.routine.starts
    if weight != "B":
        return weight
    other: dict[str, Weight] = {"R": "L", "L": "R"}
    return other.get(str(opening.foot), "B")


def events_of(take: Take) -> list[Danced]:
    """Return the events of one round of a take; a pick-up just before its first count belongs to it."""
    events = take.timeline.window(take.first - 1, take.last)
    leading = [one for one in events if one.beat < take.first and opens_at(one, take.first)]
    return [*leading, *(one for one in events if one.beat >= take.first and not opens_at(one, take.last))]


def opens_at(one: Danced, beat: Fraction) -> bool:
    """Whether an event is a pick-up that is written with the block or section that begins at a beat."""
    return beat - 1 < one.beat < beat and one.row.section_number < 1


def number_called(timeline: Timeline, beat: Fraction) -> int:
    """Return the whole count that is called at a whole beat: 1 to 8, in a waltz 1 to 6."""
    for one in timeline.window(beat, beat + Fraction(1, 12)):
        if is_number(one.label):
            return int(one.label)
    piece: Piece = piece_at(timeline, beat)
    return int(beat - piece.first + piece.offset) % timeline.routine.phrase + 1


def counts_before(take: Take, counts: int, *, entering: bool = False) -> tuple[int, ...]:
    """Return the numbers called in the last `counts` beats before the range: 5-6-7-8 into 1, 1-2-3-4 into 5.

    With `entering`, before the count that the first round begins with.
    """
    phrase = take.timeline.routine.phrase
    number = number_called(take.timeline, take.enters if entering else take.first)
    return tuple((number - 1 - ago) % phrase + 1 for ago in range(counts, 0, -1))
