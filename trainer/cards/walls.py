"""The order of a dance as the list that a dancer learns by heart: start, how much is danced, then what, facing, cue."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.cards.model import CardThen, CardWall
from trainer.cards.words import plain, turned
from trainer.dance.timeline import Pass, Timeline
from trainer.practice.chart import Chart
from trainer.practice.marks import Mark
from trainer.practice.roadmap import WallRow, road_map

_LONG = 12
"""Walls from which on plain ones in a row are told together."""
_TOGETHER = 3
"""Plain walls in a row, at least, that are told together."""
_LONGEST_NAME = 120
_MOST = 60
"""Rows; what comes after them is only counted."""


def wall_list(timeline: Timeline) -> tuple[tuple[CardWall, ...], str]:
    """Return the order of a dance, and how it goes on after that; empty where it ends."""
    rows = road_map(Chart(timeline)) if timeline.passes else ()
    walls = [wall for row in rows for wall in _walls(timeline, row)]
    if len(walls) > _LONG:
        walls = list(_together(walls))
    if len(walls) > _MOST:
        return tuple(walls[:_MOST]), f"and {len(walls) - _MOST} rows more, too many for a card"
    return tuple(walls), _going_on(timeline) if timeline.open_ended and walls else ""


def called(kind: str, name: str) -> str:
    """Return the name of an extra; empty where it says no more than what it is."""
    return plain(name, _LONGEST_NAME) if name.casefold() != kind else ""


def _going_on(timeline: Timeline) -> str:
    return "and so on, in the same order" if timeline.routine.phrased else "and so on, wall after wall"


def _walls(timeline: Timeline, row: WallRow) -> Iterator[CardWall]:
    one = timeline.passes[row.index]
    for stretch in one.stretches:
        if stretch.block.kind == "intro":
            counts = _counts(stretch.block.counts)
            yield CardWall(name="intro", part="", starts=(stretch.facing,), danced=counts, then=(), cue="")
    part = timeline.routine.part(one.part)
    whole = part.counts if part is not None else 0
    reached = _reached(one)
    then = [_then(mark, one, whole, reached) for mark in row.marks]
    if one.squared:
        facing = (one.facing + one.squared) % 1
        then.insert(0, CardThen(text=f"square up {turned(one.squared)} on 1", facing=facing))
    following = timeline.passes[row.index + 1 : row.index + 2]
    if timeline.routine.phrased and reached < whole and not row.leaves and following:
        then.append(CardThen(text=plain(f"on to {following[0].part}"), facing=one.end_facing))
    yield CardWall(
        name=str(row.number),
        part=plain(one.part),
        starts=(row.facing,),
        danced="all" if reached >= whole else f"1–{reached}" if reached else "none",
        then=tuple(then),
        cue=plain(row.cue),
    )


def _reached(one: Pass) -> int:
    """Return the counts of its part that a pass dances or replaces."""
    reached = 0
    for stretch in one.stretches:
        if stretch.block.kind == "part":
            reached = int(stretch.ends - stretch.beat)
        elif stretch.block.kind == "change":
            reached += stretch.block.counts
    return reached


def _then(mark: Mark, one: Pass, whole: int, reached: int) -> CardThen:
    """Return one departure; where it is said only where the wall goes on, else "1–16" has said it."""
    kind = mark.kind.lower()
    named = f"{kind} {called(kind, mark.name)}".rstrip()
    length = _counts(mark.counts)
    if mark.kind == "CHANGE":
        counts = f"{mark.after + 1}–{mark.after + mark.counts}" if mark.counts > 1 else f"{mark.after + 1}"
        return CardThen(text=f"{counts} become {named}", facing=mark.facing)
    if mark.kind == "RESTART":
        return CardThen(text="restart", facing=mark.facing)
    if mark.kind == "END":
        ending = f"ending {called('ending', mark.name)}".rstrip()
        return CardThen(text=f"{ending}, {length}" if mark.counts else "end", facing=mark.facing)
    before = next((gone.before for gone in one.departures if gone.after == mark.after and gone.before), None)
    if mark.after >= whole or (mark.after == reached and not before):
        return CardThen(text=f"{named}, {length}", facing=mark.facing)
    place = f"after {mark.after} before {before}" if before else f"after {mark.after}"
    text = f"{place}: hold {mark.counts}" if mark.kind == "HOLD" else f"{place}: {named}, {length}"
    return CardThen(text=text, facing=mark.facing)


def _together(walls: Sequence[CardWall]) -> Iterator[CardWall]:
    """Yield the walls with plain ones in a row told together."""
    run: list[CardWall] = []
    for wall in walls:
        if _plain(wall) and (not run or run[-1].part == wall.part):
            run.append(wall)
            continue
        yield from _told(run)
        run = [wall] if _plain(wall) else []
        if not run:
            yield wall
    yield from _told(run)


def _told(run: Sequence[CardWall]) -> Iterator[CardWall]:
    if len(run) < _TOGETHER:
        yield from run
        return
    starts = [facing for wall in run for facing in wall.starts]
    yield replace(run[0], name=f"{run[0].name}–{run[-1].name}", starts=tuple(_once_round(starts)))


def _once_round(starts: Sequence[Fraction]) -> Sequence[Fraction]:
    """Return facings up to where they begin to repeat."""
    for length in range(1, len(starts)):
        if all(facing == starts[index % length] for index, facing in enumerate(starts)):
            return starts[:length]
    return starts


def _plain(wall: CardWall) -> bool:
    return wall.danced == "all" and not wall.then and not wall.cue and wall.name != "intro"


def _counts(number: int) -> str:
    return f"{number} count{'s' if number != 1 else ''}"
