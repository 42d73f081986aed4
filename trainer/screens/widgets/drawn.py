"""What widgets that draw themselves have in common: a picture is made once for each painting, not for every line.

Every millisecond from the look at the clock to the picture is one by which the screen is late for the ear.
"""

from textual.geometry import Region
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget


class Drawn(Widget):
    """A widget whose lines are drawn together."""

    ALLOW_SELECT = False

    inset: reactive[int] = reactive(0)
    """Half-rows kept blank above what is drawn."""
    below: reactive[int] = reactive(0)
    """Half-rows kept blank below it."""

    _painting = False
    _painted: list[Strip] | None = None

    def drawing(self) -> list[Strip]:
        """Return every line; what is missing at the end is blank."""
        raise NotImplementedError

    def render_lines(self, crop: Region) -> list[Strip]:
        """Return the lines of a region, of one drawing."""
        self._painting = True
        try:
            return super().render_lines(crop)
        finally:
            self._painting, self._painted = False, None

    def render_line(self, y: int) -> Strip:
        """Return one line of the drawing."""
        lines = self._painted if self._painted is not None else self.drawing()
        if self._painting:
            self._painted = lines
        return lines[y] if y < len(lines) else Strip.blank(self.size.width, self.rich_style)
