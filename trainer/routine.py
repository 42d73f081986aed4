"""The routine as written: header, parts, sections, events, extras, options and the order of walls.

Beats are exact fractions of a count, counted from the block's first count (0); a leading & is before it, down to -1.
Facings are fractions of a whole turn in [0, 1), 12:00 is 0 and 3:00 is 1/4; turns are signed, right is positive.
Spans say where in the sheet a thing was read; they are left out of equality and of JSON.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated, Any, NamedTuple, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainSerializer, WithJsonSchema

from trainer.terms import (
    Direction,
    ExtraKind,
    Feel,
    Foot,
    InsertKind,
    Label,
    LeaveKind,
    Move,
    PlayKind,
    Status,
    Time,
    Weight,
)


def _fraction(value: Any) -> Any:
    if isinstance(value, bool | float):
        raise ValueError("an exact fraction is a text such as 1/4, or a whole number")
    return Fraction(value) if isinstance(value, str | int | Fraction) else value


Exact = Annotated[
    Fraction,
    BeforeValidator(_fraction),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": "string", "pattern": r"^-?\d+(/\d+)?$"}),
]
"""A Fraction, written in JSON as text."""


class Span(NamedTuple):
    """Where in the sheet: line and column from 1, length in characters."""

    line: int
    column: int
    length: int


_PLACES = frozenset({"span", "stated", "header"})
"""Fields that say only where in a sheet a thing was read."""


class Written(BaseModel):
    """Something read from a sheet; equal when all but the spans is equal."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=False)

    span: Span | None = Field(default=None, exclude=True, repr=False)

    def __eq__(self, other: object) -> bool:
        """Compare every field but the span."""
        return type(self) is type(other) and self._told() == other._told()

    def __hash__(self) -> int:
        """Hash every field but the span."""
        return hash(self._told())

    def _told(self) -> tuple[Any, ...]:
        return tuple(value for name, value in self.__dict__.items() if name not in _PLACES)

    def but(self, **changes: Any) -> Self:
        """Return a copy with some fields changed; the values must already be of their types."""
        return self.model_copy(update=changes)


class Gesture(Written):
    """What another foot or the body does on the same count; it never carries weight."""

    foot: Foot
    move: Move
    direction: Direction | None = None


class FigureMark(Written):
    """The figure that an event is a part of."""

    id: int
    """Numbered in reading order through the whole routine, from 1."""
    name: str
    """A key of figures.toml, or the words of a figure that the sheet spells out itself."""
    index: int
    """The place of the event in its figure, from 0."""


class Event(Written):
    """One danced count as written."""

    label: Label
    beat: Exact
    """Offset from the first count of its block."""
    foot: Foot | None
    """The foot that acts; None when the words could not be read."""
    weight: Weight | None
    """The foot that carries the weight after the event; None when unread."""
    turn: Exact = Fraction(0)
    """The whole turn of the event, a turn on the standing foot after the step included."""
    then: Exact = Fraction(0)
    """The part of `turn` made on the standing foot after the step."""
    move: Move | None = None
    """None when unread."""
    direction: Direction | None = None
    also: tuple[Gesture, ...] = ()
    figure: FigureMark | None = None
    asides: tuple[str, ...] = ()
    """What stood in brackets and is no weight: "large step"."""
    words: str = ""
    """The teacher's own words for the line or item that the event was read from."""
    styling: str = ""
    facing: Exact | None = None
    """The facing that the sheet states after this event: a check, never the truth."""
    stated: Span | None = Field(default=None, exclude=True, repr=False)
    """Where the sheet states that facing; None: with the event."""
    status: Status = "sure"
    other: "Event | None" = None
    """The other reading, when unsure; an unread one where the event is only a guess."""

    @property
    def doubtful(self) -> bool:
        """Whether it was not read, or is only a guess: the laws do not hold it."""
        return self.status == "unread" or (self.other is not None and self.other.status == "unread")


class Section(Written):
    """A run of counts with a heading."""

    name: str
    title: str = ""
    counts: int
    """Length in beats."""
    feel: Feel | None = None
    """None: the feel of the routine."""
    events: tuple[Event, ...] = ()


class Part(Written):
    """A part of a phrased dance; a dance that is not phrased has one, without a name."""

    name: str = ""
    sections: tuple[Section, ...] = ()

    @property
    def counts(self) -> int:
        """Length in beats."""
        return sum(section.counts for section in self.sections)


class Extra(Section):
    """A danced intro, tag, bridge, change or ending: steps outside the plain dance."""

    kind: ExtraKind
    starts: Exact | None = None
    """The facing in the room that a danced intro starts with; None: 12:00."""

    @property
    def key(self) -> tuple[ExtraKind, str]:
        """What order lines call it by."""
        return self.kind, self.name


