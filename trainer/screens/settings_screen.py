"""The page of settings: where the screen stands, how large and how far away it is, motion, colours.

Each change holds and is remembered at once. Below the list stands what the sizes come to for the dancer's eyes.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar, get_args

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.events import Click
from textual.screen import Screen

from trainer.practice import settings as kept
from trainer.practice.settings import Settings
from trainer.screens import keys
from trainer.screens.base_app import BaseApp
from trainer.screens.room import TooSmall, plan
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText

LEAST_MINUTES, GOOD_MINUTES = 16, 20
"""Heights of letters that can be read and that are read with ease, in minutes of arc (ISO 9241-303)."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that can be set."""

    title: str
    says: Callable[[Settings], str]
    """Its present value in words."""
    step: Callable[[Settings, int], Settings]
    """The settings with the next value, or with the one before."""
    about: str
    """What it is for."""


def _turned(settings: Settings, by: int) -> Settings:
    return settings.but(screen_at=_beside(get_args(kept.Clock), settings.screen_at, by))


def _sized(settings: Settings, by: int) -> Settings:
    return settings.but(window_mm=min(max(settings.window_mm + 5 * by, kept.LEAST_MM), kept.MOST_MM))


def _away(settings: Settings, by: int) -> Settings:
    return settings.but(distance_m=min(max(settings.distance_m + by / 2, kept.LEAST_M), kept.MOST_M))


def _moving(settings: Settings, _by: int) -> Settings:
    return settings.but(motion=not settings.motion)


def _coloured(settings: Settings, by: int) -> Settings:
    return settings.but(colours=_beside(get_args(kept.Colours), settings.colours, by))


def _beside(values: tuple[str, ...], now: str, by: int) -> str:
    """Return the next of some values in a round, or the one before."""
    return values[(values.index(now) + (1 if by > 0 else -1)) % len(values)]


SETTINGS = (
    Setting(
        "The screen stands at",
        lambda now: now.screen_at,
        _turned,
        "12:00 is the front wall of the dance. The top of the facing clock is where the screen is; the mark on its rim "
        "is the front. On the floor one key turns the room by a quarter.",
    ),
    Setting(
        "The window is",
        lambda now: f"{now.window_mm:g} mm high",
        _sized,
        "Measure the height of this window on the glass: no terminal can tell it. In a low window the floor gives its "
        "room to what must be read first.",
    ),
    Setting(
        "I dance",
        lambda now: f"{now.distance_m:g} m away",
        _away,
        "From the screen to where you dance: what the eyes need is told below.",
    ),
    Setting(
        "Lists and pages",
        lambda now: "glide" if now.motion else "stand still",
        _moving,
        "Standing still, nothing on any page moves by itself. The floor never glides: it changes on the count.",
    ),
    Setting(
        "Colours",
        lambda now: now.colours,
        _coloured,
        "Everything is told by place, shape and words as well. In one colour nothing is told by colour at all.",
    ),
)


class SettingsScreen(Screen[None]):
    """A short list; up and down choose, left and right change."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("settings")]
    app: BaseApp

    def __init__(self) -> None:
        super().__init__()
        self.page: keys.Page = "settings"
        self._chosen = 0

    def compose(self) -> ComposeResult:
        """Yield a line for each setting, and what is said about the one chosen."""
        yield PlainText("What is where, and how it looks", id="heading")
        for _ in SETTINGS:
            yield PlainText(classes="setting")
        yield PlainText(id="about")
        yield PlainText(id="sizes")
        yield KeyLine()

    def on_mount(self) -> None:
        """Show the values, whoever changes them."""
        self.query_one(KeyLine).keys = keys.footer("settings", ())
        self.watch(self.app, "settings", self._show)

    def on_resize(self) -> None:
        """Say what the sizes come to in the new window."""
        self._show()

    def on_click(self, event: Click) -> None:
        """Choose the setting clicked on; a second click changes it."""
        lines = list(self.query(".setting"))
        if event.widget in lines:
            before, self._chosen = self._chosen, lines.index(event.widget)
            if before == self._chosen:
                self.action_change(1)
            self._show()

    def action_choose(self, by: int) -> None:
        """Choose another setting."""
        self._chosen = (self._chosen + by) % len(SETTINGS)
        self._show()

    def action_change(self, by: int) -> None:
        """Change the setting chosen."""
        changed = SETTINGS[self._chosen].step(self.app.settings, by)
        if changed != self.app.settings:
            self.app.change_settings(changed)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _show(self) -> None:
        now = self.app.settings
        wide = max(len(setting.title) for setting in SETTINGS) + 2
        for place, (line, setting) in enumerate(zip(self.query(".setting").results(PlainText), SETTINGS, strict=True)):
            chosen = place == self._chosen
            line.set_class(chosen, "-chosen")
            line.text = f"{'>' if chosen else ' '} {setting.title.ljust(wide)}{setting.says(now)}"
        self.query_one("#about", PlainText).text = SETTINGS[self._chosen].about
        self.query_one("#sizes", PlainText).text = sizes(now, self.size.width, self.size.height)


def sizes(settings: Settings, columns: int, rows: int) -> Content:
    """Return how high the parts of the floor stand in a dancer's eye, and from where they are all read with ease."""
    regions = plan(columns, rows, height_mm=settings.window_mm, distance_m=settings.distance_m)
    if isinstance(regions, TooSmall):
        return Content.styled(str(regions), "$error")
    parts = {
        "the count": regions.count,
        "the facing clock": regions.dial,
        "the next step": regions.next,
        "the next tag or restart": regions.departure,
    }
    angles = {name: regions.minutes(region.height / 2) for name, region in parts.items()}
    told = "\n".join(f"  {name.ljust(26)}{angle:3.0f}" for name, angle in angles.items())
    head = f"Height in minutes of arc from {settings.distance_m:g} m ({LEAST_MINUTES} readable, {GOOD_MINUTES} good):"
    least = min(angles, key=lambda name: angles[name])
    nearer = settings.distance_m * angles[least] / LEAST_MINUTES
    verdict = (
        Content.styled(f"{least.capitalize()} is too small from there: come to {nearer:.1f} m.", "bold $error")
        if angles[least] < LEAST_MINUTES
        else Content("All of it can be read from there.")
    )
    return Content("\n").join((Content(head), Content(told), verdict))
