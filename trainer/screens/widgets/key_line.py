"""The footer: what each key does now, from the one registry; a click on a key does the same."""

from collections.abc import Sequence

from textual.content import Content
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

from trainer.screens.keys import Page, clicks

GAP = "  "

Keys = Sequence[tuple[str, str]]


class KeyLine(Widget):
    """A line or two of keys, the most important first; what does not fit is left out whole, but never the last."""

    ALLOW_SELECT = False

    keys: reactive[tuple[tuple[str, str], ...]] = reactive[tuple[tuple[str, str], ...]](())

    def render(self) -> Content:
        """Return the keys that fit; a click on one does what it does."""
        lines = fitting(self.keys, self.size.width - 2, self.size.height)
        page: Page | None = getattr(self.screen, "page", None)
        return Content("\n").join(Content(" ").append(_line(line, page)) for line in lines)


def fitting(keys: Keys, columns: int, rows: int) -> list[list[tuple[str, str]]]:
    """Return the keys that fit into so many rows and columns, row by row; the last one always does."""
    kept = list(keys)
    while len(lines := _broken(kept, columns)) > rows and len(kept) > 1:
        del kept[-2]
    return lines


def _broken(keys: Keys, columns: int) -> list[list[tuple[str, str]]]:
    lines: list[list[tuple[str, str]]] = []
    room = 0
    for key, words in keys:
        need = len(key) + 1 + len(words)
        if not lines or need + len(GAP) > room:
            lines.append([])
            room = columns + len(GAP)
        lines[-1].append((key, words))
        room -= need + len(GAP)
    return lines


def _line(keys: Keys, page: Page | None) -> Content:
    return Content(GAP).join(_key(shown, words, page) for shown, words in keys)


def _key(shown: str, words: str, page: Page | None) -> Content:
    """Return a key with its words, to be clicked; of two keys shown as one each by itself, without the words."""
    parts = clicks(page, shown) if page else ((shown, ""),)
    content = Content("").join(_clicked(text, action, bold=True) for text, action in parts)
    return content + _clicked(f" {words}", parts[0][1] if len(parts) == 1 else "", bold=False)


def _clicked(text: str, action: str, *, bold: bool) -> Content:
    style = Style(bold=True) if bold else Style()
    if action:
        style += Style.from_meta({"@click": action if action.startswith("app.") else f"screen.{action}"})
    return Content.styled(text, style)
