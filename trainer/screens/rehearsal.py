"""A whole practice on two buttons: what each does now, what is proposed, and the walk-through by hand.

Stopped, the first button starts what is proposed and the second proposes what comes before it. Dancing, the first stops
and, pressed again within a second, goes to what comes next; the second goes back to the start of the section. In a walk
by hand the first goes on by a footfall and the second back by one; pressed twice within a second, it ends the walk.
What is proposed is stood before at once, so that any other way to start begins the same.
"""

from collections.abc import Callable
from fractions import Fraction

from trainer.practice.proposals import Proposal, going_on, place_of, proposals, proposed_at
from trainer.screens.session import Session

TWICE = 1.0
"""Seconds within which a second press belongs to the first."""

REPEAT = 0.09
"""Seconds after a press of the same button within which another is none: the button is held down. Keyboards repeat some
ten to thirty times a second; nobody presses as fast (common practice, no source)."""

_NEVER = float("-inf")


class Rehearsal:
    """Between the two buttons and a session; `clock` gives monotonic seconds."""

    def __init__(self, session: Session, clock: Callable[[], float]) -> None:
        self.session = session
        self.walking = False
        """In a walk-through by hand."""
        self._clock = clock
        self._down = self._up = _NEVER
        self._last = {"down": _NEVER, "up": _NEVER}
        self._own: tuple[Fraction, Fraction] | None = None
        self.items: tuple[Proposal, ...] = ()
        self.place = 0
        """Which of the items is proposed, or danced."""
        self.moved()

    @property
    def proposed(self) -> Proposal:
        """What is proposed, or being danced."""
        return self.items[self.place]

    @property
    def before(self) -> Proposal:
        """What the second button would propose."""
        return self.items[self.place - 1]

    @property
    def after(self) -> Proposal:
        """What comes next; after the run-through, or where it was stopped, the first thing again."""
        return self.items[(self.place + (2 if self.proposed.kind == "on" else 1)) % len(self.items)]

    @property
    def walked(self) -> bool:
        """Whether the walk by hand has come to its last footfall."""
        session = self.session
        following = session.index + 1
        return following >= session.chart.size or session.chart.event(following).beat >= self.proposed.last

    @property
    def fresh(self) -> bool:
        """Whether the dancer stands where what is proposed begins."""
        session = self.session
        return not session.dancing and session.index == session.chart.index_before(self.proposed.first)

    def moved(self) -> None:
        """Propose what suits the place where the dancer went by other keys."""
        session = self.session
        self.walking = False
        if not session.looping:
            self._own = None
        elif session.loop is not None:
            self._own = session.loop
        self.items = proposals(session.chart, session.beat, self._own)
        looped = place_of(self.items, *session.loop) if session.loop else None
        self.place = proposed_at(self.items, session.index, session.beat) if looped is None else looped

    def down(self) -> None:
        """Do what the first button does now."""
        now, before = self._clock(), self._down
        if self._held("down", now):
            return
        self._down = _NEVER
        if self.session.dancing or self.session.waiting:
            self.stop()
            self._down = now
        elif now - before < TWICE:
            self._propose(self.after)
        elif self.walking:
            self._walk_on()
        else:
            self._start()

    def up(self) -> None:
        """Do what the second button does now."""
        now, before = self._clock(), self._up
        if self._held("up", now):
            return
        self._up = _NEVER
        if self.session.dancing:
            self.session.section_start()
        elif not self.walking:
            self._propose(self.before)
        elif now - before < TWICE:
            self._propose(self.after)
        else:
            self.session.step(-1)
            self._up = now

    def start(self) -> None:
        """Dance from where the session stands: a loop, or on to the end."""
        self.walking = False
        looped = place_of(self.items, *self.session.loop) if self.session.loop else None
        self.place = len(self.items) - 1 if looped is None else looped
        self.session.start()

    def stop(self) -> None:
        """Stop; what was danced to its end is gone on with from here, a loop is danced again."""
        danced, proposed = self.session.dancing, self.proposed
        self.session.stop()
        if danced and self.session.looping:
            if self.session.loop != (proposed.first, proposed.last):
                self.moved()  # it was looped meanwhile
        elif danced:
            self._drop_going_on()
            on = going_on(self.session.chart, self.session.beat)
            self.items = (*self.items[:-1], on, self.items[-1])
            self.place = len(self.items) - 2

    def end_walk(self) -> None:
        """Leave the walk-through where it is."""
        self.walking = False

    def _held(self, button: str, now: float) -> bool:
        """Note a press; whether it is none, because the button is held down."""
        last, self._last[button] = self._last[button], now
        return now - last < REPEAT

    def _start(self) -> None:
        one = self.proposed
        self._stand(one)
        if one.kind == "walk":
            self.walking = True
            self._walk_on()
        else:
            self.session.start()

    def _walk_on(self) -> None:
        if self.walked:
            self._propose(self.after)
        else:
            self.session.step(1)

    def _propose(self, wanted: Proposal) -> None:
        self.walking = False
        if wanted.kind != "on":
            self._drop_going_on()
        self.place = self.items.index(wanted)
        self._stand(wanted)

    def _stand(self, one: Proposal) -> None:
        self.session.prepare(one.first, one.last if one.loops else None)

    def _drop_going_on(self) -> None:
        """Forget where something was stopped once another thing is proposed."""
        self.items = tuple(one for one in self.items if one.kind != "on")
