"""Parts and extras as rows of events, and where a cut falls in them.

Counts are those of the part, from 1; `after n` is told by n, so that 0 is before count 1. Indices count rows.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.dance.timeline import Block, Row
from trainer.routine import Departure, Event, Extra, Option, Part, Routine, Section
from trainer.terms import Foot, Move, Weight


@dataclass(frozen=True, slots=True)
class Cut:
    """Where a departure leaves the rows of its part, and where it comes back to them."""

    departure: Departure
    leaves: int
    """Counts danced before it."""
    returns: int
    """The same, or counts danced or replaced."""
    first: int
    """Index after the last row danced before it."""
    last: int
    """Index of the first row danced after it, if the wall goes on."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A part as rows, with the counts after which a section ends."""

    block: Block
    begins: tuple[int, ...]
    """Of each row, the counts of the part before its section."""
    ends: frozenset[int]
    """Counts after which a section ends, 0 included: there a cut comes after a closing & or a."""

    @classmethod
    def of(cls, part: Part) -> "Plan":
        """Return the plan of a part."""
        begins: list[int] = []
        ends = [0]
        for section in part.sections:
            begins += [ends[-1]] * len(section.events)
            ends.append(ends[-1] + max(section.counts, 0))
        return cls(Block(part.name, "part", ends[-1], rows_of(part.sections)), tuple(begins), frozenset(ends))

    def cut(self, departure: Departure, change: Extra | None = None) -> Cut | None:
        """Return where a departure falls; None where the part has no such counts, or the sheet no such change.

        A label that is not there is passed over: the cut then falls straight after the number.
        """
        after = departure.after
        if departure.change:
            if change is None or not 1 <= departure.first <= after <= self.block.counts:
                return None
            first, last = self.replaced(departure.first, after, change.events)
            return Cut(departure, departure.first - 1, after, first, last)
        if not 0 <= after <= self.block.counts:
            return None
        index = self.label_after(after, departure.before) if departure.before else None
        if index is None:
            index = self.straight_after(after)
        return Cut(departure, after, after, index, index)

    def straight_after(self, count: int) -> int:
        """Return the index after a count: with the closing & or a of a section that ends there, else without."""
        if count in self.ends:
            return next((i for i, begins in enumerate(self.begins) if begins >= count), len(self.begins))
        return next((i for i, row in enumerate(self.block.rows) if row.beat > count - 1), len(self.begins))

    def label_after(self, count: int, label: str) -> int | None:
        """Return the index of the next row of that label after a count, up to the next count; None without one."""
        for index, row in enumerate(self.block.rows):
            if count - 1 < row.beat <= count and row.event.label == label:
                return index
        return None

    def replaced(self, first: int, last: int, instead: Collection[Event]) -> tuple[int, int]:
        """Return the rows, from an index to before another, that other steps take the place of.

        They are those from count `first` up to before the count after `last`: an & belongs to the number before it, but
        where the other steps open with an & or a of their own, that one takes the place of what stood there.
        """
        lead = min((event.beat for event in instead), default=Fraction(0))
        begins = first - 1 + min(lead, Fraction(0))
        rows = self.block.rows
        low = next((i for i, row in enumerate(rows) if row.beat >= begins), len(rows))
        high = next((i for i in range(low, len(rows)) if rows[i].beat >= last or self.begins[i] >= last), len(rows))
        return low, high


def rows_of(sections: Iterable[Section]) -> tuple[Row, ...]:
    """Return the rows of sections danced one after the other, each in the order of its beats."""
    rows: list[Row] = []
    begins, turned = 0, Fraction(0)
    for section in sections:
        for event in sorted(section.events, key=lambda one: one.beat):
            turned += event.turn
            number = int(event.beat // 1) + 1
            rows.append(Row(event, section.name, begins + event.beat, turned, begins + number, number))
        begins += max(section.counts, 0)
    return tuple(rows)


def extra_block(extra: Extra) -> Block:
    """Return the rows of an extra."""
    return Block(extra.name, extra.kind, max(extra.counts, 0), rows_of([extra]))


def hold_block(counts: int, weight: Weight | None, phrase: int) -> Block:
    """Return the rows of a hold of so many counts, with the weight staying where it was."""
    events = tuple(
        Event(label=label_of(beat % phrase + 1), beat=Fraction(beat), foot=Foot.NONE, weight=weight, move=Move.HOLD)
        for beat in range(counts)
    )
    return Block("", "hold", counts, rows_of([Section(name="", counts=counts, events=events)]))


def find_extra(routine: Routine, kind: str, name: str) -> Extra | None:
    """Return the extra that an order line means; tag and bridge are words for the same thing to many teachers."""
    other = {"tag": "bridge", "bridge": "tag"}.get(kind, kind)
    return routine.extra(kind, name) or routine.extra(other, name)


def with_options(part: Part, options: Iterable[Option]) -> Part:
    """Return a part with options danced instead of the counts that they replace; impossible ones are left out."""
    sections = list(part.sections)
    for option in options:
        place = next((i for i, one in enumerate(sections) if one.name == option.section), None)
        if option.part == part.name and place is not None and option_fits(option, sections[place]):
            sections[place] = optioned(sections[place], option)
    return part.but(sections=tuple(sections))


def option_fits(option: Option, section: Section) -> bool:
    """Return whether a section has the counts that an option replaces."""
    return 1 <= option.first <= option.last <= section.counts


def optioned(section: Section, option: Option) -> Section:
    """Return a section with an option danced in place of the counts that it replaces."""
    ordered = section.but(events=tuple(sorted(section.events, key=lambda one: one.beat)))
    low, high = Plan.of(Part(sections=(ordered,))).replaced(option.first, option.last, option.events)
    return ordered.but(events=(*ordered.events[:low], *option.events, *ordered.events[high:]))
