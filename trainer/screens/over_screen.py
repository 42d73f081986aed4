"""A page over the page: a heading, what is said, and the keys that close it; what has no room is scrolled to."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.screen import ModalScreen, ScreenResultType

from trainer.screens.widgets.plain_text import PlainText

SCROLLING = (
    Binding("up", "scroll(-1)", "Scroll up", show=False),
    Binding("down", "scroll(1)", "Scroll down", show=False),
)
_AROUND = 8
"""Rows of a page over the page besides what is said and its heading: frame, padding, gaps, keys."""


class OverScreen(ModalScreen[ScreenResultType]):
    """As high as what it says, as far as the window lets it; heading and keys are always in sight."""

    def __init__(self, heading: str, go_on: str, *, classes: str = "") -> None:
        """Make a page with a heading and the words that name its keys."""
        super().__init__(classes=classes)
        self._heading = heading
        self._go_on = go_on

    def said(self, columns: int) -> str | Content:
        """Return what is said, for a page of so many columns."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        """Yield the parts."""
        with Vertical():
            yield PlainText(self._heading, id="heading")
            with VerticalScroll(id="said", can_focus=False):
                yield PlainText(classes="-flowing")
            yield PlainText(self._go_on, id="go_on")

    def on_resize(self, event: Resize) -> None:
        """Fit what is said into the window."""
        box = self.query_one(Vertical)
        columns = min(76, event.size.width * 96 // 100)
        inside = columns - 6  # frame and padding
        heading = -(-len(self._heading) // max(inside, 1))
        self.query_one("#said").styles.max_height = max(1, event.size.height - _AROUND - heading)
        box.styles.width = columns
        text = self.query_one("#said PlainText", PlainText)
        text.text = self.said(inside - 2)  # and the scroll bar
        text.refresh(layout=True)

    def action_scroll(self, by: int) -> None:
        """Scroll what is said by a line."""
        self.query_one("#said", VerticalScroll).scroll_relative(y=by, animate=False)
