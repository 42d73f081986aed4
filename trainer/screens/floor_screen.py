"""The floor: the keys and the poll of the session; its two faces, dancing and stopped, are widgets.

The screen asks the session when a click is heard, and some ten times a second between, while dancing; once a second
always (the sound may come or go), and after each key. What it gets are values; a widget repaints only when its own has
changed.
"""

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.reactive import reactive
from textual.timer import Timer

from trainer.dance.facing import turn_text
from trainer.practice.floor import FloorView
from trainer.practice.roadmap import road_map, row_at, turned_on_wall
from trainer.practice.saying import place_words
from trainer.practice.settings import Settings
from trainer.practice.standing import Standing, called_and_shown
from trainer.practice.strip import coming_strip, strip_view, words_view
from trainer.practice.take import section_range
from trainer.problems import TrainerError
from trainer.screens import keys
from trainer.screens.floor_pages import FloorPages
from trainer.screens.floor_words import button_words, music_words, quiet_line, tempo_words
from trainer.screens.looking import Pictures
from trainer.screens.rehearsal import Rehearsal
from trainer.screens.room import TooSmall, plan
from trainer.screens.session import Session
from trainer.screens.widgets.dancing_floor import DancingFloor
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.stopped_floor import StoppedFloor, StoppedView
from trainer.screens.widgets.wall_strip import WallStrip

if TYPE_CHECKING:
    from trainer.sheet.opening import Sheet

LOOKS = 10
"""How often a second the screen looks where the dance is, besides at every click."""


