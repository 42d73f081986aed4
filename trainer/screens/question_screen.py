"""A question over the page, before something is lost or let go; without a clear yes the answer is no."""

from typing import ClassVar

from textual.binding import BindingType

from trainer.screens.over_screen import SCROLLING, OverScreen


class QuestionScreen(OverScreen[bool]):
    """Dismissed with whether the answer was yes."""

    BINDINGS: ClassVar[list[BindingType]] = [
        ("y", "dismiss(True)", "Yes"),
        ("n,escape,q", "dismiss(False)", "No"),
        *SCROLLING,
    ]

    def __init__(self, title: str, text: str) -> None:
        super().__init__(title, "y: yes   n or Escape: no")
        self._text = text

    def said(self, columns: int) -> str:
        """Return the text, which flows by itself."""
        return self._text
