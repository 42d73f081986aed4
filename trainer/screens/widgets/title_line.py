"""One line with a title at the left and what holds now at the right."""

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget


class TitleLine(Widget):
    """The right end always shows whole; the title gives way."""

    ALLOW_SELECT = False

    left: reactive[str] = reactive("")
    right: reactive[str] = reactive("")

    def render(self) -> Content:
        """Return the line in the present width."""
        columns = self.size.width - 2
        room = max(1, columns - len(self.right) - 2)
        title = self.left if len(self.left) <= room else self.left[: room - 1] + "…"
        gap = " " * max(2, columns - len(title) - len(self.right))
        return Content.assemble(" ", (title, "bold"), (gap + self.right, "$secondary"))
