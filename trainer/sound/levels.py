"""How loud each kind of click is."""

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trainer.sound.clicks import Kind


@dataclass(frozen=True, slots=True)
class Levels:
    """How loud each kind of click is, from 0 to 1 of its full level; `master` goes over them all."""

    master: float = 0.5
    """A first start is not loud: half of full level, 6 dB down."""
    section: float = 1.0
    beat: float = 1.0
    step: float = 1.0
    sub: float = 1.0
    count_in: float = 1.0

    def __post_init__(self) -> None:
        """Refuse a level outside 0 to 1: above it the headroom would be gone."""
        for name, value in asdict(self).items():
            if not 0 <= value <= 1:
                raise ValueError(f"the level of {name} lies between 0 and 1")

    def gain(self, kind: "Kind") -> float:
        """Return what the samples of a kind are multiplied by."""
        own: float = getattr(self, kind.replace("-", "_"))
        return self.master * own
