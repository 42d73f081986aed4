"""Laws of facing inside the blocks: turns are the truth, stated facings are checks, each in its frame.

Sections are stated as on wall 1, those of a part as if it began at 12:00, extras as where they are danced first; the
danced intro in the room. Where one shift makes all facings of a block right, that frame was meant, if at least two
agree and none is against (and, in a part, if the order does not tell otherwise). After a mismatch either the statement
is wrong or the turns are: later statements may agree with either, so that one fault gives one finding.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.dance.blocks import extra_block, rows_of
from trainer.dance.facing import HOME, between, clock, turn_text
from trainer.dance.findings import Names, finding
from trainer.dance.timeline import Row, Stretch, Timeline
from trainer.problems import Problem
from trainer.routine import Event, Extra, Part, Routine, Section


@dataclass(slots=True)
class Belief:
    """By how much statements may differ from the turns; None: by anything, for what was before could not be read."""

    shifts: frozenset[Fraction] | None = frozenset({HOME})

    def agrees(self, off: frozenset[Fraction]) -> bool:
        """Return whether a statement that is so far off agrees, and learn from it.

        A statement may be off by several amounts where it may mean several moments. After a mismatch both are believed:
        the turns as they were, and the statement.
        """
        agreed = off if self.shifts is None else off & self.shifts
        self.shifts = agreed or (self.shifts or frozenset()) | off
        return bool(agreed)

    def doubt(self, event: Event) -> None:
        """Take an event into account that could not be read, or was read in two ways."""
        if event.doubtful:
            self.shifts = None
        elif event.other and self.shifts is not None:
            self.shifts |= {(shift + event.other.turn - event.turn) % 1 for shift in self.shifts}


@dataclass(slots=True)
class Facings:
    """What the statements of a routine's blocks came to."""

    found: list[Problem] = field(default_factory=list)
    mends: dict[int, Fraction] = field(default_factory=dict)
    """By the identity of an event: the turn that its count lacks if later statements are right."""
    framed: list[tuple[Event, Fraction, Problem]] = field(default_factory=list)
    """Of each part whose statements are all off by one shift: where the first stands, the shift, and what to say if it
    is no frame but a fault."""
    frames: dict[str, Fraction] = field(default_factory=dict)
    """By the name of a part, the shift of its statements."""
    lost: bool = False
    """Some part ends with turns that could not be read: nothing is known of where its walls lead."""

    def follow(self, names: Names, rows: Sequence[Row], bases: Collection[Fraction], belief: Belief) -> None:
        """Hold the statements of a block against its turns; `bases` are the facings with which it may begin."""
        if _shifted(rows, bases):
            for row in rows[_last_stated(rows) + 1 :]:
                belief.doubt(row.event)
            return
        pending: tuple[Event, frozenset[Fraction]] | None = None
        turned = HOME
        for row in rows:
            event = row.event
            belief.doubt(event)
            if event.facing is None or event.doubtful:
                continue
            before, off = belief.shifts, _off(row, bases)
            if belief.agrees(off):
                settled, pending = pending, None
                if before is None or (settled and belief.shifts and not belief.shifts & settled[1]):
                    self._mend(settled[0] if settled else event, belief.shifts)
            else:
                self.found.append(_mismatch(names, row, bases, turned))
                pending = (event, before or frozenset())
            turned = row.turned
        if pending and belief.shifts:
            self._mend(pending[0], belief.shifts - pending[1])

    def believe_statements(self) -> None:
        """Take the shifts of whole parts as faults in their turns."""
        for event, shift, problem in self.framed:
            self.found.append(problem)
            self.mends[id(event)] = shift
        self.framed = []

    def _mend(self, event: Event, shifts: frozenset[Fraction] | None) -> None:
        """Remember by how much the facings are off from here on."""
        lacking = min(shifts or {HOME})
        if lacking:
            self.mends[id(event)] = lacking


def block_facings(routine: Routine, names: Names) -> Facings:
    """Follow the statements of all parts."""
    facings = Facings()
    for part in routine.parts:
        belief, rows = Belief(), rows_of(part.sections)
        facings.follow(names, rows, (HOME,), belief)
        first = next((row for row in rows if row.event.facing is not None), None)
        shift = min(_off(first, (HOME,))) if first else HOME
        if first and shift and _shifted(rows, (HOME,)):
            facings.framed.append((first.event, shift, _mismatch(names, first, (HOME,), HOME)))
            facings.frames[part.name] = shift
        facings.lost |= belief.shifts is None
    return facings


