"""What sounds, and on which frame: immutable, lazy, and rendered the same however it is cut into blocks.

Frames count at RATE from an origin that the maker chooses through the tempo map: frame 0 of a file, or the frames of a
device. The frame of a sound is round(exact frame of its beat); round k of a loop begins at round(k x length), never by
adding up. Samples are stereo float32 of shape (frames, 2). Headroom is fixed; there is no limiter.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

import numpy as np

from trainer.practice.take import Take
from trainer.sound.clicks import LONGEST, Kind, Samples, kit
from trainer.sound.levels import Levels
from trainer.sound.strokes import Stroke, Strokes
from trainer.timing import TempoMap

SLOW_ROLLING = Fraction(50)
"""Below so many counts a minute the sub-beats of a rolling count click too: a beat is then longer than 1.2 s, and
towards 1.8 s people lose the beat (Repp 2006, slow limit of synchronisation)."""


class Sound(NamedTuple):
    """A click and the frame of its first sample."""

    frame: int
    kind: Kind


@dataclass(frozen=True)
class Score:
    """A take at its tempo, on the frames of a device or a file."""

    take: Take
    tempo: TempoMap
    """Beats of the take against frames."""
    levels: Levels = field(default_factory=Levels)
    then: Take | None = None
    """What is danced right after the take's end, without a count-in; the take then has an end."""
    counted_in: bool = True
    strokes: Strokes = field(compare=False, repr=False, kw_only=True)

    @classmethod
    def starting(
        cls,
        take: Take,
        tempo: Fraction,
        frame: int = 0,
        levels: Levels | None = None,
        changes: Sequence[tuple[Fraction, Fraction]] = (),
    ) -> "Score":
        """Return the score of a take whose count-in begins at a frame.

        `changes` are beats of the take, above 0 and rising, each with the tempo from there on.
        """
        tempi = TempoMap.steady(tempo, frame=frame, beat=Fraction(-take.count_in))
        for beat, other in changes:
            tempi = tempi.changed_at_beat(beat, other)
        return cls(take, tempi, levels or Levels(), strokes=Strokes(take.timeline))

    def retimed(self, frame: int, tempo: Fraction) -> "Score":
        """Return the score with another tempo from a frame on; what began before it is the same."""
        return replace(self, tempo=self.tempo.changed(frame, tempo))

    def at_levels(self, levels: Levels) -> "Score":
        """Return the score at other levels."""
        return replace(self, levels=levels)

    def carried_on(self, take: Take, frame: int, then: Take | None = None) -> "Score | None":
        """Return the score that from a frame on dances another take, which holds the count danced there as well.

        Nothing of what sounds before that count differs from this score. None where the take does not hold it.
        """
        beat = self.tempo.beat_at(frame)
        place = self.take.place(beat)
        if not take.first <= place.beat < take.last:
            return None
        if place.before or place.beat < take.enters:
            # The count-in, or the run-up of a loop, goes on and leads to the count that it was meant for.
            entry = None if place.beat == take.first else place.beat
            take = take if take.entry == entry else replace(take, entry=entry)
        tempo = self.tempo.renumbered(beat - take.beat_of(place._replace(round=0)))
        return replace(self, take=take, tempo=tempo, then=then)

    @cached_property
    def following(self) -> "Score | None":
        """What is danced after the end of the take, on the same frames; None where nothing is."""
        ends = self.take.ends
        if self.then is None or ends is None:
            return None
        tempo = self.tempo.renumbered(ends)
        timeline = self.then.timeline
        strokes = self.strokes if timeline is self.take.timeline else Strokes(timeline)
        return Score(self.then, tempo, self.levels, counted_in=False, strokes=strokes)

    def at(self, frame: int) -> "Score":
        """Return the part of it that a frame is danced in: itself, or what follows."""
        following = self.following
        return following if following is not None and following.tempo.beat_at(frame) >= 0 else self

    @property
    def first(self) -> int:
        """The frame of the first beat counted in."""
        return round(self.tempo.frame_at(Fraction(-self.take.count_in)))

    @property
    def last(self) -> int | None:
        """The frame after the last count, or None when it goes on until stopped."""
        if self.following is not None:
            return self.following.last
        ends = self.take.ends
        return None if ends is None else round(self.tempo.frame_at(ends))

    def sounds_between(self, first: int, last: int) -> list[Sound]:
        """Return the sounds that begin at first <= frame < last, in order."""
        # A frame is rounded from its beat, so that one just outside may round inside.
        low, high = self.tempo.beat_at(first - 1), self.tempo.beat_at(last)
        sounds = (self._sound(beat, kind) for beat, kind in self._beats(low, high))
        found = [sound for sound in sounds if sound is not None and first <= sound.frame < last]
        # What follows has its pick-up before the end of the take.
        if self.following is not None and self.following.tempo.beat_at(last) > -1:
            found = sorted([*found, *self.following.sounds_between(first, last)])
        return found

    def _sound(self, beat: Fraction, kind: Kind) -> Sound | None:
        exact = self.tempo.frame_at(beat)
        if kind == "sub" and self.tempo.tempo_at(exact) >= SLOW_ROLLING:
            return None
        return Sound(round(exact), kind)

    def _beats(self, low: Fraction, high: Fraction) -> list[tuple[Fraction, Kind]]:
        """Return what sounds at low <= beat <= high, as beats of the take, in order."""
        take = self.take
        counts = range(max(-take.count_in, _ceil(low)), min(0, _floor(high) + 1)) if self.counted_in else ()
        found: list[tuple[Fraction, Kind]] = [(Fraction(beat), "count-in") for beat in counts]
        whole = take.cycle
        number = max(int((low + take.enters - take.first) // whole), 0)
        # The run-up and the pick-up of a round fall before its first count.
        while (start := take.round_beat(number)) - max(take.seam, 1) <= high and (
            take.rounds is None or number < take.rounds
        ):
            found += self._of_round(number, start, low, high)
            number += 1
        return sorted(beat for beat in found if low <= beat[0] <= high)

    def _of_round(self, number: int, start: Fraction, low: Fraction, high: Fraction) -> list[tuple[Fraction, Kind]]:
        take = self.take
        first = take.enters if number == 0 else take.first
        ahead = start - take.first
        strokes = self.strokes.between(max(low - ahead, first - 1), min(high - ahead + Fraction(1, 1000), take.last))
        found = [(stroke.beat + ahead, stroke.kind) for stroke in strokes if _in_round(stroke, first, take.last)]
        if number:
            found += [(start - ago, "count-in") for ago in range(take.seam, 0, -1)]
        return found

    def render(self, first: int, frames: int) -> Samples:
        """Return the samples of first <= frame < first + frames; pure, and the same however a stretch is cut."""
        return mix(first, frames, resolve(self, first - LONGEST + 1, first + frames))


def _in_round(stroke: Stroke, first: Fraction, last: Fraction) -> bool:
    """Whether a stroke belongs to a range: its own pick-up does, that of the section after its end does not."""
    if stroke.beat < first:
        return stroke.leads and stroke.beat > first - 1
    return not (stroke.leads and stroke.beat > last - 1)


def _ceil(beat: Fraction) -> int:
    return -(-beat // 1)


def _floor(beat: Fraction) -> int:
    return beat // 1


class Voiced(NamedTuple):
    """A sound as plain whole numbers and samples, its level already in them."""

    frame: int
    samples: Samples


def resolve(score: Score, first: int, last: int) -> tuple[Voiced, ...]:
    """Return the sounds of a score that begin at first <= frame < last, ready to be mixed without a Fraction."""
    loud = {kind: samples * np.float32(score.levels.gain(kind)) for kind, samples in kit().items()}
    return tuple(Voiced(sound.frame, loud[sound.kind]) for sound in score.sounds_between(first, last))


def mix(first: int, frames: int, sounds: Sequence[Voiced]) -> Samples:
    """Add up the sounds, which are in order of their frames, over first <= frame < first + frames."""
    out = np.zeros((frames, 2), dtype=np.float32)
    last = first + frames
    low = bisect_left(sounds, first - LONGEST, key=lambda one: one.frame)
    high = bisect_left(sounds, last, key=lambda one: one.frame)
    for start, samples in sounds[low:high]:
        begins, ends = max(start, first), min(start + len(samples), last)
        if begins < ends:
            out[begins - first : ends - first] += samples[begins - start : ends - start]
    return out
