"""The line in which a dancer types what to look for; the arrows go on choosing in the list below it."""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widgets import Input


class SearchLine(Input):
    """A line of text without a frame; its screen has an action choose(step)."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "screen.choose(-1)", "Choose the routine above", show=False),
        Binding("down", "screen.choose(1)", "Choose the routine below", show=False),
    ]

    def on_mount(self) -> None:
        """Keep the cursor from blinking: nothing moves on a page that is not danced."""
        self.cursor_blink = False
