"""The line for the name of a file; a text of several lines that is pasted here is no name and is handed on."""

from dataclasses import dataclass

from textual.events import Paste
from textual.message import Message
from textual.widgets import Input


class PathLine(Input):
    """A line of text that keeps only what can be a file's name."""

    @dataclass
    class TextPasted(Message):
        """Several lines were pasted."""

        text: str

    def on_mount(self) -> None:
        """Keep the cursor from blinking: nothing moves on a page that is not danced."""
        self.cursor_blink = False

    def on_paste(self, event: Paste) -> None:
        """Hand on what has several lines, of which a line would keep only the first."""
        if len(event.text.strip().splitlines()) > 1:
            event.prevent_default()
            event.stop()
            self.post_message(self.TextPasted(event.text))
