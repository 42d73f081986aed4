"""From the routine as written to every count that is danced.

A wall number is the running number of starts from count 1, in a phrased dance (`third A`) that of the starts of its
part. A departure that the part has no counts for, and an extra that the sheet does not have, are passed over:
proofreading says so. Nothing is raised and every dance comes to an end, whatever the sheet says.
"""

from collections import Counter, defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.blocks import Cut, Plan, find_extra, with_options
from trainer.dance.facing import HOME
from trainer.dance.passes import Blocks, Making, Standing, pass_numbers
from trainer.dance.timeline import Pass, Timeline
from trainer.routine import Option, OrderLine, PlayItem, Routine

MOST_PASSES = 10_000
"""More are not unrolled, whoever asks."""
MOST_UNASKED = 1_000
"""More are not unrolled when nobody says how many."""
EIGHTH = Fraction(1, 8)
SEARCH_HOME = 16
"""Passes, in a phrased dance rounds, from the last departure on in which the dance comes home, if it ever does."""


def unroll(routine: Routine, passes: int | None = None, options: Collection[Option] = ()) -> Timeline:
    """Return the routine as danced.

    It goes on for so many passes, or to the written end if that comes before. Where no number is given and no end is
    written, it goes on to the first pass after the last departure that comes home (to 12:00), a restart taken; in a
    phrased dance to the first such end of its play. `options` are danced instead of the counts that they replace.
    """
    return _Walk(routine, options, _squares(routine, options)).timeline(passes)


def _squares(routine: Routine, options: Collection[Option]) -> Fraction:
    """Return the turn that leaves a diagonal on count 1: the one stated, or that with which alone the wall list agrees.

    A wall list tells it only with two starts or more that disagree without it.
    """
    stated = [
        (line.part, number, line.starts) for line in routine.order for number in line.passes if line.starts is not None
    ]
    if routine.squares or len(stated) < 2 or any(line.squared for line in routine.order):
        return routine.squares

    def disagreeing(squares: Fraction) -> int:
        """Return how many starts disagree with a turn on count 1 of every wall that begins on a diagonal."""
        passes = _Walk(routine, options, squares).timeline(MOST_UNASKED if routine.phrased else last).passes
        numbers = pass_numbers(passes)
        danced = [
            (passes[numbers[part, number]], starts) for part, number, starts in stated if (part, number) in numbers
        ]
        return sum(starts not in (one.facing, (one.facing + one.squared) % 1) for one, starts in danced)

    last = min(max(number for _, number, _ in stated), MOST_UNASKED)
    if disagreeing(HOME) < 2:
        return HOME
    return next((turn for turn in (EIGHTH, -EIGHTH) if not disagreeing(turn)), HOME)


@dataclass(frozen=True, slots=True)
class _Turn:
    """A part of the play, and the extras danced after it before the next part."""

    part: str
    then: tuple[PlayItem, ...] = ()

    @property
    def closes(self) -> bool:
        """Whether an ending follows the part."""
        return any(item.kind == "ending" for item in self.then)


