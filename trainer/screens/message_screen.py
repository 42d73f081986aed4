"""A message over the page: an error, the cautions; any of its keys goes on."""

from typing import ClassVar

from textual.binding import BindingType

from trainer.screens.over_screen import SCROLLING, OverScreen


class MessageScreen(OverScreen[None]):
    """Shows a title and a text until it is read."""

    BINDINGS: ClassVar[list[BindingType]] = [("enter,space,escape,q,pagedown", "dismiss", "Go on"), *SCROLLING]

    def __init__(self, title: str, text: str, *, error: bool = False) -> None:
        super().__init__(title, "Enter or Space: go on", classes="-error" if error else "")
        self._text = text

    def said(self, columns: int) -> str:
        """Return the text, which flows by itself."""
        return self._text
