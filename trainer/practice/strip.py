"""The counts of the present section in a row, for the stopped floor: count, foot, step and facing of each event."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.naming import clause_name
from trainer.practice.chart import Chart
from trainer.practice.saying import full_name
from trainer.terms import Foot


@dataclass(frozen=True, slots=True)
class Cell:
    """One event of the strip."""

    label: str
    foot: Foot | None
    """None when unread."""
    facing: Fraction
    turns: bool


@dataclass(frozen=True, slots=True)
class Span:
    """A step over the cells from `first` to `last`."""

    first: int
    last: int
    name: str


@dataclass(frozen=True, slots=True)
class StripView:
    """The counts of one section or extra as danced on one wall."""

    cells: tuple[Cell, ...]
    spans: tuple[Span, ...]
    current: int
    """The cell that was danced last; -1: none of them."""

    @property
    def step(self) -> Span | None:
        """The step that is being danced."""
        return next((span for span in self.spans if span.first <= self.current <= span.last), None)


def strip_view(chart: Chart, index: int) -> StripView:
    """Return the counts of the section that an event is danced in; before the first event, the first section."""
    first, last = chart.section(max(index, 0))
    events = [chart.event(place) for place in range(first, last + 1)]
    cells = tuple(Cell(one.label, one.foot, one.facing, bool(one.turn)) for one in events)
    spans = []
    place = first
    while place <= last:
        end = chart.step(place, first, last + 1)[1]
        spans.append(Span(place - first, end - first, full_name(events[place - first : end - first + 1])))
        place = end + 1
    return StripView(cells, tuple(spans), index - first if index >= 0 else -1)


def coming_strip(chart: Chart, index: int) -> StripView:
    """Return the counts of the section that begins after an event, none of them danced yet."""
    return replace(strip_view(chart, min(index + 1, chart.size - 1)), current=-1)


@dataclass(frozen=True, slots=True)
class WordsView:
    """What the teacher wrote for an event."""

    words: str
    source: str
    """The line of the sheet, for where the sheet has no other words."""
    styling: str
    line: int
    """Of the sheet; 0 where it was not read from a text."""
    status: str
    """sure, unsure or unread."""
    other: str
    """The other reading in words, when unsure."""


def words_view(chart: Chart, index: int, lines: Sequence[str] = ()) -> WordsView | None:
    """Return the teacher's words for an event; None before the first. `lines` are those of the sheet."""
    if index < 0:
        return None
    event = chart.event(index).event
    other = "" if event.other is None else f"{event.other.foot or ''} {clause_name(event.other)}".strip()
    if event.other is not None and event.other.status == "unread":
        other = "a step that could not be read"
    line = event.span.line if event.span else 0
    source = " ".join(lines[line - 1].split()) if 0 < line <= len(lines) else ""
    return WordsView(event.words, source, event.styling, line, event.status, other)
