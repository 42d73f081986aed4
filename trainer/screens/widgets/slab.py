"""A solid with a word cut out: what no dancer overlooks in the last counts before a departure."""

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from trainer.screens import blocks


class Slab(Widget):
    """A word cut out of a solid; hidden while it has none."""

    ALLOW_SELECT = False

    word: reactive[str] = reactive("")

    def watch_word(self) -> None:
        """Show or hide with the word."""
        self.display = bool(self.word)

    def render_line(self, y: int) -> Strip:
        """Return one row of the solid."""
        columns, rows = self.size
        if not self.word or columns < 8 or y >= rows:
            return Strip.blank(columns)
        return Strip([Segment(blocks.slab(self.word, rows=rows, columns=columns)[y], self.rich_style)])
