"""The road map of all walls, to choose a section, an extra or a run of counts on, by keys and with the mouse."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import ClassVar

from rich.segment import Segment
from textual.events import Click, MouseDown, MouseMove, MouseUp, Resize
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from trainer.practice.roadmap import WallRow
from trainer.screens.wall_drawing import Column, marked, part_columns, scale_for, wall_columns


class RoadMap(ScrollView):
    """A row for each wall; repaints only when another range is chosen, or its size changes."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {
        f"map--{role}"
        for role in ("quiet", "wall", "faces", "count", "name", "extra", "leaves", "chosen", "taken", "here")
    }

    chosen: reactive[tuple[Fraction, Fraction]] = reactive((Fraction(0), Fraction(0)))
    """The range chosen, in beats of the timeline."""
    scale: reactive[int] = reactive(1)
    """Counts that a column stands for."""

    @dataclass
    class Pointed(Message):
        """A count was clicked."""

        beat: Fraction
        twice: bool
        """In quick succession: it is wanted at once."""

    @dataclass
    class Drawn(Message):
        """The mouse was drawn over a run of counts."""

        first: Fraction
        last: Fraction

    def __init__(self, rows: tuple[WallRow, ...], here: Fraction, chosen: tuple[Fraction, Fraction]) -> None:
        """Make a map of `rows` on which the dancer is at the beat `here`."""
        super().__init__()
        self._rows = rows
        self._named = part_columns(rows)
        self._here = here
        self._from: Column | None = None
        self._drawn = False
        self.set_reactive(RoadMap.chosen, chosen)

    def on_resize(self, event: Resize) -> None:
        """Fit the columns to the new width."""
        self.scale = scale_for(self._rows, event.size.width - 1)
        self.virtual_size = Size(event.size.width, len(self._rows))
        self._show_chosen()

    def watch_chosen(self) -> None:
        """Keep the wall chosen in sight."""
        if self.is_mounted:
            self._show_chosen()

    def render_line(self, y: int) -> Strip:
        """Return one wall."""
        width, place = self.size.width, self.scroll_offset.y + y
        if place >= len(self._rows):
            return Strip.blank(width, self.rich_style)
        row = self._rows[place]
        here = self._here if row.first <= self._here < row.last else None
        painted = marked(wall_columns(row, self.scale, self._named), *self.chosen, here)
        segments = [
            Segment("".join(glyph for glyph, _ in run), self.get_component_rich_style(f"map--{role}"))
            for role, run in groupby(painted, key=lambda one: one[1])
        ]
        return Strip(segments).adjust_cell_length(width, self.rich_style)

    def on_mouse_down(self, event: MouseDown) -> None:
        """Begin to choose."""
        self._from, self._drawn = self._column(event), False
        if self._from is not None:
            self.capture_mouse()

    def on_mouse_move(self, event: MouseMove) -> None:
        """Choose up to where the mouse is, while its button is held."""
        column = self._column(event)
        if self._from is None or column is None or column == self._from:
            return
        ends = sorted(beat for one in (self._from, column) for beat in (one.first, one.last) if beat is not None)
        self._drawn = True
        self.post_message(self.Drawn(ends[0] // 1 * Fraction(1), -(-ends[-1] // 1) * Fraction(1)))

    def on_mouse_up(self, _event: MouseUp) -> None:
        """End choosing."""
        self.release_mouse()
        self._from = None

    def on_click(self, event: Click) -> None:
        """Choose what lies there, unless the mouse was drawn."""
        column = self._column(event)
        if column is not None and column.first is not None and not self._drawn:
            self.post_message(self.Pointed(Fraction(column.first // 1), event.chain > 1))

    def _column(self, event: MouseDown | MouseMove | Click) -> Column | None:
        """Return the column under the mouse; left of a wall's first count it is that count."""
        offset = event.get_content_offset(self)
        if offset is None or not 0 <= offset.y + self.scroll_offset.y < len(self._rows):
            return None
        columns = wall_columns(self._rows[offset.y + self.scroll_offset.y], self.scale, self._named)
        danced = [column for column in columns if column.first is not None]
        pointed = columns[offset.x] if offset.x < len(columns) else danced[-1]
        if pointed.first is None:
            before = [column for column in columns[: offset.x] if column.first is not None]
            return before[-1] if before else danced[0]
        return pointed

    def _show_chosen(self) -> None:
        place = max((at for at, row in enumerate(self._rows) if row.first <= self.chosen[0]), default=0)
        self.scroll_to_region(Region(0, place, 1, 1), animate=False, immediate=True)
