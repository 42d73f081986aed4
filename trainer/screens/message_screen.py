"""A message over the page: an error, the cautions; any of its keys goes on."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen

from trainer.screens.widgets.plain_text import PlainText


class MessageScreen(ModalScreen[None]):
    """Shows a title and a text until it is read."""

    BINDINGS: ClassVar[list[BindingType]] = [("enter,space,escape,q,pagedown", "dismiss", "Go on")]

    def __init__(self, title: str, text: str, *, error: bool = False) -> None:
        super().__init__(classes="-error" if error else "")
        self._heading = title
        self._text = text

    def compose(self) -> ComposeResult:
        """Yield the message."""
        with Vertical():
            yield PlainText(self._heading, id="heading")
            with VerticalScroll(id="said", can_focus=False):
                yield PlainText(self._text, classes="-flowing")
            yield PlainText("Enter or Space: go on", id="go_on")
