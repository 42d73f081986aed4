"""Counts, seconds and frames: the one place where they are turned into each other.

A beat is one count as danced, an exact Fraction. A frame is one sample of every channel at RATE a second. Due times are
absolute: nothing here is found by adding up rounded steps.
"""

from bisect import bisect_right
from dataclasses import dataclass, replace
from fractions import Fraction

RATE = 48_000
"""Frames a second, live and in files."""

ASSUMED_TEMPO = Fraction(100)
"""Counts a minute where a sheet states none."""


def frames_per_beat(tempo: Fraction) -> Fraction:
    """Return the exact frames of one count at a tempo in counts a minute."""
    if tempo <= 0:
        raise ValueError("a tempo is above 0 counts a minute")
    return 60 * RATE / Fraction(tempo)


def tempo_of(per_beat: Fraction) -> Fraction:
    """Return the counts a minute of so many frames a beat."""
    return 60 * RATE / per_beat


def seconds_of(frames: Fraction | int) -> float:
    """Return frames as seconds, rounded only by the float."""
    return float(Fraction(frames) / RATE)


def frames_of(seconds: float) -> int:
    """Return the nearest whole frame to a time in seconds."""
    return round(seconds * RATE)


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of one tempo: `beat` falls exactly on `frame`, and on from there every beat takes `per_beat` frames."""

    frame: int
    beat: Fraction
    per_beat: Fraction


@dataclass(frozen=True, slots=True)
class TempoMap:
    """Beats against frames, piece by piece; what was heard is never changed, only what comes after it.

    Before its first segment the map goes on backwards at that segment's tempo.
    """

    segments: tuple[Segment, ...]

    @classmethod
    def steady(cls, tempo: Fraction, *, frame: int = 0, beat: Fraction = Fraction(0)) -> "TempoMap":
        """Return a map of one tempo, in counts a minute, with `beat` on `frame`."""
        return cls((Segment(frame, Fraction(beat), frames_per_beat(tempo)),))

    def changed(self, frame: int, tempo: Fraction) -> "TempoMap":
        """Return the map with another tempo from a whole frame on.

        Changes planned for that frame or later are dropped: they were not heard. What lies before it stays.
        """
        if frame < self.segments[0].frame:
            raise ValueError("a tempo map does not change before it begins")
        kept = tuple(segment for segment in self.segments if segment.frame < frame)
        return TempoMap((*kept, Segment(frame, self.beat_at(frame), frames_per_beat(tempo))))

    def changed_at_beat(self, beat: Fraction, tempo: Fraction) -> "TempoMap":
        """Return the map with another tempo from the whole frame nearest to a beat on.

        The beat itself is then due on that whole frame: the error of at most half a frame is not carried further.
        """
        frame = round(self.frame_at(beat))
        if frame <= self.segments[-1].frame:
            raise ValueError("a tempo map is only added to")
        return TempoMap((*self.segments, Segment(frame, Fraction(beat), frames_per_beat(tempo))))

    def renumbered(self, less: Fraction) -> "TempoMap":
        """Return the map in which every beat has a number that is so much less; the frames are the same."""
        return TempoMap(tuple(replace(segment, beat=segment.beat - less) for segment in self.segments))

    def keeps(self, tempo: Fraction, frame: int) -> bool:
        """Return whether from a frame on it goes on in a tempo, without a change to come."""
        return self.tempo_at(frame) == tempo and self.segments[-1].frame <= frame

    def frame_at(self, beat: Fraction) -> Fraction:
        """Return the exact frame of a beat."""
        segment = self._of_beat(beat)
        return segment.frame + (beat - segment.beat) * segment.per_beat

    def beat_at(self, frame: Fraction | int) -> Fraction:
        """Return the exact beat of a frame."""
        segment = self.segments[max(bisect_right(self.segments, frame, key=lambda s: s.frame) - 1, 0)]
        return segment.beat + (frame - segment.frame) / segment.per_beat

    def tempo_at(self, frame: Fraction | int) -> Fraction:
        """Return the counts a minute at a frame."""
        return tempo_of(self.segments[max(bisect_right(self.segments, frame, key=lambda s: s.frame) - 1, 0)].per_beat)

    def seconds_at(self, beat: Fraction) -> float:
        """Return the seconds from frame 0 to a beat."""
        return seconds_of(self.frame_at(beat))

    def _of_beat(self, beat: Fraction) -> Segment:
        return self.segments[max(bisect_right(self.segments, beat, key=lambda s: s.beat) - 1, 0)]
