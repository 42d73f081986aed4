"""Editing the text of a sheet; it stays on this page until it is written, and leaving asks first."""

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import TextArea

from trainer.practice.editing import Draft, changed_meanwhile, keep_copy, write
from trainer.problems import Problem, TrainerError
from trainer.screens import keys
from trainer.screens.base_app import BaseApp
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText


class EditScreen(Screen[Path | None]):
    """Dismissed with the file that was written, or with None."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("editing")]
    app: BaseApp

    def __init__(self, draft: Draft, line: int, problems: Sequence[Problem]) -> None:
        """Edit a draft from a line on (0: the first); `problems` are those found in it."""
        super().__init__()
        self.page: keys.Page = "editing"
        self._draft = draft
        self._line = max(line - 1, 0)
        self._problems = problems
        self._before = ""

    def compose(self) -> ComposeResult:
        """Yield the text, and what is wrong in the line of the cursor."""
        where = "kept as a copy of your own" if self._draft.bundled else str(self._draft.path)
        yield PlainText(f"Editing: {where}", id="heading")
        yield TextArea(self._draft.text, show_line_numbers=True)
        yield PlainText(id="about")
        yield KeyLine()

    def on_mount(self) -> None:
        """Begin at the line that was shown."""
        area = self.query_one(TextArea)
        area.cursor_blink = False
        area.move_cursor((min(self._line, area.document.line_count - 1), 0), center=True)
        area.focus()
        self._before = area.text
        self.query_one(KeyLine).keys = keys.footer("editing", ())

    def on_text_area_selection_changed(self) -> None:
        """Say what was found in the line of the cursor, as it was read last."""
        line = self.query_one(TextArea).cursor_location[0] + 1
        found = [f"{problem.message} {problem.hint}".strip() for problem in self._problems if problem.line == line]
        self.query_one("#about", PlainText).text = "\n".join(found)

    def action_keep(self) -> None:
        """Write the text and go back to read it; an unchanged one is not written."""
        text = self.query_one(TextArea).text
        if text == self._before:
            self.dismiss(None)
        elif self._draft.bundled:
            self._keep_copy()
        else:
            with self.app.telling():
                if changed_meanwhile(self._draft):
                    words = f"{self._draft.path} was changed elsewhere meanwhile. What it holds now is kept beside it."
                    self.app.push_screen(QuestionScreen("Write your text all the same?", words), self._answered)
                else:
                    self._write()

    @property
    def holds_text(self) -> bool:
        """Whether there are changes that are not written."""
        return self.is_mounted and self.query_one(TextArea).text != self._before

    def action_leave(self) -> None:
        """Go back; changes are not thrown away without a question."""
        if not self.holds_text:
            self.dismiss(None)
            return
        question = QuestionScreen("Leave without your changes?", "They are not written yet, and will be lost.")
        self.app.push_screen(question, lambda yes: self._leave() if yes else None)

    def _leave(self) -> None:
        self.dismiss(None)

    def _answered(self, yes: bool | None) -> None:
        if yes:
            self._write()

    def _write(self) -> None:
        """Write the text; where its file does not take it, offer to keep a copy."""
        try:
            self.dismiss(write(self._draft, self.query_one(TextArea).text))
        except TrainerError as error:
            words = f"{error.message} Your text can be kept as a copy of your own."
            question = QuestionScreen(f"{error.title}. Keep a copy?", words)
            self.app.push_screen(question, lambda yes: self._keep_copy() if yes else None)

    def _keep_copy(self) -> None:
        with self.app.telling():
            if self.app.shelf is not None:
                self.dismiss(keep_copy(self._draft, self.query_one(TextArea).text, self.app.shelf))
