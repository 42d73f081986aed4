"""The floor: the keys and the poll of the session; its two faces, dancing and stopped, are widgets.

The screen asks the session some thirty times a second while dancing, once a second always (the sound may come or go),
and after each key; what it gets are values, and a widget repaints only when its own has changed.
"""

import asyncio
from fractions import Fraction
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.reactive import reactive
from textual.screen import Screen
from textual.timer import Timer

from trainer.practice.floor import FloorView
from trainer.practice.saying import mend_words
from trainer.practice.settings import Settings
from trainer.practice.standing import Standing, called_and_shown
from trainer.practice.strip import strip_view, words_view
from trainer.routine import Routine
from trainer.screens import keys
from trainer.screens.session import Player, Session
from trainer.screens.widgets.dancing_floor import DancingFloor
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.stopped_floor import StoppedFloor, StoppedView

if TYPE_CHECKING:
    from trainer.screens.app import CallaheadApp
    from trainer.sheet.opening import Sheet

LOOKS = 30
"""How often a second the screen looks where the dance is."""


class FloorScreen(Screen[None]):
    """One routine on the floor."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("floor")]
    app: "CallaheadApp"

    dancing: reactive[bool] = reactive(False, repaint=False)
    view: reactive[FloorView | None] = reactive[FloorView | None](None, repaint=False)
    quiet: reactive[str] = reactive("", repaint=False)
    stopped: reactive[StoppedView | None] = reactive[StoppedView | None](None, repaint=False)
    keys_now: reactive[tuple[tuple[str, str], ...]] = reactive[tuple[tuple[str, str], ...]]((), repaint=False)

    def __init__(self, sheet: "Sheet", session: Session) -> None:
        super().__init__()
        self.page: keys.Page = "floor"
        self.sheet = sheet
        self.session = session
        self._looking: Timer | None = None
        self._left = False
        self._written = session.timeline
        self._standing = Standing.AS_WRITTEN
        self._lines = sheet.text.splitlines()
        self.opening: asyncio.Future[Player] | None = None
        """The opening of the sound, begun after the first paint."""

    def compose(self) -> ComposeResult:
        """Yield both faces and the line of keys."""
        yield DancingFloor().data_bind(shown=FloorScreen.view, quiet=FloorScreen.quiet)
        yield StoppedFloor().data_bind(shown=FloorScreen.stopped)
        yield KeyLine().data_bind(keys=FloorScreen.keys_now)

    def on_mount(self) -> None:
        """Show the start; the sound opens once that was painted."""
        self.watch(self.app, "settings", self._set_room)
        self._looking = self.set_interval(1 / LOOKS, self.look, pause=True)
        self.set_interval(1, self.look)
        self.look()
        self.call_after_refresh(self._open_sound)

    def on_unmount(self) -> None:
        """Give the sound back."""
        self._left = True
        self.session.close()

    def look(self) -> None:
        """Show where the dance is now."""
        session = self.session
        view = session.view()
        self.dancing = session.dancing
        if session.dancing:
            self.view = view
            self.quiet = self._quiet(view)
        else:
            self.stopped = self._stopped(view)
        states = {"dancing" if session.dancing else "stopped"}
        states |= {"looping"} if session.looping else set()
        states |= {"problems"} if self.sheet.problems else set()
        self.keys_now = keys.footer("floor", states)

    def watch_dancing(self, dancing: bool) -> None:
        """Turn to the other face; look often only while something moves."""
        self.set_class(dancing, "-dancing")
        if self._looking is not None:
            if dancing:
                self._looking.resume()
                self.app.was_danced(self.sheet.path)
            else:
                self._looking.pause()

    def action_start_stop(self) -> None:
        """Start, or stop where the dance is."""
        if self.session.dancing or self.session.waiting:
            self.session.stop()
        else:
            self.session.start()
        self.look()

    def action_step(self, by: int) -> None:
        """Go by footfalls through the whole routine, when stopped."""
        self.session.step(by)
        self.look()

    def action_tempo(self, steps: int) -> None:
        """Go faster or slower."""
        self.session.change_tempo(steps)
        self.look()

    def action_loop(self) -> None:
        """Loop the present section, or no longer."""
        self.session.toggle_loop()
        self.look()

    def action_section_start(self) -> None:
        """Go back to the start of the section."""
        self.session.section_start()
        self.look()

    def action_mirror(self) -> None:
        """Stand the next way to the class, when stopped."""
        if not self.session.dancing:
            self._standing = self._standing.next
            self.session.see(*called_and_shown(self._written, self._standing))
            self.look()

    def action_problems(self) -> None:
        """Stop and show what is wrong in the sheet."""
        if self.sheet.problems:
            self.session.stop()
            self.look()
            self.app.show_problems(self.sheet)

    def action_leave(self) -> None:
        """Leave the floor."""
        self.session.stop()
        self.app.leave_floor()

    def _set_room(self, settings: Settings) -> None:
        """Fit the floor to the room and the eyes."""
        self.query_one(DancingFloor).settings = settings
        for facing_dial in self.query(FacingDial):
            facing_dial.screen_at, facing_dial.plain = settings.screen, settings.one_colour

    def _open_sound(self) -> None:
        """Open the device in a thread of its own; libraries and devices take their time."""
        self.opening = asyncio.ensure_future(asyncio.to_thread(self.app.open_player))
        self.opening.add_done_callback(self._sound_opened)

    def _sound_opened(self, opening: "asyncio.Future[Player]") -> None:
        if opening.cancelled():
            return
        player = opening.result()
        if self._left:
            player.close()
        else:
            self.session.plug(player)
            self.look()

    def _tempo(self) -> str:
        session = self.session
        return f"{plain_number(session.tempo)} of {plain_number(session.own_tempo)} a minute"

    def _sound(self) -> str:
        """Return that there is no sound, without the device's own words, where the dancer did not choose that."""
        return "" if self.app.silent else self.session.sound.partition(":")[0]

    def _quiet(self, view: FloorView) -> str:
        """Return the one quiet line: what is to be mended, the place, the departure, the round; what fits of it."""
        mend = mend_words(view.mend) if view.mend else ""
        round_ = f"round {view.round}" if self.session.looping else ""
        departure = view.departure.line if view.departure else ""
        own_tempo = self.session.percent == 100
        last = (departure, self._tempo()) if own_tempo else (self._tempo(), departure)
        line = ""
        for words in (mend, self._standing, view.place, round_, self._sound(), *last):
            if words and len(line) + len(words) + 3 <= self.size.width:
                line += f"   {words}" if line else f" {words}"
        return line

    def _stopped(self, view: FloorView) -> StoppedView:
        session = self.session
        loop = "loop" if session.looping else ""
        waiting = "the sound is opening" if session.waiting else ""
        return StoppedView(
            title=self.sheet.routine.title or self.sheet.path.name,
            floor=view,
            strip=strip_view(session.chart, view.index),
            words=words_view(session.chart, view.index, self._lines),
            tempo=self._tempo(),
            events=session.chart.size,
            note="   ".join(words for words in (waiting or self._sound(), self._standing, loop) if words),
            music=music_words(self.sheet.routine),
        )


def plain_number(number: Fraction) -> str:
    """Return a number with at most one decimal."""
    return f"{float(number):.1f}".removesuffix(".0")


def music_words(routine: Routine) -> str:
    """Return what a routine is danced to and how long to wait: "To Lantern Hill. Wait 16 counts, then dance."."""
    tune = f"To {routine.tune}. " if routine.tune else ""
    counted = f"{routine.wait} counts {routine.wait_from}".rstrip()
    return tune + (f"Wait {counted}, then dance." if routine.wait else "")
