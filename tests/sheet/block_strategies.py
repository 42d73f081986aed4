"""Blocks of events for property tests: any step on any count, figures of the table, unread and unsure steps.

Labels and beats agree; the footwork need not be danceable.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from typing import Any

from hypothesis import strategies as st

from trainer.dance.counts import OFFSETS, label_of
from trainer.dance.figures import Figure, expand, figures
from trainer.routine import Gesture
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
    draw: st.DrawFn, feel: Feel, phrase: int, *, start: int = 1, base: int = 0, most: int = 6, least: int = 0
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
        name, length, key = (
            draw(st.one_of(st.sampled_from(sorted(figures())), NAMES)),
            draw(st.integers(1, 4)),
            object(),
        )
        for index, one in enumerate(made[at : at + length]):
            one.fields |= draw(single())
            one.figure = (key, name, index)
        return length
    made[at].fields |= draw(single())
    return 1


@cache
def _fitting(ahead: tuple[Any, ...]) -> list[tuple[Figure, int]]:
    """The figures that may be danced to the first labels ahead, and how many they take."""
    return [
        (figure, length)
        for figure in figures().values()
        for length in range(1, len(ahead) + 1)
        if next(figure.fitting(ahead[:length]), None) is not None
    ]


@st.composite
def _table_figure(draw: st.DrawFn, ahead: list[Any]) -> tuple[str, list[dict[str, Any]]] | None:
    """A figure of the table danced to the labels ahead, if one fits."""
    fitting = _fitting(tuple(ahead[:8]))
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
