"""The page on which a routine comes to the shelf: the file of a sheet, or the pasted text of one.

A file stays where it is and must be readable as text. A pasted text is copied into the data folder before anything is
read of it; until then it stays on the page, and leaving the page asks first.
"""

import asyncio
from pathlib import Path
from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import Input, TextArea

from trainer.practice.shelf import Entry, Shelf
from trainer.problems import TrainerError
from trainer.screens import keys
from trainer.screens.base_app import BaseApp
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.path_line import PathLine
from trainer.screens.widgets.plain_text import PlainText

TITLE = "The routine was not added"


class AddingScreen(Screen[Entry | None]):
    """Dismissed with the new entry, or with None where nothing was added."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("adding")]
    app: BaseApp

    def __init__(self, shelf: Shelf) -> None:
        super().__init__()
        self.page: keys.Page = "adding"
        self._shelf = shelf

    def compose(self) -> ComposeResult:
        """Yield a line for a file and room for a text."""
        yield PlainText("Add a routine to the shelf", id="heading")
        yield PlainText("Type where the file of its sheet is (~ is your home folder):", classes="asked")
        yield PathLine(placeholder="~/sheets/my-dance.txt")
        yield PlainText("Or paste the text of its sheet here:", classes="asked")
        yield TextArea()
        yield KeyLine()

    def on_mount(self) -> None:
        """Begin with the file."""
        self.query_one(TextArea).cursor_blink = False
        self.query_one(PathLine).focus()

    def on_descendant_focus(self) -> None:
        """Show the keys of the part that is typed in."""
        part = "text" if self.query_one(TextArea).has_focus else "file"
        self.query_one(KeyLine).keys = keys.footer("adding", (part,))

    def on_path_line_text_pasted(self, event: PathLine.TextPasted) -> None:
        """Put a text into the room for texts, beside what is there."""
        event.stop()
        area = self.query_one(TextArea)
        area.insert(event.text)
        area.focus()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Add the file."""
        event.stop()
        self._add_file(event.value)

    def action_keep(self) -> None:
        """Keep the text and add it; with nothing pasted, add the file."""
        text = self.query_one(TextArea).text
        if text.strip():
            self._add_text(text)
        elif typed := self.query_one(PathLine).value:
            self._add_file(typed)
        else:
            self.app.tell(TrainerError(TITLE, "there is no text yet: paste one, or type where a file is."))

    @property
    def holds_text(self) -> bool:
        """Whether there is a text that was not added."""
        return self.is_mounted and bool(self.query_one(TextArea).text.strip())

    def action_leave(self) -> None:
        """Go back; what was pasted is not thrown away without a question."""
        if not self.holds_text:
            self.dismiss(None)
            return
        question = QuestionScreen("Leave without this text?", "The text on this page was not added. It will be lost.")
        self.app.push_screen(question, lambda yes: self._leave() if yes else None)

    def _leave(self) -> None:
        self.dismiss(None)

    @work(exclusive=True, group="adding")
    async def _add_file(self, typed: str) -> None:
        """Add a file that can be read; one that cannot stays typed here to be mended."""
        from trainer.sheet.opening import open_sheet

        with self.app.telling():
            path = path_of(typed)
            await asyncio.to_thread(open_sheet, path)
            self.dismiss(self._shelf.entry_of(path))

    def _add_text(self, text: str) -> None:
        """Copy the text and add the copy; the shelf reads it."""
        with self.app.telling():
            self.dismiss(self._shelf.entry_of(self._shelf.keep_text(text)))


def path_of(typed: str) -> Path:
    """Return the path that a dancer typed or dropped: blanks and quotes round it go, ~ is the home folder.

    Raises TrainerError for nothing, or for the home folder of somebody who has none.
    """
    name = typed.strip()
    if len(name) > 1 and name[0] == name[-1] and name[0] in "'\"":
        name = name[1:-1]
    if not name:
        raise TrainerError(TITLE, "type where the file is, or paste a text below.")
    try:
        return Path(name).expanduser()
    except RuntimeError as error:
        raise TrainerError(TITLE, f"the home folder of {name} is not known.") from error