class _Walk:
    """The walk through the play, pass by pass; rows and cuts are made once and shared."""

    def __init__(self, routine: Routine, options: Collection[Option], squares: Fraction) -> None:
        self.routine, self.squares = routine, squares
        plans = ((part.name, Plan.of(with_options(part, options))) for part in reversed(routine.parts))
        self.plans = {name: plan for name, plan in plans if plan.block.counts}
        self.opening, self.turns = _turns(routine, self.plans)
        self.blocks = Blocks(routine)
        self.lines = _by_pass(routine)
        self.cuts: dict[tuple[str, tuple[int, ...]], tuple[Cut, ...]] = {}
        parts = {"", *(turn.part for turn in self.turns)}
        self.awaited = {
            key for key, lines in self.lines.items() if key[0] in parts and any(o.departures for o in lines)
        }
        """Passes still to come that depart from the plain dance."""
        self.starts: Counter[str] = Counter()
        self.standing = Standing(Fraction(routine.wait or 0), HOME, routine.starts)
        self.passes: list[Pass] = []
        self.making: Making | None = None
        """The pass danced last; extras that open the next round are still put into it."""
        self.place = self.rounds = 0
        self.begins_round = False
        opening = (self.blocks.of(item, None) for item in self.opening)
        self.front = -sum((block.turn for block in opening if block), HOME) % 1
        """The facing with which a round is home: that from which its opening extras lead to 12:00."""
        self.ended = not self.turns
        self.home = False

    def timeline(self, asked: int | None) -> Timeline:
        """Dance until the written end, the passes asked for, or home."""
        most = MOST_UNASKED if asked is None else min(asked, MOST_PASSES)
        for number in range(1, most + 1):
            if self.ended or (asked is None and self.home):
                break
            if self.making and self.begins_round:
                self.making.insert_all(self.opening)
            self._keep()
            self._dance(number)
        self._keep()
        return Timeline(self.routine, tuple(self.passes), self.routine.wait or 0, open_ended=not self.ended)

    def _keep(self) -> None:
        if self.making:
            self.passes.append(self.making.made())

    def _dance(self, number: int) -> None:
        """Dance one pass and the extras that the play puts after it, and see where that leads."""
        turn = self.turns[self.place]
        self.starts[turn.part] += 1
        keys = [("", number)] if not turn.part else [(turn.part, self.starts[turn.part]), ("", number)]
        lines = [line for key in keys for line in self.lines.get(key, ())]
        self.awaited.difference_update(keys)
        making = self.making = Making(number, self.plans[turn.part], self.blocks, self.standing)
        if number == 1:
            making.lead_in(self.opening)
        leave = making.dance(lines, self._cuts_of(turn.part, lines), self.squares)
        self.begins_round = self.home = False
        if leave == "end" or (leave == "restart" and self.routine.phrased):
            self.ended = leave == "end"
            return
        making.insert_all(turn.then)
        self.ended = turn.closes
        self.place += 1
        if self.place == len(self.turns):
            self._through(cut_short=leave != "continue" and making.reached < making.plan.block.counts)

    def _through(self, *, cut_short: bool) -> None:
        """See whether the dance goes on when its play is through; a dance without parts is through after every wall."""
        self.ended = self.ended or not self.routine.repeats
        self.place, self.begins_round = 0, True
        if not self.awaited:
            self.rounds += 1
            self.home = (self.standing.facing == self.front and not cut_short) or self.rounds >= SEARCH_HOME

    def _cuts_of(self, part: str, lines: Sequence[OrderLine]) -> tuple[Cut, ...]:
        """Return the departures of a pass in the order danced, made once for all passes with the same lines."""
        key = (part, tuple(map(id, lines)))
        if key not in self.cuts:
            plan = self.plans[part]
            found = (
                plan.cut(one, find_extra(self.routine, "change", one.change)) for o in lines for one in o.departures
            )
            self.cuts[key] = tuple(sorted(filter(None, found), key=lambda cut: (cut.first, cut.leaves)))
        return self.cuts[key]


def _by_pass(routine: Routine) -> dict[tuple[str, int], list[OrderLine]]:
    lines: dict[tuple[str, int], list[OrderLine]] = defaultdict(list)
    for line in routine.order:
        for number in dict.fromkeys(line.passes):
            if number >= 1:
                lines[line.part, number].append(line)
    return dict(lines)


def _turns(routine: Routine, plans: Collection[str]) -> tuple[tuple[PlayItem, ...], list[_Turn]]:
    """Return the extras before the first part of the play, and its parts with the extras that follow them.

    A dance without a play is its parts in the order written, again and again.
    """
    opening: tuple[PlayItem, ...] = ()
    turns: list[_Turn] = []
    for item in routine.play or [PlayItem(kind="part", name=part.name) for part in routine.parts]:
        if item.kind == "part":
            if item.name in plans:
                turns.append(_Turn(item.name))
        elif turns:
            turns[-1] = replace(turns[-1], then=(*turns[-1].then, item))
        else:
            opening = (*opening, item)
    return opening, turns
