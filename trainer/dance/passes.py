"""A pass in the making: its part, with everything that is put into it and follows it, laid out on the timeline."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.blocks import Cut, Plan, extra_block, find_extra, hold_block
from trainer.dance.facing import HOME, is_diagonal
from trainer.dance.timeline import Block, Pass, Row, Stretch
from trainer.routine import Departure, Insert, OrderLine, PlayItem, Routine
from trainer.terms import LeaveKind, Weight

LONGEST_HOLD = 1_000
"""Counts; a longer hold is passed over."""


def leaving(departure: Departure) -> LeaveKind:
    """Return what a departure leads to; an ending ends the dance, also where the sheet does not say `end`."""
    return "end" if any(insert.kind == "ending" for insert in departure.inserts) else departure.leave


def pass_numbers(passes: Sequence[Pass]) -> dict[tuple[str, int], int]:
    """Return the index of each pass by what order lines call it: wall 3 is ("", 3), the third A is ("A", 3)."""
    numbers: dict[tuple[str, int], int] = {}
    starts: Counter[str] = Counter()
    for index, one in enumerate(passes):
        starts[one.part] += 1
        numbers[one.part, starts[one.part]] = index
        numbers["", one.number] = index
    return numbers


class Blocks:
    """The rows of the extras of a routine, each made once and shared by all passes."""

    def __init__(self, routine: Routine) -> None:
        self.routine = routine
        self._extras: dict[tuple[str, str], Block | None] = {}
        self._holds: dict[tuple[int, Weight | None], Block] = {}

    def extra(self, kind: str, name: str) -> Block | None:
        """Return the block of an extra; None where the sheet has none of that name, or it has no counts."""
        if (kind, name) not in self._extras:
            extra = find_extra(self.routine, kind, name)
            self._extras[kind, name] = extra_block(extra) if extra and extra.counts > 0 else None
        return self._extras[kind, name]

    def of(self, item: Insert | PlayItem, weight: Weight | None) -> Block | None:
        """Return the block that an order line or the play asks for; a hold keeps the weight where it is."""
        if item.kind != "hold":
            return self.extra(item.kind, item.name)
        if not 1 <= item.counts <= LONGEST_HOLD:
            return None
        key = (item.counts, weight)
        if key not in self._holds:
            self._holds[key] = hold_block(item.counts, weight, self.routine.phrase)
        return self._holds[key]


@dataclass(slots=True)
class Standing:
    """Where the dancer is: the beat to come, the facing, and the foot that carries."""

    beat: Fraction
    facing: Fraction
    weight: Weight | None

    def dance(self, block: Block, first: int, last: int, counts: int) -> None:
        """Move on over some rows of a block and the counts that they take."""
        self.beat += counts
        if first < last:
            rows = block.rows
            self.facing = (self.facing + rows[last - 1].turned - _before(rows, first)) % 1
            self.weight = rows[last - 1].event.weight


class Making:
    """A pass in the making; `standing` is carried over from the pass before and on to the next."""

    def __init__(self, number: int, plan: Plan, blocks: Blocks, standing: Standing) -> None:
        self.number, self.plan, self.blocks, self.standing = number, plan, blocks, standing
        self.stretches: list[Stretch] = []
        self.start, self.facing = standing.beat, standing.facing
        self.squared, self.to_square = Fraction(0), Fraction(0)
        self.danced = Fraction(0)
        self.reached = 0
        """Counts of the part danced or replaced."""
        self.departures: tuple[Departure, ...] = ()
        self.cue = ""

    def lead_in(self, opening: Iterable[PlayItem]) -> None:
        """Dance what comes before count 1 of wall 1: the danced intro, from its own facing, then extras of the play.

        Count 1 of wall 1 faces 12:00; extras of the play without a danced intro begin so that they come out there.
        """
        intros = [extra for extra in self.blocks.routine.extras if extra.kind == "intro" and extra.counts > 0]
        found = [block for block in (self.blocks.of(item, self.standing.weight) for item in opening) if block]
        starts = next((intro.starts for intro in intros if intro.starts is not None), HOME)
        self.standing.facing = starts if intros else -sum((block.turn for block in found), HOME) % 1
        for block in (*map(extra_block, intros), *found):
            self._insert(block)
        self.start, self.facing, self.standing.facing = self.standing.beat, HOME, HOME

    def dance(self, lines: Sequence[OrderLine], cuts: Sequence[Cut], squares: Fraction) -> LeaveKind:
        """Dance the part with its departures; return how it is left. `squares` is the turn that leaves a diagonal."""
        own = next((line.squared for line in lines if line.squared), Fraction(0))
        self.squared = self.to_square = own or (squares if is_diagonal(self.facing) else own)
        self.cue = next((line.cue for line in lines if line.cue), "")
        self.departures = tuple(cut.departure for cut in cuts)
        index = 0
        for cut in cuts:
            if cut.leaves < self.reached or cut.first < index:
                continue
            self._part(index, cut.first, cut.leaves)
            if cut.departure.change:
                self._change(cut.departure.change)
            self.reached, index = cut.returns, cut.last
            self.insert_all(cut.departure.inserts)
            leave = leaving(cut.departure)
            if leave != "continue":
                if cut.departure.before and index:
                    self.danced += max(self.plan.block.rows[index - 1].beat + 1 - self.reached, Fraction(0))
                return leave
        self._part(index, len(self.plan.block.rows), self.plan.block.counts)
        return "continue"

    def insert_all(self, items: Iterable[Insert | PlayItem]) -> None:
        """Dance extras and holds here, those that the sheet has."""
        for item in items:
            block = self.blocks.of(item, self.standing.weight)
            if block:
                self._insert(block)

    def made(self) -> Pass:
        """Return the pass as it came out."""
        return Pass(
            number=self.number,
            part=self.plan.block.name,
            start=self.start,
            facing=self.facing,
            squared=self.squared,
            stretches=tuple(self.stretches),
            departures=self.departures,
            cue=self.cue,
            danced=self.danced,
            ends=self.standing.beat,
            end_facing=self.standing.facing,
        )

    def _part(self, first: int, last: int, until: int) -> None:
        """Dance rows of the part, up to the count `until`."""
        if first < last or self.reached < until:
            self.danced += until - self.reached
            self._stretch(self.plan.block, first, last, self.reached, until, squares=True)
        self.reached = until

    def _change(self, name: str) -> None:
        block = self.blocks.extra("change", name)
        if block:
            self._stretch(block, 0, len(block.rows), 0, block.counts, squares=True)

    def _insert(self, block: Block) -> None:
        self._stretch(block, 0, len(block.rows), 0, block.counts)

    def _stretch(self, block: Block, first: int, last: int, done: int, until: int, *, squares: bool = False) -> None:
        square = self.to_square if squares and done < until else Fraction(0)
        self.to_square -= square
        standing = self.standing
        standing.facing = (standing.facing + square) % 1
        self.stretches.append(
            Stretch(
                block=block,
                first=first,
                last=last,
                beat=standing.beat - done,
                facing=(standing.facing - _before(block.rows, first)) % 1,
                begins=standing.beat,
                ends=standing.beat + until - done,
                squares=square,
            )
        )
        standing.dance(block, first, last, until - done)


def _before(rows: Sequence[Row], first: int) -> Fraction:
    return rows[first - 1].turned if first else Fraction(0)
