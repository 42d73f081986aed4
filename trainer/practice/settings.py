"""What a dancer sets once for the room and the eyes, kept in settings.json in the user's configuration folder."""

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

import platformdirs
from pydantic import BaseModel, ConfigDict, Field

from trainer.dance.facing import clock
from trainer.practice.keeping import Kept

FILE = "settings.json"

Clock = Literal["12:00", "1:30", "3:00", "4:30", "6:00", "7:30", "9:00", "10:30"]
Colours = Literal["dark", "light", "dark in one colour", "light in one colour"]

WINDOW_MM, LEAST_MM, MOST_MM = 165.0, 80.0, 2000.0
"""Height of the window: of a 14-inch screen with bars above and below it (measured with the mock-ups), of the lowest
that is any use from afar, and of a projection."""
FLOOR_M, LEAST_M, MOST_M = 5.0, 0.5, 20.0
"""How far away the dancer stands."""


class Settings(BaseModel):
    """Everything that is set; the defaults suit a laptop on the front wall."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    version: Literal[1] = 1
    screen_at: Clock = "12:00"
    """The clock at which the screen stands, seen from the floor."""
    window_mm: float = Field(default=WINDOW_MM, ge=LEAST_MM, le=MOST_MM, allow_inf_nan=False)
    """Height of the window."""
    distance_m: float = Field(default=FLOOR_M, ge=LEAST_M, le=MOST_M, allow_inf_nan=False)
    """From the screen to the dancer."""
    motion: bool = True
    """Whether lists glide and pages slide; the floor itself never does."""
    colours: Colours = "dark"

    @property
    def screen(self) -> Fraction:
        """The facing at which the screen stands."""
        return CLOCKS[self.screen_at]

    @property
    def one_colour(self) -> bool:
        """Whether all parts of a page have the same colour."""
        return self.colours.endswith("one colour")

    def turned(self) -> "Settings":
        """Return the settings with the screen a quarter further round the room, to the dancer's right."""
        return self.but(screen_at=clock((self.screen + Fraction(1, 4)) % 1))

    def but(self, **changes: Any) -> "Settings":
        """Return a copy with some values changed; raises ValidationError, a ValueError, for one that cannot be."""
        return Settings.model_validate(self.model_dump() | changes)


CLOCKS: Mapping[Clock, Fraction] = {
    "12:00": Fraction(0),
    "1:30": Fraction(1, 8),
    "3:00": Fraction(1, 4),
    "4:30": Fraction(3, 8),
    "6:00": Fraction(1, 2),
    "7:30": Fraction(5, 8),
    "9:00": Fraction(3, 4),
    "10:30": Fraction(7, 8),
}


def kept_settings(folder: Path | None = None) -> Kept[Settings]:
    """Return where the settings are kept; `folder` None: the user's configuration folder."""
    place = folder if folder is not None else platformdirs.user_config_path("callahead", appauthor=False)
    return Kept(place / FILE, Settings, "settings")
