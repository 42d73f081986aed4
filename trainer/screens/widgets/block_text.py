"""A text in block letters that fill the widget's height."""

from typing import Literal

from rich.segment import Segment
from textual.reactive import reactive
from textual.strip import Strip

from trainer.screens import blocks
from trainer.screens.widgets.drawn import Drawn

Side = Literal["left", "middle", "right"]


class BlockText(Drawn):
    """Block letters, as wide as the room allows; repaints only when its text, its side or its size changes."""

    text: reactive[str] = reactive("")
    side: reactive[Side] = reactive[Side]("left")
    """Where the text stands when it does not fill the width."""

    def __init__(self, *, side: Side = "left", id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self.set_reactive(BlockText.side, side)

    def lines(self) -> list[str]:
        """Return what is drawn, as lines of the widget's whole width."""
        columns, rows = self.size
        if not self.text or not columns or not rows:
            return [" " * columns] * rows
        height = 2 * rows - self.inset - self.below
        drawn = blocks.render(self.text, rows=rows, height=height, top=self.inset, columns=columns)
        spare = columns - len(drawn[0])
        left = {"left": 0, "middle": spare // 2, "right": spare}[self.side]
        return [" " * left + line + " " * (spare - left) for line in drawn]

    def drawing(self) -> list[Strip]:
        """Return the letters."""
        style = self.rich_style
        return [Strip([Segment(line, style)]) for line in self.lines()]
