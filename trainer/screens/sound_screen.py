"""The page of sound: where it goes, how loud each kind of click is, and how long the screen waits for it.

Each change holds and is remembered at once, and can be heard: the page plays eight counts in which every click sounds.
"""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen

from trainer.screens import keys
from trainer.screens.base_app import BaseApp
from trainer.screens.own_player import OwnPlayer
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.sound.device import Name
from trainer.sound.settings import SoundSettings

Output = tuple[Name, str]
"""A device and its output's own name."""

LEVEL_STEP = 0.05
DELAY_STEP = 0.005
"""Seconds."""
BAR = 20
"""Columns of a full level."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that can be set."""

    title: str
    says: Callable[[SoundSettings], str]
    """Its present value in words."""
    step: Callable[[SoundSettings, int], SoundSettings]
    about: str
    """What it is for."""


def _level(title: str, name: str, about: str) -> Line:
    def says(now: SoundSettings) -> str:
        value: float = getattr(now.levels, name)
        full = round(value * BAR)
        return f"{'█' * full}{'░' * (BAR - full)} {round(value * 100):3d} of 100"

    def step(now: SoundSettings, by: int) -> SoundSettings:
        value: float = getattr(now.levels, name)
        wanted = round(min(max(value + by * LEVEL_STEP, 0.0), 1.0), 2)
        return now.but(levels=replace(now.levels, **{name: wanted}))

    return Line(title, says, step, about)


def _waits(now: SoundSettings) -> str:
    return f"{round(now.delay * 1000)} ms for it{'' if now.measured else ' (not tapped yet)'}"


def _wait_longer(now: SoundSettings, by: int) -> SoundSettings:
    return now.calibrated(round(now.delay + by * DELAY_STEP, 3))


LEVELS = (
    _level("All together", "master", "Over all the others, at first half of what is possible. Make the clicks just so "
           "loud that they are heard through the music."),
    _level("First count", "section", "The highest click: count 1 of every section."),
    _level("Other counts", "beat", "Every other whole count."),
    _level("Steps between", "step", "The & and the a that are danced."),
    _level("Sub-beats", "sub", "The & and the a of a rolling count that nobody dances; below 50 counts a minute only."),
    _level("Count-in", "count_in", "The knocks before the first count, and in the run-up of a loop."),
)  # fmt: skip

WAITS = Line(
    "The screen waits",
    _waits,
    _wait_longer,
    "How long the sound is on its way to the ear; wireless outputs take hundreds of ms. It is remembered for this "
    "output. Tapping along finds it.",
)


