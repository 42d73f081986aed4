"""A straight arrow to the side a turn goes; R and L are feet, so a turn is never a letter."""

from fractions import Fraction

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from trainer.screens import dial
from trainer.screens.widgets.drawn import Drawn


class TurnArrow(Drawn):
    """An arrow right or left by the sign of the turn; blank for none."""

    turn: reactive[Fraction] = reactive(Fraction(0))

    def drawing(self) -> list[Strip]:
        """Return the arrow."""
        columns, rows = self.size
        if not self.turn or columns < 2:
            return []
        lines = dial.turn_arrow(columns, rows, turn=self.turn, inset=self.inset, below=self.below)
        return [Strip([Segment(line, self.rich_style)]) for line in lines]