def extra_facings(
    routine: Routine,
    names: Names,
    timelines: Sequence[Timeline],
    shifts: Sequence[frozenset[Fraction]],
    facings: Facings,
) -> None:
    """Follow the statements of the extras.

    The timelines are those of the turns as written, and as mended; `shifts` tells by how much the order holds each pass
    to be off: what is wrong with the walls before an extra is not wrong with the extra.
    """
    for extra in routine.extras:
        danced = [found for found in (_first(timeline, extra) for timeline in timelines) if found]
        belief = Belief() if danced and not facings.lost else Belief(None)
        as_written = [stretch.facing for _, stretch in danced]
        as_ordered = [stretch.facing + shift for place, stretch in danced for shift in sorted(shifts[place])]
        facings.follow(names, extra_block(extra).rows, [*as_written, *as_ordered] or [HOME], belief)
        if extra.kind == "intro" and danced:
            facings.found += _comes_out(extra, timelines[0], belief)


def mended(routine: Routine, mends: Mapping[int, Fraction]) -> Routine:
    """Return the routine with the turns that its statements want."""

    def turned(block: Section) -> tuple[Event, ...]:
        return tuple(event.but(turn=event.turn + mends.get(id(event), 0)) for event in block.events)

    def part_of(part: Part) -> Part:
        return part.but(sections=tuple(section.but(events=turned(section)) for section in part.sections))

    return routine.but(
        parts=tuple(part_of(part) for part in routine.parts),
        extras=tuple(extra.but(events=turned(extra)) for extra in routine.extras),
    )


def _off(row: Row, bases: Iterable[Fraction]) -> frozenset[Fraction]:
    """Return by how much the statement of a row differs from the turns, one amount for each base."""
    stated = row.event.facing or HOME
    return frozenset((stated - base - row.turned) % 1 for base in bases)


def _shifted(rows: Sequence[Row], bases: Collection[Fraction]) -> bool:
    """Whether one shift makes all statements of a block right: at least two agree, none is against."""
    offs = [_off(row, bases) for row in rows if row.event.facing is not None]
    return len(offs) > 1 and bool(frozenset.intersection(*offs))


def _last_stated(rows: Sequence[Row]) -> int:
    return max(index for index, row in enumerate(rows) if row.event.facing is not None)


def _mismatch(names: Names, row: Row, bases: Collection[Fraction], turned: Fraction) -> Problem:
    """Return the finding for a statement; `turned` is the turn of the block up to the statement before it."""
    event, base = row.event, next(iter(bases))
    stated, danced = event.facing or HOME, (base + row.turned) % 1
    told = f"after {names.full(event)} the sheet states {clock(stated)}, but the turns lead to {clock(danced)}"
    since = (base + turned) % 1
    needed = between(since, stated)
    hint = f"{'Turning ' + turn_text(needed) if needed else 'Without a turn'} from {clock(since)} it would come out"
    return finding("facing", event.stated or event.span, told, hint=hint)


def _first(timeline: Timeline, extra: Extra) -> tuple[int, Stretch] | None:
    """Return the index of the pass in which an extra is danced first, and where."""
    for place, one in enumerate(timeline.passes):
        for stretch in one.stretches:
            if (stretch.block.kind, stretch.block.name) == extra.key:
                return place, stretch
    return None


def _comes_out(intro: Extra, timeline: Timeline, belief: Belief) -> Iterator[Problem]:
    """Yield a finding where the danced intro does not lead to 12:00, which count 1 of wall 1 faces by definition."""
    first = timeline.passes[0]
    last = [stretch for stretch in first.stretches if stretch.begins < first.start][-1]
    end = (last.facing + last.block.turn) % 1
    if last.block.name == intro.name and not belief.agrees(frozenset({-end % 1})):
        span = intro.events[-1].span if intro.events else intro.span
        told = f"the danced intro ends facing {clock(end)}, but count 1 of wall 1 faces 12:00"
        starts = (intro.starts or HOME) - end
        yield finding("facing", span, told, hint=f"beginning at {clock(starts)} it would come out there")