class SoundScreen(Screen[None]):
    """A short list; up and down choose, left and right change."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("sound")]
    app: BaseApp

    def __init__(self) -> None:
        super().__init__()
        self.page: keys.Page = "sound"
        self._chosen = 0
        self._choices: list[Output] | None = None
        self._listening = False
        self._leaving = False
        self._lines = (Line("Sound goes to", self._output, self._other_output, ""), *LEVELS, WAITS)
        self.own = OwnPlayer(lambda: self.app.open_player(), self._opened)
        self.asking: asyncio.Future[None] | None = None
        """What asks the system for its outputs."""

    def compose(self) -> ComposeResult:
        """Yield a line for each thing that can be set, and what is said about the one chosen."""
        yield PlainText("What you hear", id="heading")
        for _ in self._lines:
            yield PlainText(classes="setting")
        yield PlainText(id="about")
        yield PlainText(id="state")
        yield KeyLine()

    def on_mount(self) -> None:
        """Open the sound and ask for the outputs; both take their time."""
        self.watch(self.app, "sound", self._show)
        self.set_interval(1, self._show)
        self.own.reopen()
        self.asking = asyncio.ensure_future(self._ask())

    async def _ask(self) -> None:
        from trainer.sound.device import choices

        self._choices = await asyncio.to_thread(choices)
        if not self._leaving:
            self._show()

    def _opened(self) -> None:
        if self._listening:
            self._play()
        self._show()

    def action_choose(self, by: int) -> None:
        """Choose another line."""
        self._chosen = (self._chosen + by) % len(self._lines)
        self._show()

    def action_change(self, by: int) -> None:
        """Change what is chosen, and let it be heard."""
        before = self.app.sound
        changed = self._lines[self._chosen].step(before, by)
        if changed == before:
            return
        self.app.change_sound(changed)
        player = self.own.player
        if (changed.device, changed.output) != (before.device, before.output):
            self.own.reopen()
        elif player is not None:
            player.set_levels(changed.levels)
            player.delay = changed.delay
        self._show()

    def action_listen(self) -> None:
        """Play the sample, or stop it."""
        self._listening = not self._listening
        if self._listening:
            self._play()
        elif self.own.player is not None:
            self.own.player.stop()
        self._show()

    def action_tap(self) -> None:
        """Go to the page on which the wait is found by tapping."""
        from trainer.screens.tapping_screen import TappingScreen

        player = self.own.player
        if player is not None:
            self._listening = False
            player.stop()
            self.app.push_screen(TappingScreen(player), self._tapped)

    async def action_leave(self) -> None:
        """Give the sound back, then go back."""
        if not self._leaving:
            self._leaving = True
            await self.own.close()
            self.dismiss(None)

    async def on_unmount(self) -> None:
        """Give the sound back."""
        self._leaving = True
        await self.own.close()

    def _play(self) -> None:
        from trainer.sound.calibration import SAMPLE_TEMPO, sample

        if self.own.player is not None:
            self.own.player.load(sample(), SAMPLE_TEMPO)
            self.own.player.start()

    def _tapped(self, delay: float | None) -> None:
        """Take what was found; the levels were changed meanwhile."""
        if delay is not None:
            self.app.change_sound(self.app.sound.calibrated(delay))
        if self.own.player is not None:
            self.own.player.set_levels(self.app.sound.levels)
            self.own.player.delay, self.own.player.lead = self.app.sound.delay, 0.0
        self._show()

    def _output(self, now: SoundSettings) -> str:
        named = output_words((now.device, now.output))
        gone = self._choices is not None and (now.device, now.output) not in self._choices
        return f"{named} (not there now)" if gone else named

    def _other_output(self, now: SoundSettings, by: int) -> SoundSettings:
        choices = self._choices or []
        present: Output = (now.device, now.output)
        place = choices.index(present) if present in choices else 0 if by < 0 else -1
        device, output = choices[(place + by) % len(choices)] if choices else present
        return now.but(device=device, output=output)

    def _about_outputs(self) -> str:
        if self._choices is None:
            return "The system is asked for its outputs."
        # The system's own choice and silence are no outputs.
        there = [output_words(one) for one in self._choices if one[1]]
        named = f"Outputs here: {', '.join(there)}. " if there else "No output has a name here. "
        return named + "Choose one by its name if the screen shall wait its own time for it."

    def _show(self) -> None:
        now = self.app.sound
        wide = max(len(line.title) for line in self._lines) + 2
        shown = self.query(".setting").results(PlainText)
        for place, (text, line) in enumerate(zip(shown, self._lines, strict=True)):
            chosen = place == self._chosen
            text.set_class(chosen, "-chosen")
            text.text = f"{'>' if chosen else ' '} {line.title.ljust(wide)}{line.says(now)}"
        self.query_one("#about", PlainText).text = self._lines[self._chosen].about or self._about_outputs()
        self.query_one("#state", PlainText).text = self._state()
        states = {"listening"} if self._listening else set()
        self.query_one(KeyLine).keys = keys.footer("sound", states | ({"open"} if self.own.player else set()))

    def _state(self) -> str:
        sound = self.own.player.now().sound if self.own.player is not None else "the sound is opening"
        return sound[:1].upper() + sound[1:] if sound else "The sound is there."


def output_words(output: Output) -> str:
    """Return an output as it is called on the page."""
    device, name = output
    if device == "silent":
        return "nothing: no sound"
    return name or ("the system's choice" if device == "miniaudio" else device)
