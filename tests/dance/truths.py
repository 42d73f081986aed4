"""Routines made from the truths of teachers' sheets (tests/data/sheets, see FORMAT.md there).

A truth tells the label, foot, weight and facing of every count, but no names of steps; the moves here are guessed from
what they do to the weight. How a truth is danced is worked out by its scorer, which shares nothing with the program.
"""

import importlib.util
import json
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

from trainer.dance.counts import is_number, offset
from trainer.dance.facing import between, read_clock
from trainer.routine import Departure, Event, Extra, Insert, OrderLine, Part, PlayItem, Routine, Section
from trainer.terms import Foot, Move

FOLDER = Path(__file__).parent.parent / "data" / "sheets"
Told = list[Any]
"""Label, foot, weight, facing."""


def truths() -> list[Path]:
    """Return every truth there is."""
    return sorted(FOLDER.rglob("*.truth.json"))


def danced_walls(truth: dict[str, Any]) -> list[list[Told]]:
    """Return the walls of a truth as its scorer dances them."""
    return [[event[:4] for event in wall] for wall in _scorer().unrolled(truth)]


def _scorer() -> Any:
    spec = importlib.util.spec_from_file_location("sheet_scorer", FOLDER / "score.py")
    assert spec is not None
    assert spec.loader is not None
    scorer = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(scorer)
    return scorer


_AGAIN = " again"


def routine_of(path: Path) -> tuple[Routine, list[list[Told]]]:
    """Return the routine that a truth tells, and its walls as danced."""
    truth = json.loads(path.read_text(encoding="utf-8"))
    walls = danced_walls(truth)
    parts = tuple(_parts(truth))
    extras = dict(_extras(truth, walls))
    phrased = bool(parts[0].name)
    told = {"time": truth["meter"], "feel": truth["feel"], "starts": truth["start_weight"], "tempo": Fraction(100)}
    return Routine(
        title=path.name,
        parts=parts,
        extras=tuple(extras.values()),
        order=tuple(_order(truth, parts, extras)),
        play=tuple(PlayItem(kind="part", name=one["part"]) for one in truth["order"]) if phrased else (),
        repeats=not phrased,
        counts=None if phrased else truth.get("counts"),
        walls=None if phrased else truth.get("walls"),
        **told,
    ), walls


def _events(told: list[Told], feel: Any, facing: Fraction, weight: Any) -> tuple[Event, ...]:
    """Make the events of a block that begins with a facing and a weight."""
    events, number = [], 0
    for label, foot, after, clock in told:
        number += is_number(label)
        beat, faces = Fraction(number - 1) + (offset(label, feel) or 0), read_clock(clock)
        assert faces is not None
        place = {"label": label, "beat": beat, "foot": Foot(foot), "weight": after, "facing": faces}
        events.append(Event(move=_move(foot, weight, after), turn=between(facing, faces), **place))
        facing, weight = faces, after
    return tuple(events)


def _move(foot: str, before: str, after: str) -> Move:
    if foot not in ("R", "L"):
        return Move.HOLD if before == after else Move.JUMP if foot == "B" else Move.SWAY
    if foot == after:
        return Move.SWAY if foot == before else Move.STEP
    return Move.TOUCH if after == before or before == "B" else Move.STOMP


def _whole(told: list[Told]) -> int:
    return sum(is_number(label) for label, *_ in told)


def _parts(truth: dict[str, Any]) -> Iterator[Part]:
    for name in dict.fromkeys(one.get("part") or "" for one in truth["order"]):
        named = truth.get("parts", {}).get(name)
        facing, weight, sections = Fraction(0), truth["start_weight"], []
        for one in truth["sections"]:
            if name and not (one["name"] in named if named else one["name"].startswith(name)):
                continue
            events = _events(one["events"], truth["feel"], facing, weight)
            sections.append(Section(name=one["name"], counts=one.get("counts", _whole(one["events"])), events=events))
            facing, weight = events[-1].facing, events[-1].weight
        yield Part(name=name, sections=tuple(sections))


def _extras(truth: dict[str, Any], walls: list[list[Told]]) -> Iterator[tuple[str, Extra]]:
    """Yield the extras by name, each with the turns that it makes where it is danced first."""
    seen: set[str] = set()
    opening: set[str] = set()
    for place, one in enumerate(truth["order"]):
        for called, at in one.get("extras") or ():
            # A danced intro that comes again is a tag there.
            name = f"{called}{_AGAIN}" if at and called in opening else called
            opening |= set() if at else {called}
            if name in seen:
                continue
            seen.add(name)
            told, wall = truth["extras"][called], walls[place]
            ends = one.get("leaves") == "ends" or name.startswith(("End", "Finish"))
            if at == 0:
                kind, facing, weight = "intro", read_clock(told[0][3]), "R" if told[0][1] == "L" else "L"
            else:
                first = max(i for i in range(len(wall)) if wall[i : i + len(told)] == told)
                kind, facing, weight = "ending" if ends else "tag", read_clock(wall[first - 1][3]), wall[first - 1][2]
            assert facing is not None
            events = _events(told, truth["feel"], facing, weight)
            starts = facing if at == 0 else None
            yield name, Extra(kind=kind, name=called, counts=_whole(told), events=events, starts=starts)


def _order(truth: dict[str, Any], parts: tuple[Part, ...], extras: dict[str, Extra]) -> Iterator[OrderLine]:
    """Yield a line for each wall: its start, its extras, and how it is left."""
    counts = {part.name: part.counts for part in parts}
    starts: dict[str, int] = {}
    for one in truth["order"]:
        part = one.get("part") or ""
        starts[part] = starts.get(part, 0) + 1
        departures: list[Departure] = []
        for name, at in sorted(one.get("extras") or (), key=lambda extra: extra[1]):
            if at:
                insert = Insert(kind=extras.get(f"{name}{_AGAIN}", extras[name]).kind, name=name)
                departures.append(Departure(after=int(at), before=_before(truth, part, at), inserts=(insert,)))
        leave = {"ends": "end"}.get(one.get("leaves"), "next" if part else "restart")
        if one["danced"] < counts[part]:
            after = int(one["danced"])
            if not departures or departures[-1].after != after:
                departures.append(Departure(after=after, before=_before(truth, part, one["danced"])))
            departures[-1] = departures[-1].but(leave=leave)
        begins = read_clock(one["start"])
        yield OrderLine(part=part, passes=(starts[part],), departures=tuple(departures), starts=begins)


def _before(truth: dict[str, Any], part: str, at: float) -> Any:
    """Return the label that comes next where a wall is left between two counts, such as 28.5; None at a whole count."""
    if at == int(at):
        return None
    names = (truth.get("parts") or {}).get(part)
    sections = [one for one in truth["sections"] if names is None or one["name"] in names]
    size = 6 if truth["meter"].startswith("3") else 8
    return next(event[0] for here, event, _ in _scorer().numbered(sections, size) if here > at)
