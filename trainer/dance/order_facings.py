"""Laws of facing over the whole dance: where the order says that walls begin or are left, and the walls declared.

Order lines are stated in the room. "Wall 3 after 16, facing 6:00" may mean the start of the wall or the moment of
departure: it is a fault only if neither agrees, and one of the order, since another wall may be meant. Declared walls
are the directions that the plain dance begins in; they are never held against a phrased dance. Several timelines are
given where the turns are in doubt: as they are written, and as other statements of the sheet want them; then either
may agree.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.dance.facing import HOME, between, clock, is_diagonal, turn_text
from trainer.dance.facing_laws import Belief
from trainer.dance.findings import finding, number_of
from trainer.dance.passes import pass_numbers
from trainer.dance.timeline import Pass, Stretch, Timeline
from trainer.problems import Kind, Problem
from trainer.routine import Departure, OrderLine, Routine

_MOST_WALLS = 64
"""Directions after which a dance that does not come home is no longer followed."""
_EIGHTHS = tuple(Fraction(eighth, 8) for eighth in range(1, 8))


def room_findings(routine: Routine, timelines: Sequence[Timeline]) -> list[Problem]:
    """Return what is wrong with the facings of the order, and with the walls declared."""
    room = _Room(plain=not routine.phrased)
    found = list(_order(routine, timelines, room))
    return [*found, *_walls(routine, timelines, room)]


def room_shifts(routine: Routine, timelines: Sequence[Timeline]) -> list[frozenset[Fraction]]:
    """Return by how much the facings of each pass may be off, as far as the order tells up to there."""
    room = _Room(plain=not routine.phrased)
    for _ in _order(routine, timelines, room):
        pass
    shifts: list[frozenset[Fraction]] = []
    for place in range(len(timelines[0].passes)):
        told = room.told.get(place)
        shifts.append(told or (shifts[-1] if shifts else frozenset({HOME})))
    return shifts


class _Room:
    """What is believed of the facings in the room, from wall to wall.

    After the first mismatch the statement may be wrong, or some turn before it; or each wall may turn by another amount
    than it should, and a wall list is then off by more on every wall. Each of these is one fault.
    """

    def __init__(self, *, plain: bool) -> None:
        self.belief = Belief()
        self.off_a_wall: tuple[Fraction, ...] | None = None if plain else ()
        """By how much each wall may turn too little; None before the first mismatch."""
        self.told: dict[int, frozenset[Fraction]] = {}
        """By the index of a pass, the shifts believed after its statements."""

    def agrees(self, place: int, stated: Fraction, danced: set[Fraction]) -> bool:
        """Return whether a statement in a pass (counted from 0) agrees with one of the facings that it may mean."""
        off = frozenset((stated - facing) % 1 for facing in danced)
        agrees = self.belief.agrees(off)
        self.told[place] = self.belief.shifts or frozenset({HOME})
        if agrees:
            return True
        first = self.off_a_wall is None
        fitting = tuple(turn for turn in (_EIGHTHS if first else self.off_a_wall or ()) if turn * place % 1 in off)
        self.off_a_wall = fitting if place else self.off_a_wall
        return bool(fitting) and not first


def _order(routine: Routine, timelines: Sequence[Timeline], room: _Room) -> Iterator[Problem]:
    """Yield the order lines whose facings agree with none of the timelines."""
    told: set[int] = set()
    for place, line in _in_the_order_danced(routine, timelines[0]):
        danced = [timeline.passes[place] for timeline in timelines if place < len(timeline.passes)]
        starts = {facing for one in danced for facing in (one.facing, (one.facing + one.squared) % 1)}
        if line.starts is not None and not room.agrees(place, line.starts, starts) and id(line) not in told:
            told.add(id(line))
            said, leads = clock(line.starts), clock(danced[0].facing)
            # A wall that something else is told of may be the wrong one: its facing is what tells which is meant.
            kind: Kind = "order" if line.departures else "facing"
            yield finding(kind, line.span, f"{_wall(danced[0])} is said to begin at {said}, but begins at {leads}")
        for departure in line.departures:
            if departure.facing is None:
                continue
            there = {facing for one in danced for facing in _moments(one, departure)}
            # What is told with the end of a wall is the facing there, before an extra or after it.
            meant = there if there and _at_the_end(routine, line, departure) else starts | there
            if not room.agrees(place, departure.facing, meant) and id(departure) not in told:
                told.add(id(departure))
                yield _departure(danced[0], departure, line)


def _walls(routine: Routine, timelines: Sequence[Timeline], room: _Room) -> Iterator[Problem]:
    """Yield a finding where the plain dance begins in more or fewer directions than the sheet declares."""
    if routine.walls is None or routine.phrased or len(routine.parts) != 1:
        return
    nets = [_net(timeline.routine) for timeline in timelines]
    nets += [nets[0] + turn for turn in room.off_a_wall or ()]
    squares = {routine.squares, *(one.squared for timeline in timelines for one in timeline.passes if one.squared)}
    walls = [directions(net, square) for net in nets for square in squares]
    if routine.walls in walls:
        return
    turn = between(HOME, nets[0] % 1)
    does = f"turns {turn_text(turn)}" if turn else "ends where it began"
    told = f"the sheet declares {number_of(routine.walls, 'wall')}, but the dance {does} and has {walls[0]}"
    yield finding("facing", routine.where("walls"), told)


def _net(routine: Routine) -> Fraction:
    return sum((event.turn for section in routine.parts[0].sections for event in section.events), HOME)


def directions(net: Fraction, squares: Fraction = HOME) -> int:
    """Return in how many directions a dance of one net turn begins, diagonals being left by `squares` on count 1."""
    seen: set[Fraction] = set()
    facing = HOME
    while facing not in seen and len(seen) < _MOST_WALLS:
        seen.add(facing)
        facing = (facing + net) % 1
        facing = (facing + squares) % 1 if is_diagonal(facing) else facing
    return len(seen)


def _in_the_order_danced(routine: Routine, timeline: Timeline) -> Iterator[tuple[int, OrderLine]]:
    """Yield each order line with the index of each pass that it names, by the passes."""
    numbers = pass_numbers(timeline.passes)
    named = [
        (numbers[line.part, number], place)
        for place, line in enumerate(routine.order)
        for number in line.passes
        if (line.part, number) in numbers
    ]
    for index, place in sorted(named):
        yield index, routine.order[place]


def _moments(one: Pass, departure: Departure) -> Iterator[Fraction]:
    """Yield the facings at a departure: where the part is left, and after each extra danced there."""
    leaves = departure.first - 1 if departure.change else departure.after
    here = leaves == 0
    if here:
        yield one.facing
    for stretch in one.stretches:
        if stretch.begins < one.start:
            continue
        if stretch.block.kind == "part":
            here = stretch.ends - stretch.beat == leaves
        elif stretch.block.kind == "change":
            # No count of the part is danced between two changes that follow one another.
            here = here or stretch.block.name == departure.change
        if here:
            yield _ends(stretch)


def _ends(stretch: Stretch) -> Fraction:
    """Return the facing at the end of a stretch."""
    return (stretch.facing + (stretch.block.rows[stretch.last - 1].turned if stretch.last else HOME)) % 1


def _at_the_end(routine: Routine, line: OrderLine, departure: Departure) -> bool:
    """Return whether a departure comes when all of its wall has been danced."""
    part = next((part for part in routine.parts if part.name == line.part), None)
    return part is not None and departure.after >= part.counts > 0 and departure.before is None


def _departure(one: Pass, departure: Departure, line: OrderLine) -> Problem:
    stated = clock(departure.facing or HOME)
    there = [clock(facing) for facing in _moments(one, departure)]
    at = f" and is left at {there[-1]}" if there else ""
    told = f"{_wall(one)} after {departure.after} is said to face {stated}, but it begins at {clock(one.facing)}{at}"
    return finding("order", departure.span or line.span, told)


def _wall(one: Pass) -> str:
    return f"wall {one.number}, part {one.part}," if one.part else f"wall {one.number}"
