"""The line in which a tempo is typed; Space in it is a tap."""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widgets import Input


class TempoLine(Input):
    """A line of text without a frame; its screen has an action tap."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("space", "screen.tap", "Tap", show=False, priority=True)]

    def on_mount(self) -> None:
        """Keep the cursor from blinking: a tapped tempo is the only thing that moves here."""
        self.cursor_blink = False
