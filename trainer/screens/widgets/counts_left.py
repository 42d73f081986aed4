"""The last counts before a departure as squares that go out, so that no second digit competes with the count."""

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from trainer.practice.floor import URGENT
from trainer.screens import marks
from trainer.screens.widgets.drawn import Drawn


class CountsLeft(Drawn):
    """Four squares, solid for a count still to go, hollow for one that is gone; hidden while `left` is None."""

    left: reactive[int | None] = reactive[int | None](None)

    def watch_left(self) -> None:
        """Show or hide with the number."""
        self.display = self.left is not None

    def drawing(self) -> list[Strip]:
        """Return the squares, half a row away from the slab above."""
        columns, rows = self.size
        if columns < 4 * URGENT:
            return []
        lines = marks.counts_left(self.left or 0, URGENT, columns=columns, rows=rows, inset=max(self.inset, 1))
        return [Strip([Segment(line, self.rich_style)]).adjust_cell_length(columns, self.rich_style) for line in lines]
