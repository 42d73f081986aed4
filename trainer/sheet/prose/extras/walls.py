"""Where in the order each extra is first danced: the weight and facing that it begins with, and must end with."""

from collections.abc import Generator, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.routine import Departure
from trainer.sheet.prose.order.told import Told
from trainer.sheet.prose.search.paths import Goal, Path, State
from trainer.terms import Label, Weight

_QUARTERS = (Fraction(0), Fraction(1, 2), Fraction(1, 4), Fraction(3, 4))
Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class _Visit:
    """An extra met on the way through the walls."""

    key: Key
    before: State
    after: Weight | None
    """The weight that what follows needs; None: anything."""
    facing_after: Fraction | None
    """Of a change that goes on: the facing that the replaced counts ended with."""


class Walls:
    """A walk through the walls of an order, with what is known of the extras so far."""

    def __init__(self, parts: Mapping[str, tuple[Path, int]], starts: Weight, told: Told) -> None:
        self._parts = parts
        self._starts = starts
        self._told = told
        self._turns: dict[Key, Fraction] = {}
        self._left_out = {inline.name for inline in told.inlines if inline.kind == "change" and inline.again}
        """Changes that go on after sections left out: what these turned is not turned."""

    def starts_of(self, kind: str, name: str) -> list[tuple[State, float]]:
        """Return the states that an extra may begin in, each with a preference against it."""
        if kind == "intro":
            weights: tuple[Weight, Weight] = ("L", "R")
            return [
                (State(weight, facing), 0.5 * bool(facing) + 0.3 * (weight != self._starts))
                for facing in (_QUARTERS if self._told.intro_starts is None else (self._told.intro_starts,))
                for weight in weights
            ]
        visit = self._visit((kind, name))
        if visit is None:
            return [(State(self._starts, Fraction(0)), 0.0)]
        return [(visit.before, 0.0)]

    def goal_of(self, kind: str, name: str) -> Goal:
        """Return what the end of an extra should be."""
        if kind == "intro":
            return Goal(self._starts, (Fraction(0),))
        if kind == "ending":
            return Goal()
        visit = self._visit((kind, name))
        if visit is None:
            return Goal()
        return Goal(visit.after, (visit.facing_after,) if visit.facing_after is not None else ())

    def learn(self, kind: str, name: str, turned: Fraction) -> None:
        """Keep the net turn of an extra that was read."""
        self._turns[kind, name] = turned

    def _visit(self, key: Key) -> _Visit | None:
        return next((visit for visit in self._visits() if visit.key == key), None)

    def _visits(self) -> Iterator[_Visit]:
        """Yield every extra in the order danced."""
        facing = Fraction(0)
        passes: dict[str, int] = {}
        for kind, part, name in self._played():
            if kind != "part":
                yield _Visit(
                    (kind, name), State(self._starts, facing), self._starts if kind != "ending" else None, None
                )
                facing += self._turns.get((kind, name), Fraction(0))
                continue
            if part not in self._parts:
                continue
            passes[part] = passes.get(part, 0) + 1
            facing = yield from self._wall(part, self._departures(part, passes[part]), facing)

    def _played(self) -> Iterator[tuple[str, str, str]]:
        if self._told.play:
            yield from ((item.kind, item.name, item.name) for item in self._told.play)
            return
        last = max((number for line in self._told.order for number in line.passes), default=0)
        part = next(iter(self._parts), "")
        yield from (("part", part, "") for _ in range(last))

    def _departures(self, part: str, number: int) -> list[Departure]:
        found = [
            departure
            for line in self._told.order
            if number in line.passes and (not self._told.play or line.part == part)
            for departure in line.departures
        ]
        return sorted(found, key=lambda departure: departure.after)

    def _wall(self, part: str, departures: Sequence[Departure], facing: Fraction) -> Generator[_Visit, None, Fraction]:
        """Walk one wall; return the facing at its end."""
        path, counts = self._parts[part]
        start = facing
        for departure in departures:
            weight, turned = state_after(path, departure.after, departure.before)
            if departure.change:
                before, sofar = state_after(path, departure.first - 1, halves=True)
                goes_on = departure.leave == "continue"
                after = weight if goes_on and departure.after < counts else self._starts
                key = ("change", departure.change)
                end = (start + turned) % 1 if goes_on and departure.change not in self._left_out else None
                yield _Visit(key, State(before, (start + sofar) % 1), after, end)
                turned = sofar + self._turns.get(key, turned - sofar)
            here = start + turned
            goes_on = departure.leave == "continue" and departure.after < counts
            for insert in departure.inserts:
                ends = insert.kind == "ending" or departure.leave == "end"
                after_insert = None if ends else weight if goes_on else self._starts
                key = (insert.kind, insert.name)
                yield _Visit(key, State(weight, here % 1), after_insert, None)
                extra = self._turns.get(key, Fraction(0))
                here, start = here + extra, start + extra
            if departure.leave != "continue":
                return here % 1
        return (start + state_after(path, counts)[1]) % 1


def state_after(
    path: Path, counts: int, before: Label | None = None, *, halves: bool = False
) -> tuple[Weight, Fraction]:
    """Return the weight and the turn made after so many counts of a block, and up to a label in the last of them.

    With `halves` the half beats before the next count are danced too, as they are before counts that are changed.
    """
    weight = path.start.weight
    turned = Fraction(0)
    for one in path.said:
        within = one.slot.beat < counts and (halves or _closes(path, counts) or before is not None)
        if one.slot.beat > counts - 1 and (not within or one.slot.label == before):
            break
        weight = one.weight or weight
        turned += one.turn
    return weight, turned


def turns_after(path: Path, most: int, *, halves: bool = False) -> tuple[Fraction, ...]:
    """Return the turn made after 0, 1, 2 ... counts of a block, up to `most`; with `halves` before the next count."""
    turned, at = Fraction(0), 0
    done: list[Fraction] = []
    for counts in range(most + 1):
        closes = halves or _closes(path, counts)
        while at < len(path.said) and path.said[at].slot.beat <= counts - 1 + closes * _WITHIN:
            turned += path.said[at].turn
            at += 1
        done.append(turned)
    return tuple(done)


def weights_after(path: Path, most: int) -> tuple[Weight, ...]:
    """Return the weight after 0, 1, 2 ... counts of a block, up to `most`."""
    weight, at = path.start.weight, 0
    done: list[Weight] = []
    for counts in range(most + 1):
        closes = _closes(path, counts)
        while at < len(path.said) and path.said[at].slot.beat <= counts - 1 + closes * _WITHIN:
            weight = path.said[at].weight or weight
            at += 1
        done.append(weight)
    return tuple(done)


_WITHIN = Fraction(99, 100)
"""Of a count: what lies within it, but not the next."""


def _closes(path: Path, counts: int) -> bool:
    """Whether an & after the last count danced closes a phrase, and so is danced too."""
    return counts % 8 == 0 or not any(one.slot.beat >= counts for one in reversed(path.said))
