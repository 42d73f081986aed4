"""Routines of every kind for property tests: what a reader can make of a sheet, and more than a teacher would write.

`routines()` gives whole routines; block_strategies.py has the events of their blocks. Figures have numbers in reading
order, and the other reading of an unsure event shares its count, words, styling, facing and figure. The footwork need
not be danceable: the laws are not the sheet's.
"""

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from typing import Any

from block_strategies import FACINGS, MAYBE_TURN, NAMES, TEXTS, WEIGHTS, Block, Made, blocks
from hypothesis import strategies as st

from trainer.routine import (
    Departure,
    Event,
    Extra,
    FigureMark,
    Insert,
    Option,
    OrderLine,
    Part,
    PlayItem,
    Routine,
    Section,
)
from trainer.terms import Feel


def _event(one: Made, numbers: dict[object, int]) -> Event:
    fields = dict(one.fields)
    other = fields.pop("other", None)
    mark = None
    if one.figure is not None:
        key, name, index = one.figure
        mark = FigureMark(id=numbers.setdefault(key, len(numbers) + 1), name=name, index=index)
    event = Event(**fields, figure=mark)
    if other is None:
        return event
    blank = {"turn": Fraction(0), "then": Fraction(0), "also": (), "asides": (), "direction": None, "status": "sure"}
    return event.but(other=event.but(**{**blank, "other": None, **other}))


def _events(block: Block, numbers: dict[object, int]) -> tuple[Event, ...]:
    return tuple(_event(one, numbers) for one in block.events)


Extras = list[tuple[str, str, Block]]
Parts = list[tuple[str, list[tuple[str, Block]]]]


@st.composite
def routines(draw: st.DrawFn) -> Routine:
    """A whole routine."""
    feel: Feel = draw(st.sampled_from(["straight", "swung", "rolling"]))
    time = draw(st.sampled_from(["4/4", "3/4", "2/4"]))
    phrase = 6 if time == "3/4" else 8
    phrased = draw(st.booleans())
    names = draw(st.lists(NAMES, min_size=1, max_size=2, unique=True)) if phrased else [""]
    intro = draw(st.one_of(st.none(), blocks(feel, phrase, least=1)))
    section = st.tuples(NAMES, blocks(feel, phrase, least=1))
    parts: Parts = [(name, draw(st.lists(section, max_size=3, unique_by=lambda one: one[0]))) for name in names]
    extras = draw(_extras(feel, phrase))
    _carry(draw, [block for _, sections in parts for _, block in sections], phrased=phrased)
    options = [
        draw(_options(name, sections, feel, phrase)) for name, sections in parts if sections and draw(st.booleans())
    ]
    numbers: dict[object, int] = {}
    opening = [_intro(draw, intro, numbers)] if intro is not None else []
    made_parts = _parts(draw, parts, numbers)
    made = [_extra(draw, *extra, numbers) for extra in extras]
    return Routine(
        **draw(_header(time, feel)),
        parts=made_parts,
        extras=tuple([*opening, *made] if draw(st.booleans()) else [*made, *opening]),
        options=tuple(option.but(events=_events(block, numbers)) for option, block in options),
        order=draw(st.lists(_order_lines(names), max_size=3).map(tuple)),
        play=draw(_play(names)) if phrased else (),
        repeats=draw(st.booleans()) if phrased else True,
    )


@st.composite
def _extras(draw: st.DrawFn, feel: Feel, phrase: int) -> Extras:
    start = st.integers(1, phrase)
    kind = st.sampled_from(["tag", "bridge", "change", "ending"])
    block = start.flatmap(lambda number: blocks(feel, phrase, start=number, least=1))
    return draw(st.lists(st.tuples(kind, NAMES, block), max_size=2, unique_by=lambda extra: extra[:2]))


def _extra(draw: st.DrawFn, kind: Any, name: str, block: Block, numbers: dict[object, int]) -> Extra:
    events = _events(block, numbers)
    return Extra(kind=kind, name=name, title=draw(TEXTS), counts=block.counts, feel=block.feel, events=events)


def _intro(draw: st.DrawFn, block: Block, numbers: dict[object, int]) -> Extra:
    starts = draw(st.one_of(st.none(), FACINGS))
    events = _events(block, numbers)
    return Extra(kind="intro", name="", starts=starts, counts=block.counts, feel=block.feel, events=events)


def _parts(draw: st.DrawFn, parts: Parts, numbers: dict[object, int]) -> tuple[Part, ...]:
    made = tuple(
        Part(
            name=name,
            sections=tuple(
                Section(
                    name=section,
                    title=draw(TEXTS),
                    counts=block.counts,
                    feel=block.feel,
                    events=_events(block, numbers),
                )
                for section, block in sections
            ),
        )
        for name, sections in parts
    )
    return () if made == (Part(),) and draw(st.booleans()) else made