class FloorScreen(FloorPages):
    """One routine on the floor."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("floor")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (30, "-high"), (50, "-tall")]  # noqa: RUF012 - as Textual declares it

    dancing: reactive[bool] = reactive(False, repaint=False)
    walking: reactive[bool] = reactive(False, repaint=False)
    """In a walk-through by hand, which is shown as if it were danced."""
    view: reactive[FloorView | None] = reactive[FloorView | None](None, repaint=False)
    quiet: reactive[str] = reactive("", repaint=False)
    stopped: reactive[StoppedView | None] = reactive[StoppedView | None](None, repaint=False)
    keys_now: reactive[tuple[tuple[str, str], ...]] = reactive[tuple[tuple[str, str], ...]]((), repaint=False)

    def __init__(self, sheet: "Sheet", session: Session) -> None:
        super().__init__(sheet, session)
        self.page: keys.Page = "floor"
        self.rehearsal = Rehearsal(session, lambda: self.app.clock())
        self._walls = road_map(session.chart)
        self._looking: Timer | None = None
        self._at_click: Timer | None = None
        self._pictures = Pictures()
        self._written = session.timeline
        self._standing = Standing.AS_WRITTEN
        self._lines = sheet.text.splitlines()

    def compose(self) -> ComposeResult:
        """Yield both faces and the line of keys."""
        yield DancingFloor().data_bind(shown=FloorScreen.view, quiet=FloorScreen.quiet)
        yield StoppedFloor(self.sheet).data_bind(shown=FloorScreen.stopped)
        yield KeyLine().data_bind(keys=FloorScreen.keys_now)

    def on_mount(self) -> None:
        """Show the start; the sound opens once that was painted."""
        self.watch(self.app, "settings", self._set_room)
        self.watch(self.app, "sound", self.set_sound, init=False)
        self._looking = self.set_interval(1 / LOOKS, self.look, pause=True)
        self.set_interval(1, self.look)
        self.look()
        self.call_after_refresh(self.open_sound)

    def look(self) -> None:
        """Show where the dance is now."""
        session, looked = self.session, self.app.clock()
        view = session.view()
        self.dancing = session.dancing
        if session.dancing and view is not self.view:
            self._pictures.looked(looked)
        self.walking = self.rehearsal.walking and not session.dancing
        if session.dancing or self.walking:
            self.view = view
            self.quiet = self._quiet(view)
        else:
            self.stopped = self._stopped(view)
        states = {"dancing" if session.dancing else "walking" if self.walking else "stopped"}
        states |= {"looping"} if session.looping else set()
        states |= {"problems"} if self.sheet.problems else set()
        self.keys_now = keys.footer("floor", states, button_words(self.rehearsal))
        self._look_at_click()

    def _look_at_click(self) -> None:
        """Look again when the next click is heard, if that comes before the next look."""
        if self._at_click is not None:
            self._at_click.stop()
            self._at_click = None
        due = self.session.until_click()
        if due is not None and due < 1 / LOOKS:
            self._at_click = self.set_timer(due, self._clicked)

    def _clicked(self) -> None:
        self._at_click = None
        self.look()

    def displayed(self) -> None:
        """Look ahead from now on by what pictures have taken of late, from the look to the terminal."""
        lead = self._pictures.displayed(self.app.clock())
        if lead is not None:
            self.session.look_ahead(lead)

    def on_resize(self) -> None:
        """Say whether the window has room for dancing."""
        self.look()

    def watch_dancing(self, dancing: bool) -> None:
        """Turn to the other face; look often only while something moves."""
        self._turn()
        if self._looking is not None:
            if dancing:
                self._looking.resume()
                self.app.was_danced(self.sheet.path)
            else:
                self._looking.pause()

    def watch_walking(self) -> None:
        """Turn to the other face."""
        self._turn()

    def _turn(self) -> None:
        self.set_class(self.dancing or self.walking, "-dancing")

    def action_start_stop(self) -> None:
        """Start, or stop where the dance is."""
        if self.session.dancing or self.session.waiting:
            self.rehearsal.stop()
        else:
            self.rehearsal.start()
        self.look()

    def action_button_down(self) -> None:
        """Do what the first button of a remote does now."""
        self.rehearsal.down()
        self.look()

    def action_button_up(self) -> None:
        """Do what the second button of a remote does now."""
        self.rehearsal.up()
        self.look()

    def action_step(self, by: int) -> None:
        """Go by footfalls through the whole routine, when stopped."""
        if self.session.dancing:
            return
        self.session.step(by)
        if self.rehearsal.walking:
            self.look()
        else:
            self.moved()

    def action_section(self, by: int) -> None:
        """Go to the start of the section, or of the one before or after; a loop goes along."""
        session = self.session
        if by < 0:
            session.section_start()
        else:
            session.go_to(section_range(session.timeline, session.here())[1])
        if session.dancing:
            self.look()
        else:
            self.moved()

    def on_wall_strip_pointed(self, event: WallStrip.Pointed) -> None:
        """Go to the wall that was clicked."""
        event.stop()
        self.session.go_to(event.row.first)
        self.moved()

    def moved(self) -> None:
        """Propose what suits the place, and show it."""
        self.rehearsal.moved()
        self.look()

    def action_tempo(self, steps: int) -> None:
        """Go faster or slower."""
        self.session.change_tempo(steps)
        self.look()

    def action_loop(self) -> None:
        """Loop the present section, or no longer."""
        dancing = self.session.dancing
        self.session.toggle_loop()
        if dancing:
            self.look()
        else:
            self.moved()

    def action_mirror(self) -> None:
        """Stand the next way to the class, when stopped."""
        if not self.session.dancing:
            self._standing = self._standing.next
            self.session.see(*called_and_shown(self._written, self._standing))
            self._walls = road_map(self.session.chart)
            self.moved()

    def renew(self, sheet: "Sheet") -> None:
        """Take up the dance as its sheet was read anew, without losing the place."""
        from trainer.dance.unroll import unroll

        timeline = unroll(sheet.routine)
        if not any(True for _ in timeline.danced(0, 1)):
            told = f"no counts could be read in {sheet.path}; the dance goes on as it was read before."
            self.app.tell(TrainerError("There is nothing to dance", told))
            return
        self.sheet, self._written, self._lines = sheet, timeline, sheet.text.splitlines()
        self.session.renew(*called_and_shown(timeline, self._standing))
        self._walls = road_map(self.session.chart)
        self.query_one(StoppedFloor).renew(sheet)
        self.moved()

    def action_leave(self) -> None:
        """Leave the floor."""
        self.session.stop()
        self.app.leave_floor()

    def _set_room(self, settings: Settings) -> None:
        """Fit the floor to the room and the eyes."""
        self.query_one(DancingFloor).settings = settings
        for facing_dial in self.query(FacingDial):
            facing_dial.screen_at, facing_dial.plain = settings.screen, settings.one_colour

    def _tempo(self) -> str:
        return tempo_words(self.session.tempo, self.session.own_tempo)

    def _sound(self) -> str:
        """Return that there is no sound, without the device's own words, where the dancer did not choose that."""
        return "" if self.app.silent else self.session.sound.partition(":")[0]

    def _quiet(self, view: FloorView) -> str:
        round_ = f"round {view.round}" if self.session.looping else "by hand" if self.rehearsal.walking else ""
        return quiet_line(
            view,
            self.size.width - 2,
            told=(self._standing, round_, self._sound()),
            tempo="" if self.rehearsal.walking else self._tempo(),
            tempo_first=self.session.percent != 100,
        )

    def _stopped(self, view: FloorView) -> StoppedView:
        session, chart = self.session, self.session.chart
        proposed = self.rehearsal.proposed if self.rehearsal.fresh else None
        index, strip = view.index, strip_view(chart, view.index)
        if proposed is not None:  # what comes stands there, not what was danced before it
            view = replace(view, place=f"before {place_words(chart, index, proposed.first)}")
            index, strip = index + 1 if index >= 0 else index, coming_strip(chart, index)
        loop = "loop" if session.looping else ""
        small = isinstance(plan(self.size.width, self.size.height), TooSmall)
        waiting = "the sound is opening" if session.waiting else "too small to dance" if small else ""
        return StoppedView(
            title=self.sheet.routine.title or self.sheet.path.name,
            floor=view,
            strip=strip,
            words=words_view(chart, index, self._lines),
            tempo=self._tempo(),
            events=chart.size,
            note="   ".join(words for words in (waiting or self._standing or self._sound(), loop) if words),
            music=music_words(self.sheet.routine),
            proposed=proposed,
            walls=self._walls,
            wall=self._walls.index(row_at(self._walls, session.beat)),
            turned=turn_text(turned_on_wall(chart, view.index)),
        )
