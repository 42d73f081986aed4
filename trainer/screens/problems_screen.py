"""What is wrong in a sheet: each finding with its line, a caret and a hint; a key dances what could be read."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.screen import Screen

from trainer.problems import Problem, loud
from trainer.screens import keys
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.sheet.opening import Sheet

_COLOURS = {"error": "bold $error", "warning": "bold $accent", "note": "bold $secondary"}
_INDENT = 4


class ProblemsScreen(Screen[bool]):
    """Dismissed with whether to dance the sheet all the same."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("problems")]

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self.sheet = sheet
        self.page: keys.Page = "problems"

    def compose(self) -> ComposeResult:
        """Yield the findings in the order of the sheet."""
        yield PlainText(heading(self.sheet), id="heading")
        with VerticalScroll(id="findings"):
            for _ in self.sheet.problems:
                yield PlainText(classes="finding")
        yield KeyLine()

    def on_mount(self) -> None:
        """Show the keys and take the arrows."""
        self.query_one(KeyLine).keys = keys.footer("problems", ())
        self.query_one("#findings").focus()

    def on_resize(self, event: Resize) -> None:
        """Cut the lines of the sheet to the new width."""
        lines = self.sheet.text.splitlines()
        for part, problem in zip(self.query(".finding").results(PlainText), self.sheet.problems, strict=True):
            part.text = finding(problem, lines, event.size.width - 4)
            part.refresh(layout=True)

    def action_dance(self) -> None:
        """Go to the floor with what could be read."""
        self.dismiss(True)

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(False)


def heading(sheet: Sheet) -> str:
    """Return how many findings of which level a sheet has, and which sheet."""
    title = sheet.routine.title or sheet.path.name
    count = len(loud(sheet.problems))
    notes = len(sheet.problems) - count
    found = f"{count} finding{'s' if count != 1 else ''}" if count else "Nothing is wrong"
    return f"{title}: {found}" + (f", {notes} note{'s' if notes != 1 else ''}" if notes else "")


def finding(problem: Problem, lines: list[str], columns: int) -> Content:
    """Return one finding for a page of so many columns."""
    where = f"line {problem.line}, " if problem.line else ""
    parts = [Content.assemble((problem.level, _COLOURS[problem.level]), f"  {where}{problem.kind}: {problem.message}")]
    if 0 < problem.line <= len(lines):
        text, place = excerpt(lines[problem.line - 1], problem.column, columns - _INDENT)
        parts.append(Content.styled(" " * _INDENT + text, "$secondary"))
        parts.append(Content.styled(" " * (_INDENT + place) + "^", _COLOURS[problem.level]))
    if problem.hint:
        parts.append(Content(" " * _INDENT + problem.hint))
    return Content("\n").join(parts)


def excerpt(line: str, column: int, columns: int) -> tuple[str, int]:
    """Return as much of a line as fits around a column (from 1), and where in it that column is (from 0)."""
    text, place = line.replace("\t", " ").rstrip(), max(column - 1, 0)
    if len(text) <= columns:
        return text, place
    first = max(0, min(place - columns // 2, len(text) - columns))
    cut = text[first : first + columns]
    cut = "…" + cut[1:] if first else cut
    cut = cut[:-1] + "…" if first + columns < len(text) else cut
    return cut, place - first
