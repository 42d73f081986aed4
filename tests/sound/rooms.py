"""A transport with a hand clock and a device that is pulled by hand."""

from collections.abc import Callable
from fractions import Fraction

import numpy as np

from tests.sound.scenes import lantern
from trainer.dance.unroll import unroll
from trainer.practice.take import Take
from trainer.sound.clicks import Samples
from trainer.sound.device.simulated import HandClock, Library
from trainer.sound.device.watched import Watched
from trainer.sound.transport import Transport

LANTERN = unroll(lantern(), 5)
EIGHT = Take(LANTERN, Fraction(16), Fraction(24))
ENDLESS = Take(LANTERN, Fraction(16), Fraction(24), None)
ONE = Fraction(60)


def at_once(work: Callable[[], None], wait: float) -> None:
    """Do it here, in place of a thread."""
    work()


class Room:
    """A transport on a simulated library, and what it played."""

    def __init__(self, **library: float) -> None:
        self.clock = HandClock()
        self.library = Library(self.clock, **library)  # type: ignore[arg-type]
        self.device = Watched("simulated", self.library.opener, clock=self.clock, spawn=at_once)
        self.transport = Transport(self.device, clock=self.clock)
        self.run(1.0)

    def run(self, seconds: float) -> None:
        """Let time pass, looked at 30 times a second."""
        self.library.run(seconds, self.transport.now)

    @property
    def played(self) -> Samples:
        """Everything pulled so far."""
        return np.concatenate(self.library.streams[0].played)
