"""The facing clock: where the body faces, where the front and the screen are, and the turn to come."""

from fractions import Fraction
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.reactive import reactive
from textual.strip import Strip

from trainer.practice.floor import DialView
from trainer.screens import dial
from trainer.screens.dial import Run
from trainer.screens.widgets.drawn import Drawn


class FacingDial(Drawn):
    """The dial as large as its room; repaints only when its own view changes."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"dial--ring", "dial--screen", "dial--front", "dial--turn", "dial--body"}

    shown: reactive[DialView | None] = reactive[DialView | None](None)
    screen_at: reactive[Fraction] = reactive(Fraction(0))
    """The facing at which the screen stands."""
    plain: reactive[bool] = reactive(False)
    """Whether all parts have one colour."""

    def drawing(self) -> list[Strip]:
        """Return the dial."""
        columns, rows = self.size
        if self.shown is None:
            return []
        style = self.rich_style
        where = {"facing": self.shown.facing, "turn": self.shown.turn, "screen": self.screen_at}
        if self.plain or self.app.no_color:
            return [Strip([Segment(line, style)]) for line in dial.render(columns, rows, **where)]
        lines = dial.painted(columns, rows, **where)
        return [Strip([self._segment(run) for run in line]).adjust_cell_length(columns, style) for line in lines]

    def _segment(self, run: Run) -> Segment:
        if run.part is None:
            return Segment(run.text, self.rich_style)
        style = self.get_component_rich_style(f"dial--{run.part}")
        if run.behind is None:
            return Segment(run.text, style)
        behind = self.get_component_rich_style(f"dial--{run.behind}")
        return Segment(run.text, style + Style(bgcolor=behind.color))
