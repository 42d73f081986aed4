"""What a session asks of whatever plays a take: the transport, which is loaded after the first paint."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Protocol

from trainer.practice.take import Place, Take
from trainer.sound.levels import Levels


class Moment(Protocol):
    """What a transport says of one moment (see trainer/sound/transport.py)."""

    @property
    def running(self) -> bool:
        """Counting in or dancing."""

    @property
    def finished(self) -> bool:
        """The take came to its end."""

    @property
    def place(self) -> Place:
        """Where in the take."""

    @property
    def beat(self) -> Fraction:
        """The beat of the take."""

    @property
    def take(self) -> Take | None:
        """The take that the place belongs to."""

    @property
    def sound(self) -> str:
        """Empty while it sounds, else a short sentence."""


class Player(Protocol):
    """What plays a take: the transport, which is loaded after the first paint."""

    delay: float
    """Seconds that the screen waits for the sound."""

    lead: float
    """Seconds from a look of the screen to its picture."""

    def load(self, take: Take, tempo: Fraction, changes: Sequence[tuple[Fraction, Fraction]] = ()) -> None:
        """Stand at the first count of a take."""

    def start(self) -> None:
        """Count in and dance."""

    def stop(self) -> None:
        """Stand still."""

    def carry_on(self, take: Take, then: Take | None = None) -> bool:
        """Go on without a stop in another take, and after it in `then`; False where that cannot be."""

    def set_tempo(self, tempo: Fraction) -> None:
        """Go on in another tempo."""

    def set_levels(self, levels: Levels) -> None:
        """Sound at other levels from the next click on."""

    def now(self) -> Moment:
        """Return where the dance stands."""

    def until_click(self) -> float | None:
        """Return the seconds until the next click is heard."""

    def close(self) -> None:
        """Give the device back."""
