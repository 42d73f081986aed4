"""Routines of every kind for property tests: what a reader can make of a sheet, and more than a teacher would write.

`routines()` gives whole routines, `blocks(...)` the events of one block. Labels and beats agree, figures have numbers in
reading order, and the other reading of an unsure event shares its count, words, styling, facing and figure. Footwork need
not be danceable: the laws are not the sheet's.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from trainer.dance.counts import OFFSETS, label_of
from trainer.dance.figures import expand, figures
from trainer.routine import (
    Departure,
    Event,
    Extra,
    FigureMark,
    Gesture,
    Insert,
    Option,
    OrderLine,
    Part,
    PlayItem,
    Routine,
    Section,
)
from trainer.terms import Direction, Feel, Foot, Move

LETTERS = st.characters(exclude_categories=["Cs"])
TEXTS = st.one_of(
    st.sampled_from(["", "words", "over the left shoulder", 'he said "go"', "a  # b", "1/4 right; then, (so)", "# x"]),
    st.text(LETTERS, max_size=12),
)
NAMES = st.one_of(
    st.sampled_from(["Lantern", "tag", "A", "first", "Long Way", "1", "part", "repeat", ""]),
    st.text(LETTERS, max_size=6),
)
FACINGS = st.one_of(
    st.integers(0, 7).map(lambda eighths: Fraction(eighths, 8)),
    st.fractions(0, 1, max_denominator=48).filter(lambda facing: facing < 1),
)
TURNS = st.one_of(
    st.just(Fraction(0)),
    st.integers(-16, 16).map(lambda eighths: Fraction(eighths, 8)),
    st.fractions(-2, 2, max_denominator=24),
)
MAYBE_TURN = st.one_of(st.just(Fraction(0)), TURNS)
WEIGHTS = st.sampled_from(["R", "L", "B"])
FEET = st.sampled_from(list(Foot))
MOVES = st.sampled_from(list(Move))
DIRECTIONS = st.sampled_from([None, *Direction])
GESTURES = st.builds(Gesture, foot=FEET, move=MOVES, direction=DIRECTIONS)
ASIDES = st.sampled_from([(), ("large step",), ("weight R",), ("small, and low", "(so)"), ("x|y; z",)])


@dataclass
class Made:
    """An event in the making, with the figure that it belongs to as (key, name, index)."""

    fields: dict[str, Any]
    figure: tuple[object, str, int] | None = None


@dataclass
class Block:
    """A block in the making."""

    events: list[Made] = field(default_factory=list)
    counts: int = 0
    feel: Feel | None = None


@st.composite
def steps(draw: st.DrawFn) -> dict[str, Any]:
    """What is danced on one count, whether or not it can be."""
    turn, then = draw(MAYBE_TURN), draw(st.one_of(st.just(Fraction(0)), MAYBE_TURN))
    return {
        "foot": draw(FEET),
        "move": draw(MOVES),
        "direction": draw(DIRECTIONS),
        "weight": draw(WEIGHTS),
        "turn": turn + then,
        "then": then,
        "also": draw(st.lists(GESTURES, max_size=2).map(tuple)) if draw(st.booleans()) else (),
        "asides": draw(ASIDES),
    }


UNREAD = {"foot": None, "weight": None, "move": None, "status": "unread"}
PLAIN = [
    {"foot": Foot.RIGHT, "move": Move.STEP, "direction": Direction.FORWARD, "weight": "R"},
    {"foot": Foot.LEFT, "move": Move.WALK, "weight": "L"},
    {"foot": Foot.RIGHT, "move": Move.TOUCH, "direction": Direction.TOGETHER, "weight": "L"},
    {"foot": Foot.LEFT, "move": Move.KICK, "weight": "R"},
    {"foot": Foot.NONE, "move": Move.HOLD, "weight": "R"},
]


@st.composite
def single(draw: st.DrawFn) -> dict[str, Any]:
    """One event's own fields: mostly a plain step, now and then anything, unread or unsure."""
    kind = draw(st.integers(0, 9))
    if kind < 5:
        return dict(draw(st.sampled_from(PLAIN)))
    if kind < 8:
        return draw(steps())
    if kind == 8:
        return {**UNREAD, "words": draw(TEXTS), "asides": draw(ASIDES)}
    first = draw(st.one_of(steps(), st.builds(lambda words: {**UNREAD, "words": words}, TEXTS)))
    other = draw(st.one_of(st.none(), steps(), st.just(UNREAD)))
    return {**first, "status": "unsure", "other": other}


@st.composite
def labels(draw: st.DrawFn, feel: Feel, phrase: int, start: int, counts: int) -> list[tuple[str, Fraction]]:
    """Labels and beats of a block; beats from 0 on, the first number being `start`."""
    found: list[tuple[str, Fraction]] = []
    subs = sorted({offset: label for label, offset in OFFSETS[feel].items()}.items())
    if draw(st.integers(0, 4)) == 0:
        offset, label = draw(st.sampled_from(subs))
        found.append((label, offset - 1))
    for beat in range(counts):
        found.append((label_of((start - 1 + beat) % phrase + 1), Fraction(beat)))
        if draw(st.integers(0, 2)) == 0:
            chosen = draw(st.sets(st.sampled_from(subs), min_size=1, max_size=len(subs)))
            found += [(label, beat + offset) for offset, label in sorted(chosen)]
    return found