def _carry(draw: st.DrawFn, sections: list[Block], *, phrased: bool) -> None:
    """Let some figures run over the end of a section; of a dance that is not phrased over its end into its start."""
    pairs = list(pairwise(sections))
    pairs += [] if phrased or len(sections) < 2 else [(sections[-1], sections[0])]
    for before, after in pairs:
        last, first = before.events[-1], after.events[0]
        if last.figure is None or first.fields["beat"] or (first.figure and first.figure[2]) or draw(st.booleans()):
            continue
        key, name, index = last.figure
        first.figure = (key, name, index + 1)
        if draw(st.booleans()):
            first.fields |= {"words": last.fields["words"], "styling": last.fields["styling"]}
            last.fields["facing"] = None
        rest = after.events[1] if len(after.events) > 1 else None
        if rest is not None and rest.figure is not None and rest.figure[2]:
            rest.figure = None
        for one, two in zip(after.events[1:], after.events[2:], strict=False):
            if two.figure and two.figure[2] and one.figure is None:
                two.figure = None


@st.composite
def _options(
    draw: st.DrawFn, part: str, sections: list[tuple[str, Block]], feel: Feel, phrase: int
) -> tuple[Option, Block]:
    name, section = draw(st.sampled_from(sections))
    first = draw(st.integers(1, section.counts))
    last = draw(st.integers(first, section.counts))
    start = (first - 1) % phrase + 1
    length = last - first + 1
    block = draw(blocks(section.feel or feel, phrase, start=start, base=first - 1, least=length, most=length))
    if block.feel not in (None, section.feel or feel):
        block.events, block.feel = [], None
        first = last = 1
        block = Block([], 0, None)
    return Option(part=part, section=name, first=first, last=last, title=draw(TEXTS)), block


def _positive(limit: int = 40) -> st.SearchStrategy[int]:
    return st.integers(1, limit)


@st.composite
def _header(draw: st.DrawFn, time: str, feel: Feel) -> dict[str, Any]:
    return {
        "title": draw(TEXTS),
        "tune": draw(TEXTS),
        "by": draw(TEXTS),
        "tempo": draw(st.one_of(st.none(), st.fractions(1, 300, max_denominator=12))),
        "time": time,
        "feel": feel,
        "starts": draw(WEIGHTS),
        "counts": draw(st.one_of(st.none(), _positive())),
        "walls": draw(st.one_of(st.none(), _positive(4))),
        "level": draw(TEXTS),
        "wait": draw(st.one_of(st.none(), st.integers(0, 64))),
        "wait_from": draw(TEXTS),
        "squares": draw(MAYBE_TURN),
        "notes": draw(st.lists(TEXTS, max_size=2).map(tuple)),
    }


INSERTS = st.one_of(
    st.builds(Insert, kind=st.sampled_from(["tag", "bridge", "ending"]), name=NAMES),
    st.builds(Insert, kind=st.just("hold"), counts=st.integers(0, 8)),
)


@st.composite
def _departures(draw: st.DrawFn) -> Departure:
    change = draw(st.one_of(st.just(""), NAMES))
    after = draw(st.integers(1, 64))
    return Departure(
        after=after,
        before=draw(st.sampled_from([None, None, "&", "a", "e", "1", "8"])),
        change=change,
        first=draw(st.integers(1, after)) if change else 0,
        inserts=draw(st.lists(INSERTS, max_size=2).map(tuple)),
        leave=draw(st.sampled_from(["continue", "restart", "next", "end"])),
        facing=draw(st.one_of(st.none(), FACINGS)),
    )


@st.composite
def _order_lines(draw: st.DrawFn, parts: Iterable[str]) -> OrderLine:
    return OrderLine(
        part=draw(st.sampled_from(list(parts))),
        passes=draw(st.lists(st.integers(1, 30), min_size=1, max_size=4).map(tuple)),
        starts=draw(st.one_of(st.none(), FACINGS)),
        squared=draw(MAYBE_TURN),
        departures=draw(st.lists(_departures(), max_size=2).map(tuple)),
        cue=draw(TEXTS),
    )


@st.composite
def _play(draw: st.DrawFn, parts: list[str]) -> tuple[PlayItem, ...]:
    item = st.one_of(
        st.builds(PlayItem, kind=st.just("part"), name=st.sampled_from(parts)),
        st.builds(PlayItem, kind=st.sampled_from(["tag", "bridge", "ending"]), name=NAMES),
        st.builds(PlayItem, kind=st.just("hold"), counts=st.integers(0, 8)),
    )
    return draw(st.lists(item, min_size=1, max_size=4).map(tuple))
