"""Plain text, for what is read from near by."""

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget


class PlainText(Widget):
    """Lines of text that are taken as they are, without markup; repaints only when they change."""

    ALLOW_SELECT = False

    text: reactive[str | Content] = reactive[str | Content]("")

    def __init__(self, text: str | Content = "", *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self.set_reactive(PlainText.text, text)

    def render(self) -> Content:
        """Return the text."""
        return self.text if isinstance(self.text, Content) else Content(self.text)
