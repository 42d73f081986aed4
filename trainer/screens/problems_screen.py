"""The sheet itself: its text with what is wrong in it, and unsure readings, at their lines; to edit and read again.

A key dances what could be read. The page is dismissed with the sheet as it was read last.
"""

import asyncio
import os
import shlex
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen

from trainer.practice.editing import draft_of
from trainer.problems import loud
from trainer.screens import keys
from trainer.screens.base_app import BaseApp, Read
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.sheet_text import SheetText
from trainer.sheet.opening import Sheet


class ProblemsScreen(Screen[Read]):
    """Shows a sheet; dismissed with how it was left."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("problems")]
    app: BaseApp

    def __init__(self, sheet: Sheet, line: int = 0, *, asking: bool = False) -> None:
        """Begin at a line of the sheet, 0: at the first finding; `asking`: whether to dance it is still open."""
        super().__init__()
        self.page: keys.Page = "problems"
        self.sheet = sheet
        self._asking = asking
        worst = (*loud(sheet.problems), *sheet.problems)
        self._line = line or next((problem.line for problem in worst if problem.line), 0)

    def compose(self) -> ComposeResult:
        """Yield the text with its findings."""
        yield PlainText(heading(self.sheet), id="heading")
        yield SheetText(self.sheet, self._line)
        yield KeyLine()

    def on_mount(self) -> None:
        """Show the keys and take the arrows."""
        self.query_one(SheetText).focus()
        self._tell()

    def action_finding(self, by: int) -> None:
        """Go to the next finding or the one before."""
        self.query_one(SheetText).go_to_finding(by)

    def action_edit(self) -> None:
        """Edit the text on a page of its own."""
        from trainer.screens.edit_screen import EditScreen

        with self.app.telling():
            draft = draft_of(self.sheet.path, self.app.shelf)
            line = self.query_one(SheetText).line
            self.app.push_screen(EditScreen(draft, line, self.sheet.problems), self._edited)

    def action_own_editor(self) -> None:
        """Edit the text in the editor that the dancer has named to the system."""
        from trainer.screens.own_editor import edited

        if command := editor():
            with self.app.telling():
                self._edited(edited(self.app, command, draft_of(self.sheet.path, self.app.shelf)))

    def action_again(self) -> None:
        """Read the sheet again, which may have been changed elsewhere."""
        self._read(self.sheet.path)

    def action_dance(self) -> None:
        """Go to the floor with what could be read."""
        self.dismiss(Read(self.sheet, dance=True))

    def action_leave(self) -> None:
        """Go back."""
        self.dismiss(Read(self.sheet, dance=False))

    def _edited(self, path: Path | None) -> None:
        """Read what was written."""
        if path is not None:
            self._read(path)

    @work(exclusive=True, group="sheet")
    async def _read(self, path: Path) -> None:
        """Read a sheet in place of the one shown, and stay at the same line."""
        from trainer.sheet.opening import open_sheet

        with self.app.telling():
            self.sheet = await asyncio.to_thread(open_sheet, path)
            self.query_one(SheetText).show(self.sheet)
            self._tell()

    def _tell(self) -> None:
        self.query_one("#heading", PlainText).text = heading(self.sheet)
        states = {"asking": self._asking, "editor": bool(editor()), "problems": bool(self.sheet.problems)}
        self.query_one(KeyLine).keys = keys.footer("problems", [state for state, holds in states.items() if holds])


def editor() -> list[str]:
    """Return the command of the dancer's own editor; empty where none is named."""
    named = os.environ.get("VISUAL") or os.environ.get("EDITOR") or ""
    try:
        return shlex.split(named, posix=os.name == "posix")
    except ValueError:  # a quote that is not closed
        return []


def heading(sheet: Sheet) -> str:
    """Return how many findings of which level a sheet has, and which sheet."""
    title = sheet.routine.title or sheet.path.name
    count = len(loud(sheet.problems))
    notes = len(sheet.problems) - count
    found = f"{count} finding{'s' if count != 1 else ''}" if count else "Nothing is wrong"
    return f"{title}: {found}" + (f", {notes} note{'s' if notes != 1 else ''}" if notes else "")
