"""A straight arrow to the side a turn goes; R and L are feet, so a turn is never a letter."""

from fractions import Fraction

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from trainer.screens import dial


class TurnArrow(Widget):
    """An arrow right or left by the sign of the turn; blank for none."""

    ALLOW_SELECT = False

    turn: reactive[Fraction] = reactive(Fraction(0))

    def render_line(self, y: int) -> Strip:
        """Return one row of the arrow."""
        columns, rows = self.size
        if not self.turn or y >= rows or columns < 2:
            return Strip.blank(columns, self.rich_style)
        return Strip([Segment(dial.turn_arrow(columns, rows, turn=self.turn)[y], self.rich_style)])
