"""The page of the road map: go to a wall, a section, a tag or a count, or loop it; found on the map or by name."""

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.screen import Screen
from textual.widgets import Input, OptionList

from trainer.practice.chart import Chart
from trainer.practice.places import found
from trainer.practice.roadmap import Stop
from trainer.screens import keys
from trainer.screens.choosing import Choosing
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.road_map import RoadMap
from trainer.screens.widgets.search_line import SearchLine

_LEGEND = "A column is {scale}. The number is the section, ▼ is where you are; a word is a tag, bridge, change or hold."


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the dancer wants to do with a run of counts."""

    stop: Stop
    loop: bool


class MapScreen(Screen[Chosen | None]):
    """Dismissed with what was chosen, or with None."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("map")]

    def __init__(self, chart: Chart, at: Fraction, title: str) -> None:
        """Make a map on which the dancer is at the beat `at`."""
        super().__init__()
        self.page: keys.Page = "map"
        self._chart, self._at, self._title = chart, at, title
        self._choosing = Choosing(chart, at)
        self._found: tuple[Stop, ...] = ()

    def compose(self) -> ComposeResult:
        """Yield the map and, in its place while a name is typed, what was found."""
        stop = self._choosing.stop
        yield PlainText(f"The walls of {self._title}", id="heading")
        yield SearchLine(placeholder="wall 4, section 3, tag, count 20, or counts 5-12")
        yield RoadMap(self._choosing.rows, self._at, (stop.first, stop.last))
        yield OptionList()
        yield PlainText(id="about")
        yield KeyLine()

    def on_mount(self) -> None:
        """Begin on the map, which knows how many counts a column is once it has its size."""
        road_map = self.query_one(RoadMap)
        self.watch(road_map, "scale", self._tell)
        road_map.focus()

    def on_road_map_pointed(self, event: RoadMap.Pointed) -> None:
        """Choose what was clicked; twice, go there."""
        event.stop()
        self._choosing.point(event.beat)
        self._tell()
        if event.twice:
            self.action_go()

    def on_road_map_drawn(self, event: RoadMap.Drawn) -> None:
        """Choose the counts that the mouse was drawn over."""
        event.stop()
        self._choosing.draw(event.first, event.last)
        self._tell()

    def on_input_changed(self, event: Input.Changed) -> None:
        """List what is meant by the text so far."""
        event.stop()
        self._found = found(self._chart, event.value, self._at)
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Content(stop.words) for stop in self._found])
        options.highlighted = 0 if self._found else None
        self._tell()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Choose the place found."""
        event.stop()
        self._take_found()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Choose the place that was clicked."""
        event.stop()
        self._take_found()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Say more about the place found."""
        event.stop()
        self._tell()

    def action_across(self, by: int) -> None:
        """Choose the section after or before."""
        self._choosing.across(by)
        self._tell()

    def action_along(self, by: int) -> None:
        """Choose the same on the wall after or before."""
        self._choosing.along(by)
        self._tell()

    def action_first(self, by: int) -> None:
        """Begin the counts chosen later or earlier."""
        self._choosing.move_first(by)
        self._tell()

    def action_last(self, by: int) -> None:
        """End the counts chosen later or earlier."""
        self._choosing.move_last(by)
        self._tell()

    def action_choose(self, by: int) -> None:
        """Go through what was found while typing."""
        options = self.query_one(OptionList)
        if self._found:
            options.highlighted = max(0, min(self._highlighted + by, len(self._found) - 1))

    def action_find(self) -> None:
        """Type what to look for."""
        self.add_class("-finding")
        self.query_one(SearchLine).focus()
        self._tell()

    def action_go(self) -> None:
        """Go there."""
        self.dismiss(Chosen(self._choosing.stop, loop=False))

    def action_loop(self) -> None:
        """Loop it."""
        self.dismiss(Chosen(self._choosing.stop, loop=True))

    def action_leave(self) -> None:
        """End the search; without one, go back to where the dancer was."""
        if self.has_class("-finding"):
            self._end_search()
        else:
            self.dismiss(None)

    def _take_found(self) -> None:
        if self._highlighted < len(self._found):
            self._choosing.stop = self._found[self._highlighted]
            self._end_search()

    def _end_search(self) -> None:
        self.remove_class("-finding")
        with self.prevent(Input.Changed):
            self.query_one(SearchLine).value = ""
        self._found = ()
        self.query_one(RoadMap).focus()
        self._tell()

    def _tell(self) -> None:
        """Show what is chosen, and which keys do something now."""
        road_map, choosing = self.query_one(RoadMap), self._choosing
        road_map.chosen = (choosing.stop.first, choosing.stop.last)
        finding = self.has_class("-finding")
        lines: tuple[str, ...] = choosing.told()
        if not finding:
            scale = "a count" if road_map.scale == 1 else f"{road_map.scale} counts"
            lines += (_LEGEND.format(scale=scale),)
        elif self._found:
            lines = choosing.told(self._found[min(self._highlighted, len(self._found) - 1)])
        elif self.query_one(SearchLine).value.strip():
            lines = ("Nothing in this dance has that name.",)
        self.query_one("#about", PlainText).text = "\n".join(line for line in lines if line)
        self.query_one(KeyLine).keys = keys.footer("map", ["finding" if finding else ""])

    @property
    def _highlighted(self) -> int:
        return self.query_one(OptionList).highlighted or 0
