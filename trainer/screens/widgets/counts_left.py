"""The last counts before a departure as squares that go out, so that no second digit competes with the count."""

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from trainer.practice.floor import URGENT


class CountsLeft(Widget):
    """Four squares, solid for a count still to go, hollow for one that is gone; hidden while `left` is None."""

    ALLOW_SELECT = False

    left: reactive[int | None] = reactive[int | None](None)

    def watch_left(self) -> None:
        """Show or hide with the number."""
        self.display = self.left is not None

    def render_line(self, y: int) -> Strip:
        """Return one row of the squares."""
        columns, rows = self.size
        # The upper half of the first row stays free, so that the squares do not grow into the slab above.
        wide = max(4, min(2 * rows, columns // URGENT - 2))
        if y == 0:
            solid = hollow = "▄" * wide
        else:
            solid, hollow = "█" * wide, "█" + ("▄" if y == rows - 1 else " ") * (wide - 2) + "█"
        line = "  ".join(solid if place < (self.left or 0) else hollow for place in range(URGENT))
        return Strip([Segment(line, self.rich_style)]).adjust_cell_length(columns, self.rich_style)
