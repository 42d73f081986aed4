"""The dance as it is without its changes: its counts in a row, the sections and rows that they stand in, the weight."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import accumulate

from trainer.routine import Event, Routine
from trainer.terms import Weight


@dataclass(frozen=True)
class Dance:
    """The counts of a dance, or of one part; counts are numbered through it from 1."""

    routine: Routine
    part: str

    @cached_property
    def events(self) -> tuple[tuple[Fraction, Event], ...]:
        """Each event with the beats danced before it."""
        found = []
        base = 0
        for section in self._sections:
            found += [(base + event.beat, event) for event in section.events]
            base += section.counts
        return tuple(found)

    @property
    def _sections(self):  # type: ignore[no-untyped-def]
        found = self.routine.part(self.part)
        return found.sections if found is not None else ()

    @cached_property
    def ends(self) -> tuple[int, ...]:
        """The counts danced by the end of each section, and 0 before the first."""
        return (0, *accumulate(section.counts for section in self._sections))

    @property
    def counts(self) -> int:
        """How many counts it has."""
        return self.ends[-1]

    def within(self, first: int, last: int) -> list[tuple[Fraction, Event]]:
        """Return the events of some counts."""
        return [(beat, event) for beat, event in self.events if first - 1 <= beat < last]

    def weight_after(self, count: int) -> Weight:
        """Return the weight after so many counts."""
        weight: Weight = self.routine.starts
        for beat, event in self.events:
            if beat >= count:
                break
            weight = event.weight or weight
        return weight

    def needs_after(self, count: int) -> Weight:
        """Return the weight with which the dance goes on after a count as it is written."""
        return self.weight_after(count) if count < self.counts else self.routine.starts

    def section(self, number: int) -> tuple[int, int] | None:
        """Return the first and last count of a section; -1 is the last."""
        place = len(self.ends) - 1 if number == -1 else number
        return (self.ends[place - 1] + 1, self.ends[place]) if 0 < place < len(self.ends) else None

    def line(self, number: int) -> tuple[int, int] | None:
        """Return the first and last count of a line of steps, the lines counted as they stand."""
        lines = list(dict.fromkeys(event.span.line for _, event in self.events if event.span is not None))
        if not 0 < number <= len(lines):
            return None
        found = self.row(lines[number - 1], 0)
        return found[:2] if found is not None else None

    def section_of(self, count: int) -> tuple[int, int]:
        """Return the first and last count of the section that a count stands in."""
        end = next((end for end in self.ends[1:] if count <= end), self.counts)
        return self.ends[max(self.ends.index(end) - 1, 0)] + 1, end

    def row(self, line: int, column: int) -> tuple[int, int, int] | None:
        """Return the counts of a line of steps, and the count before a column of it, 0 where that is left open."""
        inside = [(beat, event) for beat, event in self.events if event.span is not None and event.span.line == line]
        if not inside:
            return None
        before = [beat for beat, event in inside if column and event.span and event.span.column <= column]
        first, last = int(inside[0][0] // 1) + 1, int(inside[-1][0] // 1) + 1
        return max(first, 1), last, int(before[-1] // 1) + 1 if before and before[-1] < inside[-1][0] else 0
