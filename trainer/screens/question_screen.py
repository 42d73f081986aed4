"""A question over the page, before something is lost or let go; without a clear yes the answer is no."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen

from trainer.screens.widgets.plain_text import PlainText


class QuestionScreen(ModalScreen[bool]):
    """Dismissed with whether the answer was yes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        ("y", "dismiss(True)", "Yes"),
        ("n,escape,q", "dismiss(False)", "No"),
    ]

    def __init__(self, title: str, text: str) -> None:
        super().__init__()
        self._heading = title
        self._text = text

    def compose(self) -> ComposeResult:
        """Yield the question."""
        with Vertical():
            yield PlainText(self._heading, id="heading")
            with VerticalScroll(id="said", can_focus=False):
                yield PlainText(self._text, classes="-flowing")
            yield PlainText("y: yes   n or Escape: no", id="go_on")
