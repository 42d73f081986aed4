"""The text of a sheet with its findings at their lines, to scroll through and to go from finding to finding."""

from dataclasses import dataclass
from itertools import pairwise
from typing import ClassVar

from rich.segment import Segment
from textual.binding import Binding, BindingType
from textual.events import Click, Resize
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from trainer.screens.sheet_rows import Row, margin_of, sheet_rows
from trainer.sheet.opening import Sheet


class SheetText(ScrollView):
    """Rows of a sheet; only those in sight are made into a picture."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"sheet--{name}" for name in ("text", "number", "chosen", "error", "warning", "note", "hint")
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,k", "scroll_up", "Up", show=False),
        Binding("down,j", "scroll_down", "Down", show=False),
        Binding("pageup", "page_up", "Page up", show=False),
        Binding("pagedown", "page_down", "Page down", show=False),
        Binding("home", "scroll_home", "Home", show=False),
        Binding("end", "scroll_end", "End", show=False),
    ]

    line: reactive[int] = reactive(0)
    """The line that is chosen, from 1; 0: none."""

    @dataclass
    class Pointed(Message):
        """A line was clicked."""

        line: int

    def __init__(self, sheet: Sheet, line: int = 0, *, id: str | None = None) -> None:  # noqa: A002
        """Show a sheet, beginning at a line."""
        super().__init__(id=id)
        self._sheet = sheet
        self._rows: tuple[Row, ...] = ()
        self._margin = 0
        self.set_reactive(SheetText.line, line)

    def show(self, sheet: Sheet) -> None:
        """Show a sheet that was read anew, at the same line."""
        self._sheet = sheet
        self._lay_out(self.size.width)
        self.line = min(self.line, len(sheet.text.splitlines()))
        self.refresh()
        self._show_line()

    def on_resize(self, event: Resize) -> None:
        """Break the lines anew."""
        self._lay_out(event.size.width)
        self.call_after_refresh(self._show_line)  # once it is known how far it can be scrolled

    def watch_line(self) -> None:
        """Bring the line chosen into sight."""
        if self.is_mounted:
            self._show_line()

    def go_to_finding(self, by: int) -> None:
        """Choose the next line with a finding, or the one before (-1); round at the ends."""
        lines = sorted({row.line for row in self._rows if row.problem is not None})
        if not lines:
            return
        after = [line for line in lines if line > self.line]
        before = [line for line in lines if line < self.line]
        self.line = (after or lines)[0] if by > 0 else (before or lines)[-1]

    def on_click(self, event: Click) -> None:
        """Choose the line that was clicked."""
        offset = event.get_content_offset(self)
        if offset is not None and 0 <= offset.y + self.scroll_offset.y < len(self._rows):
            self.line = self._rows[offset.y + self.scroll_offset.y].line
            self.post_message(self.Pointed(self.line))

    def render_line(self, y: int) -> Strip:
        """Return one row."""
        place, width = y + self.scroll_offset.y, self.size.width
        if place >= len(self._rows):
            return Strip.blank(width, self.rich_style)
        row = self._rows[place]
        chosen = row.line == self.line and row.kind == "text"
        mark = ">" if chosen and row.number else " "
        number = f"{mark}{row.number:>{self._margin - 2}} "
        style = self.get_component_rich_style(f"sheet--{_style(row, chosen=chosen)}")
        segments = [Segment(number, self.get_component_rich_style("sheet--number")), Segment(row.text, style)]
        return Strip(segments).adjust_cell_length(width, self.rich_style)

    def _lay_out(self, width: int) -> None:
        lines = self._sheet.text.splitlines()
        self._margin = margin_of(lines)
        self._rows = sheet_rows(lines, self._sheet.problems, width - 1)
        self.virtual_size = Size(width, len(self._rows))

    def _show_line(self) -> None:
        """Bring the rows of the line with its findings into sight, with some rows above and below them."""
        places = [place for place, row in enumerate(self._rows) if row.line == self.line]
        if places:
            last = next((one for one, after in pairwise(places) if after != one + 1), places[-1])
            above = max(0, places[0] - self.size.height // 4)
            rows = min(last + 1 - above + self.size.height // 4, self.size.height)
            self.scroll_to_region(Region(0, above, 1, rows), animate=False, immediate=True, force=True)


def _style(row: Row, *, chosen: bool) -> str:
    if row.kind == "text":
        return "chosen" if chosen else "text"
    return "hint" if row.kind == "hint" or row.problem is None else row.problem.level
