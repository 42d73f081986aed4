"""Where the weight does not fit between two blocks: which of them is at fault, or the order that joins them.

A seam joins two events that do not follow each other in one block: the end of a wall and count 1, what comes before a
tag and its first count, its last count and what follows. An event that fits at its other seams is not at fault in this
one.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.dance.findings import finding
from trainer.dance.timeline import Danced, Timeline
from trainer.problems import Problem
from trainer.routine import Routine, Span


@dataclass(frozen=True, slots=True)
class Seam:
    """Two events danced one after the other that do not follow each other in one block."""

    before: Danced | None
    after: Danced
    told: str | None
    """The law that is broken."""
    explained: bool
    """By a breach before: broken, but nothing to report."""

    @property
    def fits(self) -> bool:
        """Whether no law is broken."""
        return not self.told and not self.explained


class Seams:
    """Which end of a broken seam is at fault: the event danced before it, the one after it, or the order."""

    def __init__(self, routine: Routine, timeline: Timeline, seams: list[Seam], swapped: set[int]) -> None:
        self.routine, self.timeline, self.seams, self.swapped = routine, timeline, seams, swapped
        self.into: dict[int, list[Seam]] = defaultdict(list)
        self.out_of: dict[int, list[Seam]] = defaultdict(list)
        for seam in seams:
            self.into[id(seam.after.event)].append(seam)
            self.out_of[id(seam.before.event) if seam.before else 0].append(seam)

    def findings(self) -> Iterator[Problem]:
        """Yield one finding for each fault."""
        handled: set[int] = set()
        for seam in self.seams:
            if not seam.told or id(seam) in handled:
                continue
            into, out_of = self.into[id(seam.after.event)], self.out_of[id(seam.before.event) if seam.before else 0]
            handled.add(id(seam))
            begins_fault = len(into) > 1 or not seam.before or id(seam.after.event) in self.swapped
            if begins_fault and not any(one.fits for one in into):
                handled.update(map(id, into))
                yield finding("weight", seam.after.event.span, seam.told)
            elif seam.before and len(out_of) > 1 and not any(one.fits for one in out_of):
                handled.update(map(id, out_of))
                yield _at_the_end(seam.before, seam.told)
            else:
                yield self._one(seam, seam.told)

    def _one(self, seam: Seam, told: str) -> Problem:
        """Return the finding for a seam of which both ends fit elsewhere, or nothing is known of them."""
        before, after = seam.before, seam.after
        if before is None:
            return finding("weight", self.routine.where("starts") or after.event.span, told)
        if after.extra_kind:
            entered = any(one.fits for one in self.into[id(after.event)])
            return self._in_the_order(after, told, self._ordered(after) if entered else after.event.span)
        if before.extra_kind and any(one.fits for one in self.out_of[id(before.event)]):
            return self._in_the_order(before, told, self._ordered(before))
        one = self.timeline.passes[before.wall - 1]
        last = one.stretches[-1]
        if before.wall != after.wall and not before.extra_kind and last.last < len(last.block.rows):
            span = next((departure.span for departure in one.departures if departure.leave != "continue"), None)
            told = f"wall {one.number} is left on the wrong foot: {told}"
            return finding("weight", span or before.event.span, told)
        return _at_the_end(before, told)

    def _in_the_order(self, one: Danced, told: str, span: Span | None) -> Problem:
        return finding("weight", span, f"in wall {one.wall} {_extra(one)} does not fit: {told}")

    def _ordered(self, one: Danced) -> Span | None:
        """Return where the order asks for the extra of an event."""
        for departure in self.timeline.passes[one.wall - 1].departures:
            if one.extra in (departure.change, *(insert.name for insert in departure.inserts)):
                return departure.span
        return next((item.span for item in self.routine.play if item.name == one.extra), one.event.span)


def _at_the_end(before: Danced, told: str) -> Problem:
    """Return the finding at the event that leaves the weight on the wrong foot."""
    if before.extra_kind:
        return finding("weight", before.event.span, f"after {_extra(before)} the dance does not go on: {told}")
    return finding("weight", before.event.span, f"the dance does not close: {told}")


def _extra(one: Danced) -> str:
    if one.extra_kind == "intro":
        return "the danced intro"
    return f"{one.extra_kind} {one.extra}".rstrip() if one.extra_kind != "hold" else "the hold"
