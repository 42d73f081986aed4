"""Every key of the page below, with what it is for."""

from textwrap import wrap
from typing import ClassVar

from textual.binding import BindingType
from textual.content import Content

from trainer.screens.keys import Page, help_lines
from trainer.screens.over_screen import SCROLLING, OverScreen

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


class HelpScreen(OverScreen[None]):
    """The keys of one page, made from the registry."""

    BINDINGS: ClassVar[list[BindingType]] = [("escape,enter,space,q,question_mark,f1", "dismiss", "Back"), *SCROLLING]

    def __init__(self, page: Page) -> None:
        super().__init__(_TITLES[page], "Escape: back   Up/Down: scroll   Ctrl+P: all commands")
        self._page: Page = page

    def said(self, columns: int) -> Content:
        """Return the keys, each with its sentence beside it."""
        lines = help_lines(self._page)
        wide = max(len(key) for key, _ in lines) + 3
        rows = []
        for key, words in lines:
            first, *more = wrap(words, max(columns - wide, 20))
            rows.append(Content.assemble((key.ljust(wide), "bold $warning"), first))
            rows += [Content(" " * wide + line) for line in more]
        return Content("\n").join(rows)
