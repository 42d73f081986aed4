"""Routines for tests, made from short lines.

A line holds events divided by commas: a label, a foot, and in any order a move (a step where none is said; blanks
written as _), `>R` the weight afterwards, `+1/4` or `-1/2` a turn, `@3:00` a stated facing, `|L_sweep` a gesture,
`#3:0:name` the figure. Each line of a block stands on its own line of an imagined sheet.
"""

from fractions import Fraction
from typing import Any

from trainer.dance.counts import is_number, offset
from trainer.dance.facing import read_clock
from trainer.dance.figures import weight_after
from trainer.dance.proof import proofread
from trainer.problems import loud
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
    Span,
)
from trainer.terms import Feel, Foot, Move, Weight


def steps(
    *lines: str, before: Weight = "L", feel: Feel = "straight", line: int = 1, first: int = 1
) -> tuple[Event, ...]:
    """Make the events of a block; the first whole count is count `first` of it."""
    events: list[Event] = []
    number = first - 1
    carries: Weight | None = before
    for place, text in enumerate(lines):
        column = 1
        for item in text.split(","):
            label, foot, *words = item.split()
            number += is_number(label)
            beat = Fraction(number - 1) + (offset(label, feel) or 0)
            told = _told(words)
            move = told.pop("move", Move.STEP)
            carries = told.pop("weight", weight_after(move, Foot(foot), carries))
            where = Span(line + place, column, len(item.strip()))
            told |= {"label": label, "beat": beat, "foot": Foot(foot), "weight": carries, "move": move, "span": where}
            events.append(Event(**told))
            column += len(item) + 1
    return tuple(events)


def _told(words: list[str]) -> dict[str, Any]:
    told: dict[str, Any] = {}
    for word in words:
        rest = word[1:]
        if word[0] == ">":
            told["weight"] = rest
        elif word[0] in "+-":
            told["turn"] = Fraction(rest) if word[0] == "+" else -Fraction(rest)
        elif word[0] == "@":
            told["facing"] = read_clock(rest)
        elif word[0] == "|":
            foot, move = rest.split("_", 1)
            told["also"] = (Gesture(foot=Foot(foot), move=Move(move.replace("_", " "))),)
        elif word[0] == "#":
            mark, index, name = rest.split(":")
            told["figure"] = FigureMark(id=int(mark), index=int(index), name=name)
        else:
            told["move"] = Move(word.replace("_", " "))
    return told


def unread(label: str, beat: int | Fraction, line: int = 1, words: str = "gribble the left") -> Event:
    """Make an event whose words nobody could read."""
    place = {"label": label, "beat": Fraction(beat), "span": Span(line, 9, len(words))}
    return Event(foot=None, weight=None, words=words, status="unread", **place)


def section(name: str, *lines: str, counts: int | None = None, line: int = 1, **how: Any) -> Section:
    """Make a section with its heading on `line`; its length is that of its whole counts, where none is given."""
    events = steps(*lines, line=line + 1, **how)
    whole = sum(is_number(event.label) for event in events)
    length = whole if counts is None else counts
    return Section(name=name, counts=length, events=events, span=Span(line, 1, 6), feel=how.get("feel"))


def extra(kind: Any, name: str, *lines: str, starts: str | None = None, line: int = 100, **how: Any) -> Extra:
    """Make an extra; `starts` is the clock that a danced intro begins with."""
    made = section(name, *lines, line=line, **how)
    fields = {key: getattr(made, key) for key in Section.model_fields}
    return Extra(kind=kind, starts=read_clock(starts) if starts else None, **fields)


WALK = "1 R, 2 L, 3 R, 4 L"
EIGHT = "1 R, 2 L, 3 R, 4 L, 5 R, 6 L, 7 R, 8 L"
QUARTER = "1 R, 2 L, 3 R, 4 L, 5 R +1/4, 6 L, 7 R, 8 L"
"""Eight walks that turn a quarter right on 5."""


def dance(*sections: Section, **fields: Any) -> Routine:
    """Make a dance that is not phrased; without sections, of 16 counts that turn a quarter right on count 13."""
    sections = sections or (section("1", EIGHT, line=10), section("2", QUARTER, line=20))
    return Routine(**{"title": "Quay", "tempo": Fraction(120), "parts": (Part(sections=sections),), **fields})


def phrased(play: str, *extras: Extra, **fields: Any) -> Routine:
    """Make a phrased dance: A of 8 counts turns a half, B of 4 does not; lower-case words of the play are tags."""
    parts = (
        Part(name="A", sections=(section("A1", "1 R, 2 L, 3 R, 4 L, 5 R +1/2, 6 L, 7 R, 8 L", line=10),)),
        Part(name="B", sections=(section("B1", WALK, line=20),)),
    )
    items = tuple(PlayItem(kind="part" if word.isupper() else "tag", name=word) for word in play.split())
    whole = {"title": "Quay", "tempo": Fraction(120), "parts": parts, "extras": extras, "play": items}
    return Routine(**{**whole, "repeats": False, **fields})


def wall(
    numbers: int | tuple[int, ...], *departures: Departure, part: str = "", line: int = 200, **fields: Any
) -> OrderLine:
    """Make an order line."""
    passes = (numbers,) if isinstance(numbers, int) else numbers
    return OrderLine(part=part, passes=passes, departures=departures, span=Span(line, 1, 20), **fields)


def after(count: int, *inserts: Insert, leave: Any = "continue", line: int = 200, **fields: Any) -> Departure:
    """Make a departure after a count."""
    return Departure(after=count, inserts=inserts, leave=leave, span=Span(line, 9, 10), **fields)


def changed(first: int, last: int, name: str, *inserts: Insert, leave: Any = "continue", **fields: Any) -> Departure:
    """Make a departure that changes some counts."""
    return after(last, *inserts, leave=leave, first=first, change=name, **fields)


def tag(name: str, kind: Any = "tag") -> Insert:
    """Make an insert of a tag, or of a bridge or ending."""
    return Insert(kind=kind, name=name, span=Span(200, 20, 8))


def hold(counts: int) -> Insert:
    """Make a hold of an order line."""
    return Insert(kind="hold", counts=counts, span=Span(200, 20, 6))


def option(first: int, last: int, *lines: str, section: str = "2", line: int = 300, **how: Any) -> Option:
    """Make an option for some counts of a section."""
    events = steps(*lines, line=line + 1, first=first, **how)
    return Option(section=section, first=first, last=last, events=events, span=Span(line, 1, 6))


def said(routine: Routine) -> list[tuple[int, str, str]]:
    """Return the line, kind and message of each error and warning that proofreading finds."""
    return [(one.line, one.kind, one.message) for one in loud(proofread(routine))]
