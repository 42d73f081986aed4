"""Dances drawn at random: sound ones, and routines that hold anything their fields allow."""

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from tests.dance.making import after, extra, hold, section, steps, tag, wall
from trainer.routine import (
    Departure,
    Event,
    Extra,
    Gesture,
    Insert,
    Option,
    OrderLine,
    Part,
    PlayItem,
    Routine,
    Section,
    Span,
)
from trainer.terms import Direction, Foot, Move

eighths = st.integers(-8, 8).map(lambda number: Fraction(number, 8))


@st.composite
def lines(draw: st.DrawFn, counts: int) -> list[str]:
    """Lines of two counts each that begin with R free and end so, with turns and touches and an & here and there."""
    told: list[str] = []
    free = 0
    for number in range(1, counts + 1):
        turn = draw(st.sampled_from(["", "", "", " +1/4", " -1/8", " -1/2", " +1"]))
        kind = draw(st.sampled_from(["step", "step", "step", "twice", "touch", "hold"]))
        if number == counts:
            # The last count leaves R free, as count 1 needs it.
            kind = "touch" if free == 0 else "step"
        foot, other = "RL"[free], "LR"[free]
        label = str((number - 1) % 8 + 1)
        word = {
            "step": f"{label} {foot}{turn}",
            "twice": f"{label} {foot}{turn}, & {other}",
            "touch": f"{label} {foot} touch{turn}",
            "hold": f"{label} - hold",
        }[kind]
        free ^= kind == "step"
        if number % 2:
            told.append(word)
        else:
            told[-1] += f", {word}"
    return told


@st.composite
def sections(draw: st.DrawFn) -> tuple[Section, ...]:
    """One to four sections, each on lines of its own."""
    lengths = draw(st.lists(st.sampled_from([4, 8, 8, 8, 12]), min_size=1, max_size=4))
    return tuple(
        section(str(place), *draw(lines(counts)), line=100 * place) for place, counts in enumerate(lengths, start=1)
    )


def restful(whole: tuple[Section, ...]) -> list[int]:
    """The counts after which R is free and no & is cut off: there a sound dance may be left."""
    found: list[int] = []
    done = 0
    for one in whole:
        weights = {event.beat: event.weight for event in one.events}
        rests = (
            count
            for count in range(1, one.counts + 1)
            if weights.get(Fraction(count - 1)) == "L" and Fraction(2 * count - 1, 2) not in weights
        )
        found += (done + count for count in rests)
        done += one.counts
    return found


@st.composite
def sound(draw: st.DrawFn) -> Routine:
    """A dance in which nothing is wrong: tags, holds and restarts where R is free."""
    whole = draw(sections())
    bell = extra("tag", "Bell", *draw(lines(4)), line=1000)
    places = restful(whole)
    order: list[OrderLine] = []
    for number in draw(st.lists(st.integers(1, 6), unique=True, max_size=3)):
        count = draw(st.sampled_from(places))
        inserts = draw(st.lists(st.sampled_from([tag("Bell"), hold(1), hold(3)]), max_size=2))
        leave = draw(st.sampled_from(["continue", "restart"]))
        line = 2000 + number
        order.append(wall(number, after(count, *inserts, leave=leave, line=line), line=line))
    used = any(insert.name == "Bell" for one in order for dep in one.departures for insert in dep.inserts)
    return Routine(
        title="Drawn",
        tempo=Fraction(100),
        wait=draw(st.sampled_from([None, 8, 16])),
        counts=sum(one.counts for one in whole),
        parts=(Part(sections=whole),),
        extras=(bell,) if used else (),
        order=tuple(order),
    )


names = st.sampled_from(["", "A", "B", "Bell"])
spans = st.none() | st.builds(Span, st.integers(1, 30), st.integers(1, 9), st.integers(1, 9))
beats = st.fractions(Fraction(-2), Fraction(10), max_denominator=12)
facings = st.none() | st.integers(0, 15).map(lambda number: Fraction(number, 16))
gestures = st.builds(Gesture, foot=st.sampled_from(Foot), move=st.sampled_from(Move))
labels = st.sampled_from(["1", "2", "3", "4", "5", "6", "7", "8", "e", "&", "a"])


def events(other: Any) -> st.SearchStrategy[Event]:
    return st.builds(
        Event,
        label=labels,
        beat=beats,
        foot=st.none() | st.sampled_from(Foot),
        weight=st.sampled_from(["R", "L", "B", None]),
        turn=eighths,
        move=st.none() | st.sampled_from(Move),
        direction=st.none() | st.sampled_from(Direction),
        also=st.lists(gestures, max_size=1).map(tuple),
        facing=facings,
        status=st.sampled_from(["sure", "sure", "unsure", "unread"]),
        words=st.sampled_from(["", "step right"]),
        other=other,
        span=spans,
    )


runs = st.lists(events(st.none() | events(st.none())), max_size=6).map(tuple) | st.just(steps("1 R, 2 L, 3 R, 4 L"))
lengths = st.integers(-1, 10)
blocks = {"name": names, "counts": lengths, "events": runs, "span": spans, "title": st.just("4 counts")}
inserts = st.builds(
    Insert,
    kind=st.sampled_from(["tag", "bridge", "ending", "hold"]),
    name=names,
    counts=st.integers(-2, 2000),
    span=spans,
)
departures = st.builds(
    Departure,
    after=st.integers(-2, 25),
    before=st.none() | labels,
    change=st.sampled_from(["", "", "A", "Bell"]),
    first=st.integers(-1, 12),
    inserts=st.lists(inserts, max_size=2).map(tuple),
    leave=st.sampled_from(["continue", "restart", "next", "end"]),
    facing=facings,
    span=spans,
)
order_lines = st.builds(
    OrderLine,
    part=names,
    passes=st.lists(st.integers(-1, 9), max_size=3).map(tuple),
    starts=facings,
    squared=eighths,
    departures=st.lists(departures, max_size=3).map(tuple),
    span=spans,
)
extras = st.builds(
    Extra, **blocks, kind=st.sampled_from(["intro", "tag", "bridge", "change", "ending"]), starts=facings
)
options = st.builds(
    Option, part=names, section=names, first=st.integers(-1, 9), last=st.integers(-1, 9), events=runs, span=spans
)
play_items = st.builds(
    PlayItem, kind=st.sampled_from(["part", "part", "tag", "ending", "hold"]), name=names, counts=st.integers(-1, 9)
)
anything = st.builds(
    Routine,
    title=st.just("Anything"),
    tempo=st.sampled_from([None, Fraction(0), Fraction(-7), Fraction(96)]),
    time=st.sampled_from(["4/4", "3/4", "2/4"]),
    feel=st.sampled_from(["straight", "swung", "rolling"]),
    starts=st.sampled_from(["R", "L", "B"]),
    counts=st.none() | lengths,
    walls=st.none() | st.integers(-1, 9),
    wait=st.none() | st.integers(-8, 64),
    squares=eighths,
    parts=st.lists(
        st.builds(Part, name=names, sections=st.lists(st.builds(Section, **blocks), max_size=3).map(tuple)), max_size=3
    ).map(tuple),
    extras=st.lists(extras, max_size=4).map(tuple),
    options=st.lists(options, max_size=2).map(tuple),
    order=st.lists(order_lines, max_size=3).map(tuple),
    play=st.just(()) | st.lists(play_items, max_size=5).map(tuple),
    repeats=st.booleans(),
)
