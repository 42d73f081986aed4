"""What the device's thread plays from: plain frames and samples, swapped as one value and never changed."""

from dataclasses import dataclass, replace

import numpy as np

from trainer.sound.clicks import LONGEST, Samples
from trainer.sound.score import Score, Voiced, mix, resolve
from trainer.timing import RATE

FADE = RATE // 200
"""Frames in which a stop fades: 5 ms."""

AHEAD = 120 * RATE
"""Frames that are resolved at a time; half of it is left when more are."""


@dataclass(frozen=True, slots=True, eq=False)
class Program:
    """The sounds on the frames of a device, from a moment before `since` up to `until`."""

    since: int = 0
    """The first frame that may differ from what was played from before."""
    score: Score | None = None
    """What the sounds were resolved from; None: nothing sounds but what rings out."""
    run: int = 0
    """The start that it belongs to; a new start has a new number."""
    until: int = 0
    """The frame up to which the score is resolved."""
    sounds: tuple[Voiced, ...] = ()

    def render(self, first: int, frames: int) -> Samples:
        """Return the samples of first <= frame < first + frames."""
        return mix(first, frames, self.sounds)

    def stopped(self, frame: int) -> "Program":
        """Return the program that fades from a frame on, and is silent."""
        return Program(frame, None, self.run, frame, self._ringing(frame, fading=True))

    def started(self, score: Score, run: int, frame: int, ahead: int = AHEAD) -> "Program":
        """Return the program that fades what sounds from a frame on and begins another score after it."""
        until = frame + ahead
        return Program(frame, score, run, until, self._ringing(frame, fading=True) + resolve(score, frame, until))

    def turned(self, score: Score, frame: int) -> "Program":
        """Return the program that goes on by another form of its score from a frame on; begun sounds ring out."""
        sounds = self._ringing(frame, fading=False) + resolve(score, frame, frame + AHEAD)
        return replace(self, since=frame, score=score, until=frame + AHEAD, sounds=sounds)

    def extended(self, frame: int) -> "Program":
        """Return the program with more of its score resolved, when what is left after a frame runs short."""
        if self.score is None or self.until - frame > AHEAD // 2:
            return self
        until = frame + AHEAD
        kept = tuple(one for one in self.sounds if one.frame > frame - RATE)
        return replace(self, since=self.until, until=until, sounds=kept + resolve(self.score, self.until, until))

    def _ringing(self, frame: int, *, fading: bool) -> tuple[Voiced, ...]:
        """Return the sounds begun before a frame, those of the last second; fading, none outlasts FADE."""
        kept = [one for one in self.sounds if frame - RATE < one.frame < frame]
        return tuple(_faded(one, frame) if fading else one for one in kept)


def _faded(sound: Voiced, frame: int) -> Voiced:
    if sound.frame + len(sound.samples) <= frame or sound.frame < frame - LONGEST:
        return sound
    left = FADE - (np.arange(len(sound.samples)) + sound.frame - frame)
    gain = (np.clip(left, 0, FADE) / FADE).astype(np.float32)
    return Voiced(sound.frame, sound.samples * gain[:, None])
