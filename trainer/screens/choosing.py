"""Choosing a place on the road map: from stop to stop, from wall to wall, and a run of counts by its ends.

Pure but for its state; beats are those of the timeline.
"""

from fractions import Fraction

from trainer.dance.facing import clock
from trainer.practice.chart import Chart
from trainer.practice.roadmap import Stop, WallRow, counts_stop, road_map, row_at, stop_at, stops_of
from trainer.practice.saying import departure_words
from trainer.practice.take import first_danced

_FREE = {"R": "L free", "L": "R free", "B": "either foot free", None: "the weight there is unread"}


class Choosing:
    """What is chosen, beginning with the section where the dancer is."""

    def __init__(self, chart: Chart, at: Fraction) -> None:
        self.chart = chart
        self.rows = road_map(chart)
        self.stop: Stop = stop_at(chart, row_at(self.rows, at), at)

    @property
    def row(self) -> WallRow:
        """The wall that the first count chosen is on."""
        return row_at(self.rows, self.stop.first)

    def point(self, beat: Fraction) -> None:
        """Choose the section or extra at a beat."""
        self.stop = stop_at(self.chart, row_at(self.rows, beat), beat)

    def draw(self, first: Fraction, last: Fraction) -> None:
        """Choose a run of counts, as far as they are danced."""
        begins, ends = first_danced(self.chart.timeline), self.chart.timeline.ends
        first = max(begins, min(first, ends - 1))
        self.stop = counts_stop(self.chart, first, min(max(last, first + 1), ends))

    def across(self, by: int) -> None:
        """Choose the section or extra after, or before (-1); past the end of a wall on the next one."""
        stops = stops_of(self.chart, self.row)
        if self.stop in stops:
            place = stops.index(self.stop) + by
        else:  # a run of counts: the section that its first count is in
            place = stops.index(stop_at(self.chart, self.row, self.stop.first)) + (0 if by > 0 else by)
        if 0 <= place < len(stops):
            self.stop = stops[place]
        elif row := self._row(by):
            self.stop = stops_of(self.chart, row)[0 if by > 0 else -1]

    def along(self, by: int) -> None:
        """Choose what has the same name on the next wall, or the one before (-1); else what lies as far along."""
        row = self._row(by)
        if row is None:
            return
        stops = stops_of(self.chart, row)
        same = [stop for stop in stops if (stop.kind, stop.name) == (self.stop.kind, self.stop.name)]
        place = min(self.stop.first - self.row.first, row.last - row.first - 1)
        self.stop = same[0] if same else stop_at(self.chart, row, row.first + place)

    def move_first(self, by: int) -> None:
        """Begin a count later, or earlier (-1)."""
        self.draw(min(self.stop.first + by, self.stop.last - 1), self.stop.last)

    def move_last(self, by: int) -> None:
        """End a count later, or earlier (-1)."""
        self.draw(self.stop.first, self.stop.last + by)

    def told(self, stop: Stop | None = None) -> tuple[str, str]:
        """Return a stop, that chosen by default, with its start, and the departures of its wall, a line each."""
        chart, stop = self.chart, stop or self.stop
        index = chart.index_before(stop.first)
        counts = int(stop.last - stop.first)
        length = "" if "count" in stop.title else f"{counts} counts, "
        weight = _FREE[chart.weight_after(index)]
        begins = f"{stop.words}: {length}from {clock(chart.facing_after(index))}, {weight}"
        row = row_at(self.rows, stop.first)
        cue = f'   cue: "{row.cue}"' if row.cue else ""
        return begins, "; ".join(departure_words(mark) for mark in row.marks) + cue

    def _row(self, by: int) -> WallRow | None:
        place = self.rows.index(self.row) + by
        return self.rows[place] if 0 <= place < len(self.rows) else None
