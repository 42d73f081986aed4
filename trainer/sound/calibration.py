"""From taps along with sound, and with the picture, to how long the screen should wait for the sound.

Nobody taps on the beat: taps lead by some tens of ms, each person's own (Repp 2005). So the same person taps along
twice, with sound only and with the picture only, and what differs is the way of the sound. Times are monotonic seconds.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import median
from typing import Literal

from trainer.dance.counts import label_of
from trainer.dance.unroll import unroll
from trainer.practice.take import Take, looped
from trainer.routine import Event, Part, Routine, Section
from trainer.terms import Foot, Label, Move

TEMPO = Fraction(60)
"""Counts a minute to tap along with: a second between counts leaves no doubt about which one a tap belongs to, even
where a wireless output adds hundreds of ms."""

ENOUGH = 8
"""Taps that are needed, after the first WARM_UP, which find the beat."""

WARM_UP = 2

SCATTER = 0.06
"""Seconds of median deviation above which nothing is proposed: trained people scatter by 2-4 % of the interval."""

EARLIEST = 0.3
"""The part of an interval by which a tap may lead its count."""

LONGEST = 0.7
"""Seconds that a screen can be made to wait."""

SAMPLE_TEMPO = Fraction(48)
"""Counts a minute of `sample`: so slow that the sub-beats of its rolling counts sound."""


def sample() -> Take:
    """Return eight rolling counts, led into again and again, in which every kind of click sounds: to set levels by."""
    beats = [Fraction(0), Fraction(1, 3), Fraction(2, 3), *map(Fraction, range(1, 8))]
    labels: list[Label] = ["1", "&", "a", *(label_of(beat + 1) for beat in range(1, 8))]
    events = tuple(
        Event(label=label, beat=beat, foot=Foot.NONE, weight="L", move=Move.HOLD)
        for label, beat in zip(labels, beats, strict=True)
    )
    section = Section(name="1", counts=8, events=events)
    routine = Routine(title="Listen", feel="rolling", parts=(Part(sections=(section,)),))
    return looped(unroll(routine, 1), Fraction(0), Fraction(8), run_up=True)


def metronome() -> Take:
    """Return eight counts of standing still, again and again: what is tapped along with, at TEMPO."""
    events = tuple(
        Event(label=label_of(beat + 1), beat=Fraction(beat), foot=Foot.NONE, weight="L", move=Move.HOLD)
        for beat in range(8)
    )
    routine = Routine(title="Tap along", parts=(Part(sections=(Section(name="1", counts=8, events=events),)),))
    return looped(unroll(routine, 1), Fraction(0), Fraction(8))


@dataclass(frozen=True, slots=True)
class Tapped:
    """How somebody taps along."""

    offset: float
    """Seconds by which the taps follow the counts; negative: lead. The median."""
    scatter: float
    """Median distance from it, in seconds."""
    taps: int
    """How many were counted."""

    @property
    def usable(self) -> bool:
        """Whether something can be told from them."""
        return self.taps >= ENOUGH and self.scatter <= SCATTER


def tapped(taps: Sequence[float], first: float, interval: float) -> Tapped:
    """Return how taps lie against counts at first, first + interval and so on.

    Along with `metronome`, taps may be given as beats that a transport heard them at: first 0, interval 1, its delay 0
    for the sound.
    """
    late = EARLIEST * interval
    offsets = [(tap - first + late) % interval - late for tap in sorted(taps)[WARM_UP:]]
    if not offsets:
        return Tapped(0.0, 0.0, 0)
    middle = median(offsets)
    return Tapped(middle, median(abs(one - middle) for one in offsets), len(offsets))


def proposed_delay(sound: Tapped, picture: Tapped) -> float | None:
    """Return the seconds that the screen should wait for the sound, in whole ms; None where the taps do not tell.

    `sound` are taps against the times at which frames left the device by its clock, `picture` against those at which
    the counts were shown.
    """
    if not (sound.usable and picture.usable):
        return None
    return round(min(max(sound.offset - picture.offset, -LONGEST), LONGEST), 3)


Stage = Literal["sound", "picture", "done"]


class TapAlong:
    """Somebody tapping along, first with the sound, then with the picture; taps are beats of `metronome`."""

    def __init__(self) -> None:
        self.stage: Stage = "sound"
        self.delay: float | None = None
        """What is proposed, when done."""
        self._taps: list[float] = []
        self._sound: Tapped | None = None

    @property
    def left(self) -> int:
        """Taps to go at least; 0: they are uneven, and go on until the last of them tell."""
        return max(WARM_UP + ENOUGH - len(self._taps), 0)

    @property
    def scatter(self) -> float:
        """How uneven the last taps are, in seconds."""
        return self._tapped().scatter

    def tap(self, beat: float) -> None:
        """Take in a tap; those of the count-in do not count."""
        if self.stage == "done" or beat < -EARLIEST:
            return
        self._taps.append(beat)
        found = self._tapped()
        if not found.usable:
            return
        if self._sound is None:
            self._sound, self._taps, self.stage = found, [], "picture"
        else:
            self.stage, self.delay = "done", proposed_delay(self._sound, found)

    def _tapped(self) -> Tapped:
        beat = float(60 / TEMPO)
        return tapped([tap * beat for tap in self._taps[-WARM_UP - ENOUGH :]], 0.0, beat)
