"""The pages that open from the floor, what the floor does with what was chosen there, and the sound that it lends."""

import asyncio
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from textual import work
from textual.screen import Screen

from trainer.practice.roadmap import event_of_line
from trainer.screens.base_app import BaseApp, Read
from trainer.screens.session import Session
from trainer.screens.widgets.section_strip import SectionStrip
from trainer.screens.widgets.sheet_text import SheetText
from trainer.sound.settings import SoundSettings

if TYPE_CHECKING:
    from trainer.screens.map_screen import Chosen
    from trainer.screens.player import Player
    from trainer.sheet.opening import Sheet

LOUDER = 0.05
"""Of the full level, for each press."""


class FloorPages(Screen[None]):
    """The part of the floor that opens other pages."""

    app: BaseApp

    def __init__(self, sheet: "Sheet", session: Session) -> None:
        super().__init__()
        self.sheet = sheet
        self.session = session
        self._left = False
        self.opening: asyncio.Future[Player] | None = None
        """The opening of the sound, begun after the first paint."""

    def look(self) -> None:
        """Show where the dance is now."""
        raise NotImplementedError

    def renew(self, sheet: "Sheet") -> None:
        """Take up the dance as its sheet was read anew, without losing the place."""
        raise NotImplementedError

    def moved(self) -> None:
        """Propose what suits the place, and show it."""
        raise NotImplementedError

    def action_map(self) -> None:
        """Show the map of all walls; what is danced goes on below it."""
        from trainer.screens.map_screen import MapScreen

        title = self.sheet.routine.title or self.sheet.path.name
        self.app.push_screen(MapScreen(self.session.chart, self.session.here(), title), self._chosen)

    def action_set_tempo(self) -> None:
        """Type or tap a tempo, also while dancing."""
        from trainer.screens.tempo_screen import TempoScreen

        session = self.session
        self.app.push_screen(TempoScreen(session.tempo, session.own_tempo, self.app.clock), self._tempo_taken)

    def _tempo_taken(self, tempo: Fraction | None) -> None:
        """Dance in a tempo."""
        if tempo is not None:
            self.session.set_tempo(tempo)
        self.look()

    def action_look_up(self) -> None:
        """Show how the present step is danced, when stopped; before the first, the first one."""
        if not self.session.dancing:
            from trainer.screens.look_up_screen import LookUpScreen

            chart = self.session.chart
            first, last = chart.step(max(self.session.index, 0))
            self.app.push_screen(LookUpScreen([chart.event(place) for place in range(first, last + 1)]))

    def _chosen(self, chosen: "Chosen | None") -> None:
        """Go to what was chosen on the map, or loop it."""
        if chosen is not None:
            self.session.take_up(chosen.stop.first, chosen.stop.last if chosen.loop else None)
        if self.session.dancing:
            self.look()
        else:
            self.moved()

    def on_unmount(self) -> None:
        """Give the sound back."""
        self._left = True
        self.session.close()

    def set_sound(self, sound: SoundSettings) -> None:
        """Sound at other levels, and wait as long as was set."""
        self.session.hear(sound.levels, self.app.delay)

    def open_sound(self) -> None:
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

    def action_sound(self) -> None:
        """Show what is heard and where it goes, when stopped; that page has the sound to itself meanwhile."""
        if not self.session.dancing and self.opening is not None and self.opening.done():
            self._hear()

    @work(exclusive=True, group="sound page")
    async def _hear(self) -> None:
        from trainer.screens.sound_screen import SoundScreen

        await asyncio.to_thread(self.session.close)
        await self.app.push_screen_wait(SoundScreen())
        self.open_sound()
        self.look()

    def action_louder(self, by: int) -> None:
        """Make all clicks louder or softer, while dancing too."""
        levels = self.app.sound.levels
        master = round(min(max(levels.master + by * LOUDER, 0.0), 1.0), 2)
        self.app.change_sound(self.app.sound.but(levels=replace(levels, master=master)))

    def action_problems(self) -> None:
        """Stop and show the sheet at its first finding."""
        if self.sheet.problems:
            self._show_sheet(0)

    def on_section_strip_pointed(self, event: SectionStrip.Pointed) -> None:
        """Go to the count that was clicked."""
        event.stop()
        self.session.step(event.by)
        self.moved()

    def on_sheet_text_pointed(self, event: SheetText.Pointed) -> None:
        """Go to the first step of the line that was clicked, on this wall if it is danced there."""
        event.stop()
        chart = self.session.chart
        index = event_of_line(chart, event.line, self.session.beat)
        if index is not None:
            self.session.step(index - self.session.index)
        self.moved()

    def action_sheet(self) -> None:
        """Show the sheet at the present step, when stopped."""
        if not self.session.dancing:
            span = self.session.chart.event(max(self.session.index, 0)).event.span
            self._show_sheet(span.line if span else 0)

    def _show_sheet(self, line: int) -> None:
        from trainer.screens.problems_screen import ProblemsScreen

        self.session.stop()
        self.look()
        self.app.push_screen(ProblemsScreen(self.sheet, line), self._after_sheet)

    def _after_sheet(self, read: Read | None) -> None:
        """Take up the dance as it was read anew, if it was."""
        if read is not None and read.sheet is not self.sheet:
            self.renew(read.sheet)
