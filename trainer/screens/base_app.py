"""What every page finds at hand in the app: the shelf, the settings, the sound, messages; pages are opened by the app.

The pages import this and not the app, which imports them.
"""

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from textual.app import App
from textual.constants import TEXTUAL_ANIMATIONS
from textual.reactive import Reactive
from textual.theme import Theme

from trainer.practice.settings import Settings, kept_settings
from trainer.practice.shelf import Shelf
from trainer.problems import TrainerError
from trainer.screens import themes
from trainer.screens.message_screen import MessageScreen
from trainer.sound.settings import SoundSettings, kept_sound

if TYPE_CHECKING:
    from trainer.screens.player import Player
    from trainer.sheet.opening import Sheet

Clock = Callable[[], float]
"""Monotonic seconds."""


@dataclass(frozen=True, slots=True)
class Read:
    """How the page of what is wrong in a sheet was left."""

    sheet: "Sheet"
    dance: bool
    """Whether to dance it all the same."""


class BaseApp(App[None]):
    """Keeps what the dancer has set, and tells errors."""

    theme: Reactive[str] = Reactive(themes.DARK.name)
    settings: Reactive[Settings] = Reactive(Settings(), repaint=False)
    """What the dancer has set; changed by `change_settings` only."""
    sound: Reactive[SoundSettings] = Reactive(SoundSettings(), repaint=False)
    """What the dancer has set of sound; changed by `change_sound` only."""

    def __init__(
        self,
        *,
        device: str = "",
        clock: Clock = time.monotonic,
        data: Path | None = None,
    ) -> None:
        """Make the app; `device` empty is the usual one, `data` None the user's own folders, else one for all."""
        # Whoever wants no colours gets none at all; left to itself Textual would write greys.
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        self._device = device
        self._clock = clock
        self._data = data
        self._shelf: Shelf | None = None
        self._kept = kept_settings(data)
        self._kept_sound = kept_sound(data)

    @property
    def available_themes(self) -> dict[str, Theme]:
        """Our own colours only: in others, what is read from five metres may have too little contrast."""
        return {theme.name: theme for theme in themes.ALL}

    @property
    def shelf(self) -> Shelf | None:
        """The routines at hand; None where they could not be read."""
        return self._shelf

    @property
    def silent(self) -> bool:
        """Whether the dancer chose to have no sound."""
        return (self._device or self.sound.device) == "silent"

    @property
    def delay(self) -> float | None:
        """Seconds that the screen waits for the sound; None, the device's own, where the command line named another."""
        return None if self._device and self._device != self.sound.device else self.sound.delay

    @property
    def clock(self) -> Clock:
        """What gives the monotonic seconds, for sound and presses alike."""
        return self._clock

    @contextmanager
    def telling(self) -> Iterator[None]:
        """Show an error of ours as a message instead of raising it."""
        try:
            yield
        except TrainerError as error:
            self.tell(error)

    def tell(self, error: TrainerError) -> None:
        """Show an error as a message; with no page below it, the program ends when it was read."""
        self.push_screen(MessageScreen(error.title, error.message, error=True), lambda _: self._leave(2))

    def change_sound(self, sound: SoundSettings) -> None:
        """Set the sound anew and remember it; what is chosen here goes before what the command line said."""
        if (sound.device, sound.output) != (self.sound.device, self.sound.output):
            self._device = ""
        with self.telling():
            self._kept_sound.write(sound)
        self.sound = sound

    def change_settings(self, settings: Settings) -> None:
        """Set the room, the eyes and the colours anew and remember it."""
        with self.telling():
            self._kept.write(settings)
        self.settings = settings

    def watch_settings(self, settings: Settings) -> None:
        """Put on the colours, and glide or not; the pages look for themselves at the rest."""
        sixteen = self.console.color_system == "standard"
        self.theme = themes.theme_for(settings.colours, sixteen=sixteen, none=self.no_color).name
        self.animation_level = TEXTUAL_ANIMATIONS if settings.motion else "none"

    def open_player(self) -> "Player":
        """Open the sound; called in a thread, because libraries and devices take their time."""
        from trainer.sound.device import open_device
        from trainer.sound.transport import Transport

        sound, other = self.sound, self.delay is None
        device = open_device(self._device if other else sound.device, "" if other else sound.output, clock=self._clock)
        return Transport(device, clock=self._clock, levels=sound.levels, delay=self.delay)

    def was_danced(self, path: Path) -> None:
        """Remember on the shelf that a routine is danced today."""
        if self._shelf is not None:
            with self.telling():
                self._shelf.was_danced(self._shelf.entry_of(path), date.today())

    def open_sheet(self, path: Path) -> object:
        """Read a sheet and show it on the floor; one with errors shows them first."""
        raise NotImplementedError

    def show_floor(self, sheet: "Sheet") -> None:
        """Show a sheet on the floor, ready to dance."""
        raise NotImplementedError

    def show_problems(self, sheet: "Sheet", then: "Callable[[Read | None], None]") -> None:
        """Show what is wrong in a sheet, and ask whether to dance it all the same."""
        raise NotImplementedError

    def leave_floor(self) -> None:
        """Go back to the shelf; where the program began on the floor, end it."""
        raise NotImplementedError

    def _leave(self, code: int) -> None:
        """End the program where no page is left to go back to."""
        if len(self.screen_stack) == 1:
            self.exit(return_code=code)
