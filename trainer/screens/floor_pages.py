"""The pages that open from the floor, and what the floor does with what was chosen there."""

from fractions import Fraction
from typing import TYPE_CHECKING

from textual.screen import Screen

from trainer.practice.roadmap import event_of_line
from trainer.screens.session import Session
from trainer.screens.widgets.sheet_text import SheetText

if TYPE_CHECKING:
    from trainer.screens.app import CallaheadApp
    from trainer.screens.map_screen import Chosen
    from trainer.screens.problems_screen import Read
    from trainer.sheet.opening import Sheet


class FloorPages(Screen[None]):
    """The part of the floor that opens other pages."""

    app: "CallaheadApp"

    def __init__(self, sheet: "Sheet", session: Session) -> None:
        super().__init__()
        self.sheet = sheet
        self.session = session

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
        """Show the map of all walls, when stopped."""
        if not self.session.dancing:
            from trainer.screens.map_screen import MapScreen

            title = self.sheet.routine.title or self.sheet.path.name
            self.app.push_screen(MapScreen(self.session.chart, self.session.beat, title), self._chosen)

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
        if chosen is not None and chosen.loop:
            self.session.prepare(chosen.stop.first, chosen.stop.last)
        elif chosen is not None:
            self.session.prepare(chosen.stop.first)
        self.moved()

    def action_problems(self) -> None:
        """Stop and show the sheet at its first finding."""
        if self.sheet.problems:
            self._show_sheet(0)

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

    def _after_sheet(self, read: "Read | None") -> None:
        """Take up the dance as it was read anew, if it was."""
        if read is not None and read.sheet is not self.sheet:
            self.renew(read.sheet)
