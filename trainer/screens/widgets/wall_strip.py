"""All walls in a row, small: number, start facing, departures; a click goes there."""

from dataclasses import dataclass

from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from trainer.dance.facing import clock
from trainer.practice.roadmap import WallRow, mark_words

_HEAD = 7  # columns of the words at the left
_PART = 3  # columns of the name of a part at most
_WIDE = 8  # columns of a wall at least: "HOLD 28" and a blank


class WallStrip(Widget):
    """Three lines or more; where not all walls fit, those around the present one."""

    ALLOW_SELECT = False

    rows: reactive[tuple[WallRow, ...]] = reactive[tuple[WallRow, ...]](())
    current: reactive[int] = reactive(-1)
    """Which of the rows is stood on."""

    @dataclass
    class Pointed(Message):
        """A wall was clicked."""

        row: WallRow

    def render(self) -> Content:
        """Return the walls in the present size."""
        return walls_content(self.rows, self.current, self.size.width, self.size.height)

    def on_click(self, event: Click) -> None:
        """Tell which wall was clicked."""
        offset = event.get_content_offset(self)
        if offset is None or offset.x < _HEAD:
            return
        first, last, wide = window(len(self.rows), self.current, self.size.width)
        place = first + (offset.x - _HEAD) // wide
        if place < last:
            self.post_message(self.Pointed(self.rows[place]))


def window(size: int, current: int, columns: int) -> tuple[int, int, int]:
    """Return which walls are shown, from and to before, and how many columns each takes."""
    room = max(1, (columns - _HEAD) // _WIDE)
    shown = max(1, min(size, room))
    first = max(0, min(current - shown // 2, size - shown))
    return first, first + shown, max(_WIDE, min(12, (columns - _HEAD) // shown))


def walls_content(rows: tuple[WallRow, ...], current: int, columns: int, lines: int) -> Content:
    """Return the walls as so many lines: their numbers, their start facings, their departures below each other."""
    first, last, wide = window(len(rows), current, columns)
    room = max(1, lines - 2)
    heads = ("wall", "from", "then", *[""] * (room - 1))
    told = [[Content.styled(head.ljust(_HEAD), "$secondary")] for head in heads]
    for place in range(first, last):
        row = rows[place]
        more = (place == first and first > 0) or (place == last - 1 and last < len(rows))
        now = place == current
        part = row.part if len(row.part) < _PART else f"{row.part[: _PART - 1]}…"
        name = f"[{row.number}{part}]" if now else f"{row.number}{part}" + ("…" if more else "")
        told[0].append(_centred(name, wide, "bold reverse $warning" if now else "bold"))
        told[1].append(_centred(clock(row.facing), wide, "bold $primary" if now else "$primary"))
        for line, words in enumerate(_departures(row, room)):
            told[2 + line].append(_centred(words, wide, "$error" if words != "·" else "$secondary"))
    return Content("\n").join(Content("").join(line) for line in told)


def _departures(row: WallRow, room: int) -> list[str]:
    """Return the departures of a wall, a line each; where there are more than lines, the last line says so."""
    words = [mark_words(mark) for mark in row.marks] or ["·"]
    if len(words) > room:
        words[room - 1] += "+"
    return (words + [""] * room)[:room]


def _centred(text: str, wide: int, colour: str) -> Content:
    left = (wide - len(text) - 2) // 2
    if left < 0:
        return Content.styled(text[: wide - 1].ljust(wide), colour)
    return Content.assemble(" " * left, (f" {text} ", colour), " " * (wide - len(text) - 2 - left))
