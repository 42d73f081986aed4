"""From a key press to the frames of a device, and from the device's clock to the beat that is heard now.

Frames are those of the device, beats those of the take. A change begins at a frame that the device has not taken yet,
and the screen follows the frames that are heard: it slows when the ear hears it. One thread (the screen's) owns a
Transport; the device's thread calls `pull` only. Between them one reference is swapped each way.
"""

import time
from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from trainer.practice.take import Place, Take, resumed
from trainer.sound.clicks import Samples
from trainer.sound.device import Device, default_delay
from trainer.sound.levels import Levels
from trainer.sound.program import FADE, Program
from trainer.sound.score import Score
from trainer.timing import RATE, frames_per_beat

FINEST_TEMPO = 1000
"""A tempo is kept in thousandths of a count a minute, so that beats keep small denominators through many changes."""

SOON = 0.001
"""Seconds."""

WOBBLE = RATE // 4
"""Frames by which the clock may seem to run back, when its line is laid anew; the dance then stands for that moment."""


@dataclass(frozen=True, slots=True)
class Now:
    """Where the dance stands, as heard at one moment."""

    running: bool
    """Counting in or dancing."""
    finished: bool
    """The take came to its end."""
    beat: Fraction
    """The beat of the take, negative in the count-in; stopped: where it was stopped."""
    place: Place
    take: Take | None
    """The take that the beat and the place belong to; None before one is loaded."""
    tempo: Fraction
    """Counts a minute as heard; stopped: as it will go on."""
    sound: str
    """Empty while it sounds, else a short sentence."""


class Past(NamedTuple):
    """What was danced up to a frame that is still to be heard."""

    until: int
    score: Score


