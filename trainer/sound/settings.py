"""What is remembered of sound: the device and output chosen, how loud each click is, and the delay of each output."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from trainer.sound.device import NAMES, default_delay
from trainer.sound.levels import Levels

LONGEST_DELAY = 1.0


@dataclass(frozen=True, slots=True)
class SoundSettings:
    """A dancer's choices; an output is known by its device's name and its own."""

    device: str = "miniaudio"
    output: str = ""
    """The output's own name; empty: the system's choice."""
    levels: Levels = field(default_factory=Levels)
    delays: Mapping[str, float] = field(default_factory=dict)
    """Seconds that the screen waits for the sound, of the outputs that were calibrated."""

    @property
    def delay(self) -> float:
        """Seconds that the screen waits for the sound of the chosen output."""
        return self.delays.get(self._key, default_delay(self.device))

    @property
    def _key(self) -> str:
        return f"{self.device}: {self.output}"

    def calibrated(self, delay: float) -> "SoundSettings":
        """Return the settings with a delay of the chosen output."""
        return replace(self, delays={**self.delays, self._key: delay})

    def as_row(self) -> dict[str, Any]:
        """Return them as they are remembered."""
        return {
            "device": self.device,
            "output": self.output,
            "levels": self.levels.as_row(),
            "delays": dict(self.delays),
        }

    @classmethod
    def read(cls, row: Mapping[str, Any]) -> "SoundSettings":
        """Return remembered settings; what is missing or makes no sense keeps its default."""
        device, output = row.get("device"), row.get("output")
        levels, delays = row.get("levels"), row.get("delays")
        return cls(
            device=device if device in NAMES else "miniaudio",
            output=output if isinstance(output, str) else "",
            levels=Levels.read(levels) if isinstance(levels, Mapping) else Levels(),
            delays={str(key): float(one) for key, one in delays.items() if _is_delay(one)}
            if isinstance(delays, Mapping)
            else {},
        )


def _is_delay(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= LONGEST_DELAY
