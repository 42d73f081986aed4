"""The routine as danced: passes that share rows of events, and views of single events made when asked for.

Beats of a timeline count from 0, the first count of the wait, or the first danced count where no wait is stated; a
leading & may fall before it. A pass is one dancing of the dance or of a part; a danced intro belongs to pass 1. Rows
are made once for each part and extra and shared by every pass (1,000 passes cost little more than one).
"""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from trainer.routine import Departure, Event, Routine
from trainer.terms import Foot, Weight

_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Row:
    """An event in its block, with what has added up since the block's start."""

    event: Event
    section: str
    beat: Fraction
    """From the first count of the block."""
    turned: Fraction
    """The signed turn since the block's start, this event included."""
    number: int
    """The count through the block, from 1, that the event stands at or just after."""
    section_number: int
    """The same, counted through its section."""


@dataclass(frozen=True, slots=True)
class Block:
    """The rows of a part or an extra, in the order danced."""

    name: str
    kind: str
    """part, intro, tag, bridge, change, ending or hold; a hold has no name."""
    counts: int
    rows: tuple[Row, ...]

    @property
    def turn(self) -> Fraction:
        """The signed net turn of the whole block."""
        return self.rows[-1].turned if self.rows else Fraction(0)


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some rows of a block, danced without a break."""

    block: Block
    first: int
    """Index of the first row danced."""
    last: int
    """Index after the last row danced."""
    beat: Fraction
    """The timeline's beat of the block's first count."""
    facing: Fraction
    """The facing at the block's start, were it danced from there (and, where it has count 1, already squared up)."""
    begins: Fraction
    """The timeline's beat at which the stretch begins: its first whole count."""
    ends: Fraction
    """The beat after its last count."""
    squares: Fraction = Fraction(0)
    """A turn made with the first row on or after the block's first count, to leave a diagonal; `facing` includes it."""


@dataclass(frozen=True, slots=True)
class Pass:
    """One dancing of the dance or of a part, with all that is put into it and follows it."""

    number: int
    part: str
    start: Fraction
    """The beat of its first count."""
    facing: Fraction
    """The facing with which it begins, before any squaring up."""
    squared: Fraction
    """A turn made on its count 1 to leave a diagonal."""
    stretches: tuple[Stretch, ...]
    departures: tuple[Departure, ...]
    cue: str
    danced: Fraction
    """Counts of the part that are danced, without extras and changed counts; 3 1/2 when it is left after 3&."""
    ends: Fraction
    """The beat after its last count."""
    end_facing: Fraction


@dataclass(frozen=True, slots=True)
class Danced:
    """One event as danced: everything is the state after it."""

    wall: int
    part: str
    row: Row
    extra: str | None
    """The name of the extra that it belongs to, empty where it has none (a hold); None in the plain dance."""
    extra_kind: str
    """Its kind; empty in the plain dance."""
    beat: Fraction
    facing: Fraction
    turn: Fraction
    """The event's own turn, and the squaring up of its wall where there is one."""
    stretch: int
    """Index of the stretch in its pass."""

    @property
    def event(self) -> Event:
        """The event as written."""
        return self.row.event

    @property
    def label(self) -> str:
        """The count as called."""
        return self.row.event.label

    @property
    def foot(self) -> Foot | None:
        """The foot that acts."""
        return self.row.event.foot

    @property
    def weight(self) -> Weight | None:
        """The foot that carries the weight afterwards."""
        return self.row.event.weight

    @property
    def section(self) -> str:
        """The name of its section."""
        return self.row.section


@dataclass(frozen=True, slots=True)
class Timeline:
    """Every count that will be danced."""

    routine: Routine
    passes: tuple[Pass, ...]
    """The danced intro's stretch is the first of pass 1, before its start."""
    wait: int
    """Beats of waiting before the first danced count."""
    open_ended: bool
    """The dance would go on after the last pass: the sheet states no end, or fewer passes were asked for."""

    @property
    def ends(self) -> Fraction:
        """The beat after the last count."""
        return self.passes[-1].ends if self.passes else Fraction(self.wait)

    def danced(self, first: int = 0, last: int | None = None) -> Iterator[Danced]:
        """Yield the events of the passes from index `first` to before `last`, in the order danced."""
        for one in self.passes[first:last]:
            yield from danced_in(one)

    def pass_at(self, beat: Fraction) -> int:
        """Return the index of the pass that a beat falls in; the danced intro falls in the first."""
        return max(bisect_right(self.passes, beat, key=lambda one: one.start) - 1, 0)

    def window(self, first: Fraction, last: Fraction) -> list[Danced]:
        """Return the events with first <= beat < last, in the order danced."""
        # A leading & of the pass after the window may fall inside it, and one of the first pass before it.
        low, high = max(self.pass_at(first) - 1, 0), self.pass_at(last) + 2
        return [one for one in self.danced(low, high) if first <= one.beat < last]


def danced_in(one: Pass) -> Iterator[Danced]:
    """Yield the events of one pass, in the order danced."""
    for place, stretch in enumerate(one.stretches):
        block = stretch.block
        plain = block.kind == "part"
        to_square = stretch.squares
        for row in block.rows[stretch.first : stretch.last]:
            turned, turn = stretch.facing + row.turned, row.event.turn
            if to_square and row.beat >= 0:
                turn += to_square
                to_square = _NONE
            elif to_square:
                turned -= to_square
            yield Danced(
                wall=one.number,
                part=one.part,
                row=row,
                extra=None if plain else block.name,
                extra_kind="" if plain else block.kind,
                beat=stretch.beat + row.beat,
                facing=turned % 1,
                turn=turn,
                stretch=place,
            )
