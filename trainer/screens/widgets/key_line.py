"""The footer: what each key does now, from the one registry."""

from collections.abc import Sequence

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

GAP = "  "

Keys = Sequence[tuple[str, str]]


class KeyLine(Widget):
    """A line or two of keys, the most important first; what does not fit is left out whole, but never the last."""

    ALLOW_SELECT = False

    keys: reactive[tuple[tuple[str, str], ...]] = reactive[tuple[tuple[str, str], ...]](())

    def render(self) -> Content:
        """Return the keys that fit."""
        lines = fitting(self.keys, self.size.width - 2, self.size.height)
        return Content("\n").join(Content(" ").append(_line(line)) for line in lines)


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


def _line(keys: Keys) -> Content:
    return Content(GAP).join(Content.assemble((key, "bold"), f" {words}") for key, words in keys)
