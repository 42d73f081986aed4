"""Every key of the page below, with what it is for."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen

from trainer.screens.keys import Page, help_lines
from trainer.screens.widgets.plain_text import PlainText

_TITLES: dict[Page, str] = {
    "shelf": "Keys of the shelf",
    "adding": "Keys for adding a routine",
    "floor": "Keys of the floor",
    "map": "Keys of the map",
    "tempo": "Keys of the tempo",
    "look_up": "Keys for looking a step up",
    "problems": "Keys of the sheet and its findings",
    "editing": "Keys for editing a sheet",
    "settings": "Keys of the settings",
}


class HelpScreen(ModalScreen[None]):
    """The keys of one page, made from the registry."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape,enter,space,q,question_mark,f1", "dismiss", "Back")]

    def __init__(self, page: Page) -> None:
        super().__init__()
        self._page: Page = page

    def compose(self) -> ComposeResult:
        """Yield the keys."""
        lines = help_lines(self._page)
        wide = max(len(key) for key, _ in lines) + 3
        rows = (Content.assemble((key.ljust(wide), "bold $warning"), words) for key, words in lines)
        with Vertical():
            yield PlainText(_TITLES[self._page], id="heading")
            with VerticalScroll(id="said", can_focus=False):
                yield PlainText(Content("\n").join(rows), classes="-flowing")
            yield PlainText("Escape: back   Ctrl+P: all commands", id="go_on")
