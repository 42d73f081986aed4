"""What is remembered of sound: the device and output chosen, how loud each click is, and the delay of each output.

Kept in sound.json in the user's configuration folder. Importing this loads no sound library.
"""

from pathlib import Path
from typing import Annotated, Any, Literal

import platformdirs
from pydantic import BaseModel, ConfigDict, Field

from trainer.practice.keeping import Kept
from trainer.sound.device import Name, default_delay
from trainer.sound.levels import Levels

FILE = "sound.json"

LONGEST_DELAY = 1.0

Delay = Annotated[float, Field(ge=-LONGEST_DELAY, le=LONGEST_DELAY, allow_inf_nan=False)]


class SoundSettings(BaseModel):
    """A dancer's choices; an output is known by its device's name and its own."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    version: Literal[1] = 1
    device: Name = "miniaudio"
    output: str = Field("", max_length=1000)
    """The output's own name; empty: the system's choice."""
    levels: Levels = Levels()
    delays: dict[str, Delay] = Field(default_factory=dict)
    """Seconds that the screen waits for the sound, of the outputs that were calibrated."""

    @property
    def delay(self) -> float:
        """Seconds that the screen waits for the sound of the chosen output."""
        return self.delays.get(self._key, default_delay(self.device))

    @property
    def measured(self) -> bool:
        """Whether the dancer has set the delay of the chosen output."""
        return self._key in self.delays

    @property
    def _key(self) -> str:
        return f"{self.device}: {self.output}"

    def calibrated(self, delay: float) -> "SoundSettings":
        """Return the settings with a delay of the chosen output, kept between the limits."""
        held = max(-LONGEST_DELAY, min(delay, LONGEST_DELAY))
        return self.but(delays={**self.delays, self._key: held})

    def but(self, **changes: Any) -> "SoundSettings":
        """Return a copy with some values changed; raises ValidationError, a ValueError, for one that cannot be."""
        return SoundSettings.model_validate(self.model_dump() | changes)


def kept_sound(folder: Path | None = None) -> Kept[SoundSettings]:
    """Return where the settings are kept; `folder` None: the user's configuration folder."""
    place = folder if folder is not None else platformdirs.user_config_path("callahead", appauthor=False)
    return Kept(place / FILE, SoundSettings, "sound settings")
