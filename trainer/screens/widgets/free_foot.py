"""The foot to move next, at its own edge of the screen: its letter over a block."""

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from trainer.practice.floor import FootView
from trainer.screens import marks
from trainer.screens.widgets.drawn import Drawn
from trainer.terms import Foot


class FreeFoot(Drawn):
    """One edge: drawn when its foot is the one to move; hollow while that foot waits (a hold)."""

    shown: reactive[FootView | None] = reactive[FootView | None](None)

    def __init__(self, foot: Foot, *, id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id)
        self.foot = foot

    def lines(self) -> list[str]:
        """Return what is drawn: the letter, a gap, the block; nothing while the other foot is the one to move."""
        columns, rows = self.size
        if self.shown is None or self.shown.side not in (self.foot, Foot.BOTH) or columns < 3 or rows < 5:
            return [" " * columns] * rows
        return marks.foot(self.foot, columns=columns, rows=rows, waiting=not self.shown.acts)

    def drawing(self) -> list[Strip]:
        """Return the edge."""
        style = self.rich_style
        return [Strip([Segment(line, style)]) for line in self.lines()]
