"""Small invented dances for the tests of takes and sound, made without a sheet: feet alternate, R first."""

from collections.abc import Sequence
from fractions import Fraction

from trainer.dance.counts import is_number, offset
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.routine import Departure, Event, Extra, Insert, OrderLine, Part, Routine, Section
from trainer.terms import Feel, Foot, LeaveKind, Move


def events(labels: str, *, feel: Feel = "straight", turns: dict[int, str] | None = None) -> tuple[Event, ...]:
    """Return events for labels divided by blanks, a step each; `turns` by index; a leading & falls before beat 0."""
    made: list[Event] = []
    beat = -1
    for index, label in enumerate(labels.split()):
        beat += is_number(label)
        at = Fraction(beat) + (offset(label, feel) or 0)
        foot = Foot.RIGHT if index % 2 == 0 else Foot.LEFT
        turn = Fraction((turns or {}).get(index, "0"))
        made.append(Event(label=label, beat=at, foot=foot, weight=str(foot), turn=turn, move=Move.STEP))
    return tuple(made)


def eight(name: str, labels: str = "1 2 3 4 5 6 7 8", *, feel: Feel | None = None, turn: str = "0") -> Section:
    """Return a section of eight counts; its first event turns."""
    return Section(name=name, counts=8, feel=feel, events=events(labels, feel=feel or "straight", turns={0: turn}))


def leaves(after: int, *inserts: Insert, leave: LeaveKind = "continue") -> Departure:
    """Return a departure."""
    return Departure(after=after, inserts=inserts, leave=leave)


def lantern() -> Routine:
    """Return 32 counts: a bridge in wall 2, a change and a hold in wall 3, a tag and a restart in wall 4."""
    sections = (eight("1"), eight("2", "1 2 3 & 4 5 6 7 & 8"), eight("3"), eight("4", "& 1 2 3 4 5 6 7 8", turn="1/4"))
    extras = (
        Extra(name="Lantern", kind="tag", counts=4, events=events("1 2 3 4")),
        Extra(name="Buoy", kind="bridge", counts=16, events=events("1 2 3 4 5 6 7 8 1 2 3 4 5 6 7 8")),
        Extra(name="Rope", kind="change", counts=2, events=events("7 8")),
    )
    order = (
        OrderLine(passes=(2,), departures=(leaves(20, Insert(kind="bridge", name="Buoy")),)),
        OrderLine(passes=(3,), departures=(Departure(after=16, first=15, change="Rope"), leaves(20, hold(2)))),
        OrderLine(passes=(4,), departures=(leaves(16, Insert(kind="tag", name="Lantern"), leave="restart"),)),
    )
    return Routine(title="Lantern on the Quay", wait=16, parts=(Part(sections=sections),), extras=extras, order=order)


def hold(counts: int) -> Insert:
    """Return a hold."""
    return Insert(kind="hold", counts=counts)


def waltz() -> Routine:
    """Return a waltz of two sections of twelve counts."""
    labels = "1 2 3 4 5 6 1 2 3 4 5 6"
    sections = tuple(Section(name=name, counts=12, events=events(labels)) for name in ("1", "2"))
    return Routine(title="Slow Tide", time="3/4", parts=(Part(sections=sections),))


def rolling() -> Routine:
    """Return a rolling dance of eight counts, & and a danced in the first four."""
    danced = events("1 & a 2 & a 3 4 5 6 7 8", feel="rolling")
    return Routine(
        title="Ground Swell", feel="rolling", parts=(Part(sections=(Section(name="1", counts=8, events=danced),)),)
    )


def plain(sections: Sequence[Section], walls: int = 1) -> Timeline:
    """Return sections danced some times, without a wait."""
    return unroll(Routine(title="Plain", parts=(Part(sections=tuple(sections)),)), walls)