class Option(Written):
    """Another way to dance some counts of a section; ends on the same foot and facing."""

    part: str = ""
    section: str
    first: int
    """The first count replaced, counted through the section from 1."""
    last: int
    title: str = ""
    events: tuple[Event, ...] = ()
    """Beats are those of the section: count 5 is beat 4."""


class Insert(Written):
    """A tag, bridge or ending by its name, or a hold by its counts, in an order line."""

    kind: InsertKind
    name: str = ""
    counts: int = 0
    """Only of a hold."""


class Departure(Written):
    """A place where a wall departs from the plain dance, and what is danced there."""

    after: int
    """Counts of the part danced before it; when `change` is set, the last count replaced."""
    before: Label | None = None
    """The label just before which the cut falls: `after 3 before a` dances 3&."""
    change: str = ""
    """The name of the change that is danced instead of counts `first` to `after`."""
    first: int = 0
    """The first count replaced; 0 without a change."""
    inserts: tuple[Insert, ...] = ()
    leave: LeaveKind = "continue"
    facing: Exact | None = None
    """A facing stated in the room; it may mean the start of the wall or this moment."""


class OrderLine(Written):
    """What some walls (passes of a part, in a phrased dance) do differently."""

    part: str = ""
    passes: tuple[int, ...]
    """Running numbers, from 1, of the starts of the dance or of the part."""
    starts: Exact | None = None
    """The start facing that the sheet states: a check."""
    squared: Exact = Fraction(0)
    """A turn made on count 1 because the wall begins on a diagonal."""
    departures: tuple[Departure, ...] = ()
    cue: str = ""


class PlayItem(Written):
    """One item of the order of a phrased dance: a part, or an extra between parts."""

    kind: PlayKind
    name: str = ""
    counts: int = 0
    """Only of a hold."""


class Routine(Written):
    """A whole dance as its teacher wrote it."""

    title: str
    tune: str = ""
    by: str = ""
    tempo: Exact | None = None
    """Counts a minute as danced; None: 100 is assumed."""
    time: Time = "4/4"
    feel: Feel = "straight"
    starts: Weight = "L"
    """The weighted foot before count 1."""
    counts: int | None = None
    """As the sheet declares: a check."""
    walls: int | None = None
    """As the sheet declares, directions: a check."""
    level: str = ""
    wait: int | None = None
    """Beats before the first step, the danced intro not counted in; None: not stated."""
    wait_from: str = ""
    """From where they are counted: "from the first drum"."""
    squares: Exact = Fraction(0)
    """A turn made on count 1 of every wall that begins on a diagonal, where the sheet says that it is squared up."""
    notes: tuple[str, ...] = ()
    """The teacher's remarks that are no steps."""
    parts: tuple[Part, ...] = ()
    extras: tuple[Extra, ...] = ()
    options: tuple[Option, ...] = ()
    order: tuple[OrderLine, ...] = ()
    play: tuple[PlayItem, ...] = ()
    """The order of parts of a phrased dance; empty: the one part again and again."""
    repeats: bool = True
    """The dance goes on from the start of `play` when it is through."""
    header: tuple[tuple[str, Span], ...] = Field(default=(), exclude=True, repr=False)
    """Where the fields of the header were read, by their names ("counts", "walls", "play"); left out like a span."""

    @property
    def phrase(self) -> int:
        """Counts after which the labels start again: 8, in a waltz 6."""
        return 6 if self.time == "3/4" else 8

    @property
    def phrased(self) -> bool:
        """Whether the dance is made of parts in an order."""
        return bool(self.play)

    def where(self, field: str) -> Span | None:
        """Return where a field of the header was read."""
        return dict(self.header).get(field)

    def part(self, name: str) -> Part | None:
        """Return the part of that name."""
        return next((part for part in self.parts if part.name == name), None)

    def extra(self, kind: str, name: str) -> Extra | None:
        """Return the extra of that kind and name."""
        return next((extra for extra in self.extras if extra.key == (kind, name)), None)

    def events(self) -> Iterator[Event]:
        """Yield every written event: intro and parts first, then the other extras, then the options."""
        for block in self.blocks():
            yield from block.events
        for option in self.options:
            yield from option.events

    def blocks(self) -> Iterator[Section]:
        """Yield every section and extra in reading order: intro, parts, other extras."""
        yield from (extra for extra in self.extras if extra.kind == "intro")
        for part in self.parts:
            yield from part.sections
        yield from (extra for extra in self.extras if extra.kind != "intro")
