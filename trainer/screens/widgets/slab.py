"""A solid with a word cut out: what no dancer overlooks in the last counts before a departure."""

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from trainer.screens import blocks
from trainer.screens.widgets.drawn import Drawn


class Slab(Drawn):
    """A word cut out of a solid; hidden while it has none."""

    word: reactive[str] = reactive("")

    def watch_word(self) -> None:
        """Show or hide with the word."""
        self.display = bool(self.word)

    def drawing(self) -> list[Strip]:
        """Return the solid."""
        columns, rows = self.size
        if not self.word or columns < 8:
            return []
        lines = blocks.slab(self.word, rows=rows, columns=columns, below=self.below)
        return [Strip([Segment(line, self.rich_style)]) for line in lines]
