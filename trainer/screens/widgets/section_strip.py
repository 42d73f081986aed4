"""The counts of the present section in a row: count, foot, step, facing; a click goes to a count."""

from dataclasses import dataclass

from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from trainer.dance.facing import clock
from trainer.practice.strip import Span, StripView

_HEAD = 7  # columns of the words at the left
_NARROW, _WIDE = 7, 10  # columns of a cell, so that "10:30" stands apart


class SectionStrip(Widget):
    """Four lines; where not all counts fit, those around the present one."""

    ALLOW_SELECT = False

    shown: reactive[StripView | None] = reactive[StripView | None](None)

    @dataclass
    class Pointed(Message):
        """A count was clicked."""

        by: int
        """How many footfalls it lies after the present one."""

    def render(self) -> Content:
        """Return the strip in the present width."""
        return strip_content(self.shown, self.size.width) if self.shown else Content("")

    def on_click(self, event: Click) -> None:
        """Tell which count was clicked."""
        offset = event.get_content_offset(self)
        if offset is None or self.shown is None or offset.x < _HEAD:
            return
        wide = _cell(self.shown, self.size.width - _HEAD)
        first, last = _window(self.shown, max(1, (self.size.width - _HEAD) // wide))
        place = first + (offset.x - _HEAD) // wide
        if place < last:
            self.post_message(self.Pointed(place - self.shown.current))


def strip_content(view: StripView, columns: int) -> Content:
    """Return the strip as lines of so many columns."""
    room = columns - _HEAD
    wide = _cell(view, room)
    first, last = _window(view, max(1, room // wide))
    step = view.step
    counts, feet, steps, faces = (
        [Content.styled(name.ljust(_HEAD), "$secondary")] for name in ("count", "foot", "step", "faces")
    )
    for place in range(first, last):
        cell = view.cells[place]
        now = place == view.current
        colour = "bold $warning" if step and step.first <= place <= step.last else "$foreground"
        counts.append(_centred(cell.label, wide, "bold reverse $warning" if now else colour))
        feet.append(_centred(cell.foot or "?", wide, colour))
        same = place > first and cell.facing == view.cells[place - 1].facing and not now
        faces.append(_centred("·" if same else clock(cell.facing), wide, "$accent" if cell.turns else "$primary"))
    for span in view.spans:
        if span.last >= first and span.first < last:
            colour = "bold $warning" if span is step else "$foreground"
            steps.append(Content.styled(_bracket(span, first, last, wide), colour))
    return Content("\n").join(Content("").join(line) for line in (counts, feet, steps, faces))


def _cell(view: StripView, room: int) -> int:
    """Return the columns of a cell in so much room."""
    return max(_NARROW, min(_WIDE, room // max(len(view.cells), 1)))


def _centred(text: str, wide: int, colour: str) -> Content:
    """Return a text in the middle of its cell, coloured with a blank on either side."""
    left = (wide - len(text) - 2) // 2
    right = wide - len(text) - 2 - left
    return Content.assemble(" " * left, (f" {text} ", colour), " " * right)


def _window(view: StripView, room: int) -> tuple[int, int]:
    """Return which cells are shown: all, or as many as fit with the present one in the middle."""
    first = max(0, min(view.current - room // 2, len(view.cells) - room))
    return first, min(len(view.cells), first + room)


def _bracket(span: Span, first: int, last: int, wide: int) -> str:
    """Return a step's name with a bracket under its cells, as far as they are shown."""
    cells = min(span.last, last - 1) - max(span.first, first) + 1
    room = cells * wide - 1
    if span.first == span.last:
        return _shortened(span.name, room).center(room) + " "
    left = "└" if span.first >= first else "─"
    right = "┘" if span.last < last else "─"
    return left + _shortened(span.name, room - 2).center(room - 2, "─") + right + " "


def _shortened(name: str, room: int) -> str:
    """Return as many whole words of a name as there is room for; of a single long word its beginning."""
    if len(name) <= room:
        return name
    cut = name[: room + 1].rsplit(" ", 1)[0]
    return cut if len(cut) <= room else name[: room - 1] + "…"