@st.composite
def blocks(
    draw: st.DrawFn, feel: Feel, phrase: int, *, start: int = 1, base: int = 0, most: int = 9, least: int = 0
) -> Block:
    """A block with its events, some of them in figures."""
    counts = draw(st.integers(least, most))
    own: Feel | None = draw(st.sampled_from([None, None, None, "straight", "swung", "rolling"]))
    slots = draw(labels(own or feel, phrase, start, counts)) if counts else []
    made = [Made({"label": label, "beat": base + beat}) for label, beat in slots]
    at = 0
    while at < len(made):
        at += draw(_fill(made, at))
    words = styling = ""
    for one in made:
        if draw(st.integers(0, 3)) == 0:
            words = draw(st.one_of(st.just(""), TEXTS))
            styling = draw(st.one_of(st.just(""), TEXTS))
        one.fields.setdefault("words", words)
        one.fields["styling"] = styling
        one.fields["facing"] = draw(st.one_of(st.none(), st.none(), FACINGS))
    return Block(made, counts, own)


@st.composite
def _fill(draw: st.DrawFn, made: list[Made], at: int) -> int:
    """Fill some events from a place on, and return how many."""
    kind = draw(st.integers(0, 3))
    if kind == 0:
        filled = draw(_table_figure([one.fields["label"] for one in made[at:]]))
        if filled is not None:
            name, events = filled
            key = object()
            for index, (one, fields) in enumerate(zip(made[at:], events, strict=False)):
                one.fields |= fields
                one.figure = (key, name, index)
            return len(events)
    if kind == 1:
        name, length, key = draw(st.one_of(st.sampled_from(sorted(figures())), NAMES)), draw(st.integers(1, 4)), object()
        for index, one in enumerate(made[at : at + length]):
            one.fields |= draw(single())
            one.figure = (key, name, index)
        return length
    made[at].fields |= draw(single())
    return 1


@st.composite
def _table_figure(draw: st.DrawFn, ahead: list[Any]) -> tuple[str, list[dict[str, Any]]] | None:
    """A figure of the table danced to the labels ahead, if one fits."""
    fitting = [
        (figure, length)
        for figure in figures().values()
        for length in range(1, min(len(ahead), 8) + 1)
        if next(figure.fitting(ahead[:length]), None) is not None
    ]
    if not fitting:
        return None
    figure, length = draw(st.sampled_from(fitting))
    foot = draw(st.sampled_from([Foot.RIGHT, Foot.LEFT])) if figure.needs_foot else Foot.NONE
    turn = draw(st.sampled_from([Fraction(0), figure.usual_turn(foot) or Fraction(1, 4), Fraction(-1, 2)]))
    way = draw(st.sampled_from([None, *figure.forms[0].ways]))
    steps_ = expand(figure.name, foot, ahead[:length], direction=way, turn=turn)
    if steps_ is None:
        return None
    first = "L" if foot is Foot.RIGHT else "R"
    return figure.name, [
        {
            "foot": step.foot,
            "move": step.move,
            "direction": step.direction,
            "weight": step.weight or first,
            "turn": step.turn,
            "then": step.then,
        }
        for step in steps_
    ]


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


@st.composite
def routines(draw: st.DrawFn) -> Routine:
    """A whole routine."""
    feel: Feel = draw(st.sampled_from(["straight", "swung", "rolling"]))
    time = draw(st.sampled_from(["4/4", "3/4", "2/4"]))
    phrase = 6 if time == "3/4" else 8
    phrased = draw(st.booleans())
    part_names = draw(st.lists(NAMES, min_size=1, max_size=2, unique=True)) if phrased else [""]
    intro = draw(st.one_of(st.none(), blocks(feel, phrase, least=1)))
    parts = [
        (name, draw(st.lists(st.tuples(NAMES, blocks(feel, phrase, least=1)), max_size=3, unique_by=lambda s: s[0])))
        for name in part_names
    ]
    extras = draw(
        st.lists(
            st.tuples(
                st.sampled_from(["tag", "bridge", "change", "ending"]),
                NAMES,
                st.integers(1, phrase).flatmap(lambda start: blocks(feel, phrase, start=start, least=1)),
            ),
            max_size=2,
            unique_by=lambda extra: extra[:2],
        )
    )
    _carry(draw, [block for _, sections in parts for _, block in sections], phrased=phrased)
    options = [draw(_options(name, sections, feel, phrase)) for name, sections in parts if sections and draw(st.booleans())]
    numbers: dict[object, int] = {}
    made_intro = _events(intro, numbers) if intro is not None else ()
    made_parts = _parts(draw, parts, numbers)
    made_extras = tuple(
        Extra(kind=kind, name=name, title=draw(TEXTS), counts=block.counts, feel=block.feel, events=_events(block, numbers))
        for kind, name, block in extras
    )
    if intro is not None:
        opening = Extra(
            kind="intro",
            name="",
            starts=draw(st.one_of(st.none(), FACINGS)),
            counts=intro.counts,
            feel=intro.feel,
            events=made_intro,
        )
        made_extras = (opening, *made_extras) if draw(st.booleans()) else (*made_extras, opening)
    return Routine(
        **draw(_header(time, feel)),
        parts=made_parts,
        extras=made_extras,
        options=tuple(option.but(events=_events(block, numbers)) for option, block in options),
        order=draw(st.lists(_order_lines(part_names if phrased else [""]), max_size=3).map(tuple)),
        play=draw(_play(part_names)) if phrased else (),
        repeats=draw(st.booleans()) if phrased else True,
    )


def _parts(draw: st.DrawFn, parts: list[tuple[str, list[tuple[str, Block]]]], numbers: dict[object, int]) -> tuple[Part, ...]:
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
    pairs = list(zip(sections, sections[1:], strict=False))
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
