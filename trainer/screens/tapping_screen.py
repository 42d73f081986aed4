"""Tapping along: first with the sound alone, then with the picture alone; what differs is the way of the sound."""

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.timer import Timer

from trainer.screens import keys
from trainer.screens.base_app import BaseApp
from trainer.screens.looking import Pictures
from trainer.screens.player import Player
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText

if TYPE_CHECKING:
    from trainer.sound.calibration import TapAlong

BEAT = 1.0
"""Seconds of a count to tap along with."""

LOOKS = 10
"""How often a second it looks, besides at every count."""


class TappingScreen(Screen[float | None]):
    """Gives the seconds that the screen should wait; None where nothing was found, or it is not wanted."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("tapping")]
    app: BaseApp

    def __init__(self, player: Player) -> None:
        super().__init__()
        self.page: keys.Page = "tapping"
        self._player = player
        self._pictures = Pictures()
        self._at_count: Timer | None = None
        self._shown = -1
        self.along: TapAlong

    def compose(self) -> ComposeResult:
        """Yield what to do, the count, and how far it has come."""
        yield PlainText("Tap along", id="heading")
        yield PlainText(id="what")
        yield BlockText(id="count", side="middle")
        yield PlainText(id="state")
        yield KeyLine()

    def on_mount(self) -> None:
        """Begin with the sound."""
        self.set_interval(1 / LOOKS, self.look)
        self._begin()

    def action_tap(self) -> None:
        """Take a tap."""
        stage = self.along.stage
        if stage == "done":
            return
        # Beats are those of the device's clock, without what the page looks ahead: the way to the ear is looked for.
        self.along.tap(float(self._player.now().beat) - self._player.lead / BEAT)
        if self.along.stage != stage:
            self._go_on()
        self.look()

    def action_again(self) -> None:
        """Begin anew."""
        self._begin()

    def action_keep(self) -> None:
        """Take what is proposed."""
        if self.along.delay is not None:
            self._leave(self.along.delay)

    def action_leave(self) -> None:
        """Leave everything as it was."""
        self._leave(None)

    def displayed(self) -> None:
        """Look ahead by what a picture takes."""
        lead = self._pictures.displayed(self.app.clock())
        if lead is not None:
            self._lead = lead

    def look(self) -> None:
        """Show the count where there is a picture, and how far the taps have come."""
        self.query_one("#what", PlainText).text = WHAT[self.along.stage]
        self.query_one("#state", PlainText).text = self._state()
        self.query_one(KeyLine).keys = keys.footer("tapping", {self.along.stage})
        if self.along.stage == "picture":
            self._player.lead = self._lead
            now = self._player.now()
            number = int(now.place.beat) % 8 + 1
            if not now.place.before and number != self._shown:
                self._pictures.looked(self.app.clock())
                self._shown = number
            self.query_one("#count", BlockText).text = str(self._shown) if self._shown > 0 else ""
            self._look_at_count()
        else:
            self.query_one("#count", BlockText).text = ""

    def _look_at_count(self) -> None:
        if self._at_count is not None:
            self._at_count.stop()
            self._at_count = None
        due = self._player.until_click()
        if due is not None and due < 1 / LOOKS:
            self._at_count = self.set_timer(due, self._counted)

    def _counted(self) -> None:
        self._at_count = None
        self.look()

    def _begin(self) -> None:
        from trainer.sound.calibration import TapAlong

        self.along = TapAlong()
        self._lead = 0.0
        self._player.set_levels(self.app.sound.levels)
        self._play()
        self.look()

    def _go_on(self) -> None:
        """Go from the sound to the picture, and from there to what was found."""
        from trainer.sound.levels import Levels

        self._player.stop()
        if self.along.stage == "picture":
            self._player.set_levels(Levels(master=0.0))
            self._play()

    def _play(self) -> None:
        from trainer.sound.calibration import TEMPO, metronome

        self._shown = -1
        self._player.delay = self._player.lead = 0.0
        self._player.load(metronome(), TEMPO)
        self._player.start()

    def _leave(self, delay: float | None) -> None:
        self._player.stop()
        self.dismiss(delay)

    def _state(self) -> str:
        along = self.along
        if along.stage == "done":
            if along.delay is None:
                return "The taps do not tell. Begin again."
            now = round(self.app.sound.delay * 1000)
            return f"The screen should wait {round(along.delay * 1000)} ms for the sound; now it waits {now} ms."
        if along.left:
            return f"{along.left} taps to go"
        return f"Uneven by {round(along.scatter * 1000)} ms so far: go on until it is even"


WHAT = {
    "sound": "Listen, and look at nothing. After four knocks tap Space on every click, as evenly as you can.",
    "picture": "Now there is no sound. Tap Space each time the number changes.",
    "done": "That is all.",
}