class Transport:
    """Starts, stops and changes a take on a device, and tells where it stands."""

    def __init__(
        self,
        device: Device,
        *,
        clock: Callable[[], float] = time.monotonic,
        levels: Levels | None = None,
        delay: float | None = None,
    ) -> None:
        self.delay = default_delay(device.name) if delay is None else delay
        """Seconds from a frame's leaving the device, as its clock has it, to the ear; the screen waits for it."""
        self.lead = 0.0
        """Seconds from a look of the screen to its picture; it looks so much ahead."""
        self._device = device
        self._clock = clock
        self._levels = levels or Levels()
        self._take: Take | None = None
        self._then: Take | None = None
        self._heard_take: Take | None = None
        self._past: tuple[Past, ...] = ()
        self._tempo = Fraction(100)
        self._changes: tuple[tuple[Fraction, Fraction], ...] = ()
        self._running = self._finished = False
        self._beat = Fraction(0)
        self._heard_tempo = self._tempo
        self._frame = 0
        self._run = 0
        self._program = self._used = Program()
        self._refused: Program | None = None
        self._served = 0
        device.open(self.pull)

    def load(self, take: Take, tempo: Fraction, changes: Sequence[tuple[Fraction, Fraction]] = ()) -> None:
        """Stand at the first count of a take, stopped; what was running fades.

        `changes` are tempi planned for later beats of the take, rising; a key press drops those still to come.
        """
        self.stop()
        self._take, self._tempo = self._finite(take, tempo), _kept(tempo)
        self._changes = tuple((beat, _kept(other)) for beat, other in changes)
        self._then, self._heard_take, self._past = None, self._take, ()
        self._beat, self._finished = Fraction(0), False

    def start(self) -> None:
        """Count in and dance the take from its first count; raises ValueError where none is loaded."""
        if self._take is None:
            raise ValueError("nothing is loaded")
        self._begin()
        self._send(self._program)

    def _begin(self) -> None:
        """Stand before the count-in of the take, running."""
        self._run += 1
        self._running, self._finished = True, False
        self._heard_take, self._past = self._take, ()
        self._beat, self._heard_tempo = Fraction(-self._take.count_in if self._take else 0), self._tempo

    def stop(self) -> None:
        """Fade within 5 ms and stand where the dance was heard; nothing to do when it is not running."""
        if self._running:
            self._follow(self._clock())
            self._running = False
            self._send(self._program)

    def carry_on(self, take: Take, then: Take | None = None) -> bool:
        """Go on without a stop in another take, which holds the count that is danced now; after its end in `then`.

        False, and nothing is changed, where that cannot be: it stands, it does not hold the count, or the device plays
        takes whole. A take that is followed by another has an end.
        """
        if then is not None and take.ends is None:
            raise ValueError("an endless take is followed by nothing")
        score = self._program.score
        if not self._running or self._device.whole or score is None or self._program.run != self._run:
            return False
        frame = self._next_frame(self._program)
        carried = score.at(frame).carried_on(take, frame, then)
        if carried is None:
            return False
        self._take, self._then = carried.take, then
        self._send(self._program)
        return True

    def set_tempo(self, tempo: Fraction) -> None:
        """Go on in another tempo, in counts a minute, from the first frame that can still be changed."""
        tempo = _kept(tempo)
        if self._running and self._take and self._device.whole:
            # What was handed over cannot be changed: it begins again, at its present eight.
            self.load(resumed(self._take, self.now().place), tempo)
            self.start()
            return
        self._tempo, self._changes = tempo, ()
        if self._running:
            self._send(self._program)

    def set_levels(self, levels: Levels) -> None:
        """Sound at other levels from the next click on."""
        self._levels = levels
        if self._running and not self._device.whole:
            self._send(self._program)

    def now(self, at: float | None = None) -> Now:
        """Return where the dance stands at a time in monotonic seconds, by default now."""
        at = self._clock() if at is None else at
        self._tend(at)
        if self._running:
            self._follow(at)
        take = self._heard_take
        place = take.place(self._beat) if take else Place(0, Fraction(0), Fraction(0))
        tempo = self._heard_tempo if self._running else self._tempo
        return Now(self._running, self._finished, self._beat, place, take, tempo, self._device.sound(at))

    def until_click(self) -> float | None:
        """Return the seconds until the first click is heard that the last look did not know, and so has to be shown.

        Where it has been heard meanwhile, that is SOON, since a timer of nothing never comes.
        None while nothing runs, nothing more comes, or the device has not settled.
        """
        heard = self._device.heard(self._clock() - self.delay + self.lead) if self._running else None
        if heard is None:
            return None
        sounds = self._program.sounds
        coming = bisect_right(sounds, self._frame, key=lambda one: one.frame)
        return max((sounds[coming].frame - heard) / RATE, SOON) if coming < len(sounds) else None

    def close(self) -> None:
        """Stop and give the device back; calling it again does nothing."""
        self._running = False
        self._device.close()

    def pull(self, first: int, frames: int) -> Samples:
        """Return the samples of first <= frame < first + frames; for the device's thread only."""
        program = self._program
        if program is not self._used:
            if program.since < self._served:
                # It came too late: frames that it changes are out already. The screen's thread makes it anew.
                self._refused, program = program, self._used
            else:
                self._used = program
        self._served = first + frames
        return program.render(first, frames)

    def _send(self, base: Program) -> None:
        """Swap in the program that follows a base by what is wished now."""
        frame = self._next_frame(base)
        self._program = self._made(base, frame)
        if self._device.whole:
            score = self._program.score
            self._served = 0
            self._device.replay(frame, score.last + RATE if score and score.last else None)

    def _next_frame(self, base: Program) -> int:
        # The base may not have been taken yet; what it changes is then changed by the new one too.
        return max(self._device.free(self._clock()), base.since)

    def _made(self, base: Program, frame: int) -> Program:
        if not self._running or self._take is None:
            return base.stopped(frame)
        going_on = self._going_on(base, frame)
        if going_on is not None:
            return base.turned(going_on, frame)
        score = Score.starting(self._take, self._tempo, frame + FADE, self._levels, self._changes)
        score = replace(score, then=self._then)
        if self._device.whole and score.last:
            return base.started(score, self._run, frame, score.last - frame)
        return base.started(score, self._run, frame)

    def _going_on(self, base: Program, frame: int) -> Score | None:
        """Return the score of a base by what is wished now from a frame on; None where it begins anew."""
        if base.run != self._run or base.score is None or self._take is None:
            return None
        score: Score | None = base.score.at_levels(self._levels)
        danced = base.score.at(frame)
        if score is not None and not (danced.take is self._take or danced.take is self._then):
            self._past = (*self._past, Past(frame, base.score))
            score = score.at(frame).carried_on(self._take, frame, self._then)
            if score is None:
                # It came too late, and what was to be held is over.
                self._begin()
                return None
        if score is not None and not self._changes and not score.tempo.keeps(self._tempo, frame):
            score = score.retimed(max(frame, score.first), self._tempo)
        return score

    def _finite(self, take: Take, tempo: Fraction) -> Take:
        """Return a take with an end where the device is handed takes whole."""
        if not self._device.whole or take.rounds is not None:
            return take
        return replace(take, rounds=max(int(self._device.whole // (take.cycle * frames_per_beat(tempo))), 1))

    def _tend(self, at: float) -> None:
        """Make anew what came too late, and resolve more of the score."""
        if self._refused is self._program:
            self._past = tuple(past for past in self._past if past.until != self._refused.since)
            self._send(self._used)
        elif self._running:
            self._program = self._program.extended(self._device.free(at))

    def _follow(self, at: float) -> None:
        """Move to the beat that is heard at a time; while that cannot be told, stay."""
        whole = self._program.score
        heard = self._device.heard(at - self.delay + self.lead)
        if heard is None or whole is None:
            return
        frame = round(heard)
        if 0 < self._frame - frame < WOBBLE:
            frame = self._frame
        self._frame = frame
        self._past = tuple(past for past in self._past if past.until > frame)
        score = (self._past[0].score if self._past else whole).at(frame)
        take = self._heard_take = score.take
        if not self._past and take is self._then:
            self._take, self._then = take, None
        self._heard_tempo = score.tempo.tempo_at(frame)
        self._beat = max(score.tempo.beat_at(frame), Fraction(-take.count_in))
        if take.ends is not None and self._beat >= take.ends:
            self._beat, self._running, self._finished = take.ends, False, True


def _kept(tempo: Fraction) -> Fraction:
    if tempo <= 0:
        raise ValueError("a tempo is above 0 counts a minute")
    return Fraction(max(round(tempo * FINEST_TEMPO), 1), FINEST_TEMPO)
