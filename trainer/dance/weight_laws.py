"""Laws of weight over the whole dance: within the blocks, into and out of extras, and at the seams of the passes.

After a breach the walk goes on as the sheet says. One fault gives one finding: a line with its feet swapped breaks the
law where it begins and again behind it, and the second is explained by the first if the line's mirror mends both.
"""

from dataclasses import dataclass

from trainer.dance.findings import Names, finding
from trainer.dance.footing import OTHER, breach, leaves_weight, may_act, weights_after
from trainer.dance.seam_laws import Seam, Seams
from trainer.dance.timeline import Danced, Timeline
from trainer.problems import Problem
from trainer.routine import Event, Routine
from trainer.terms import Foot, Move, Weight

Weights = tuple[Weight | None, ...]
"""The feet that may carry: more than one where the sheet was read in two ways."""


def weight_findings(routine: Routine, names: Names, timeline: Timeline) -> list[Problem]:
    """Return every breach of the laws of weight in a routine as danced, each once."""
    walk = _Walk(routine, names, timeline)
    walk.run()
    # An event that is wrong where its block is danced through is wrong after a bridge, too.
    seams = [seam for seam in walk.seams if id(seam.after.event) not in walk.reported]
    return [*walk.found, *Seams(routine, timeline, seams, walk.swapped).findings()]


def broken(event: Event, before: Weights, count: str, since: str) -> str | None:
    """Return the law that an event breaks in every way in which it and the event before were read, or None."""
    readings = [event, event.other] if event.other else [event]
    told = [breach(reading, one, count=count, since=since) for reading in readings for one in before]
    return told[0] if all(told) else None


def weights_of(event: Event) -> Weights:
    """Return the feet that may carry after an event."""
    return (event.weight, event.other.weight) if event.other else (event.weight,)


@dataclass(slots=True)
class _Doubt:
    """After a breach: the weight as it would be without the fault, as long as that can explain further breaches.

    Without the fault the events from the breach to some place on its line have their feet swapped. Where only the
    weight afterwards was wrong, no feet are.
    """

    first: Danced
    weight: Weight | None
    swapped: bool

    @classmethod
    def of(cls, one: Danced, before: Weight | None) -> "_Doubt | None":
        """Return the doubt that a breach leaves; None where it leaves the weight as it should be."""
        move, foot, weight = one.event.move, one.event.foot, one.event.weight
        if move is None or foot is None or weight is None:
            return None
        if not may_act(move, foot, before):
            return cls(one, _carried(move, foot.mirrored, OTHER[weight], before), swapped=True)
        lawful = weights_after(move, foot, before) - {weight}
        return cls(one, min(lawful - {"B"}, default="B"), swapped=False) if len(lawful) == 1 else None

    def explains(self, one: Danced) -> bool:
        """Return whether a further breach comes of the same fault."""
        move, foot = one.event.move, one.event.foot
        if move is None or foot is None:
            return False
        return may_act(move, foot, self.weight) or (self._covers(one) and may_act(move, foot.mirrored, self.weight))

    def goes_on(self, one: Danced) -> bool:
        """Take the next event in; return whether the weight is still another than the sheet's."""
        move, foot, weight = one.event.move, one.event.foot, one.event.weight
        if move is None or foot is None or weight is None:
            return False
        if self._covers(one) and may_act(move, foot.mirrored, self.weight):
            self.weight = _carried(move, foot.mirrored, OTHER[weight], self.weight)
            return True
        self.swapped = False
        self.weight = _carried(move, foot, weight, self.weight)
        return self.weight != weight

    def _covers(self, one: Danced) -> bool:
        """Whether an event stands on the line of the first, or in the extra that the first begins."""
        first = self.first
        if not self.swapped:
            return False
        if first.extra_kind and first.row.number <= 1:
            return (one.wall, one.stretch) == (first.wall, first.stretch)
        if one.event.span and first.event.span:
            return one.event.span.line == first.event.span.line
        return one.section == first.section and 0 <= one.beat - first.beat < 4


def _carried(move: Move, foot: Foot, told: Weight, before: Weight | None) -> Weight | None:
    """Return the foot that carries after a move: the one told where the law allows it."""
    lawful = weights_after(move, foot, before)
    return told if told in lawful else before if before in lawful else min(lawful)


class _Walk:
    """The walk over the whole dance, event by event."""

    def __init__(self, routine: Routine, names: Names, timeline: Timeline) -> None:
        self.names, self.timeline = names, timeline
        self.found: list[Problem] = []
        self.seams: list[Seam] = []
        self.before: Weights = _at_the_start(routine, timeline)
        self.last: Danced | None = None
        self.since: Event | None = None
        self.doubt: _Doubt | None = None
        self.told: dict[tuple[int, int], str | None] = {}
        """The verdict on each pair of events that was danced in this order."""
        self.reported: set[int] = set()
        """Events that were found to break a law after the event before them in their block."""
        self.swapped: set[int] = set()
        """Events with which a line begins whose mirror mends a later breach, too."""

    def run(self) -> None:
        for one in self.timeline.danced():
            self._step(one)
            weight = one.event.weight
            if weight not in self.before or len(self.before) > 1:
                self.since = one.event
            self.before = self._carried_on(one)
            self.last = one

    def _carried_on(self, one: Danced) -> Weights:
        """Return the foot that may carry after an event.

        Where a block opens with holds and gestures, its sheet may not have told which foot carries there.
        """
        after = weights_of(one.event)
        if self._untold(one):
            return tuple(dict.fromkeys((*after, *self.before)))
        return after

    def _step(self, one: Danced) -> None:
        pair = (id(self.last.event) if self.last else 0, id(one.event))
        new = pair not in self.told
        if new:
            self.told[pair] = self._verdict(one)
        told = self.told[pair]
        explained = bool(told and self.doubt and self.doubt.explains(one))
        if explained and self.doubt:
            self.swapped.add(id(self.doubt.first.event))
        if new and not _joined(self.last, one):
            self.seams.append(Seam(self.last, one, None if explained else told, explained))
        elif new and told and not explained:
            self.found.append(finding("weight", one.event.span, told, hint=self._free_foot(one.event)))
            self.reported.add(id(one.event))
        if told and not explained:
            self.doubt = _Doubt.of(one, self.before[0])
        elif self.doubt and not self.doubt.goes_on(one):
            self.doubt = None

    def _untold(self, one: Danced) -> bool:
        """Whether an event is one of the holds and gestures that open a block, which leave the weight where it is."""
        opens = len(self.before) > 1 or not _joined(self.last, one)
        return opens and one.event.move is not None and leaves_weight(one.event.move)

    def _verdict(self, one: Danced) -> str | None:
        """Return the law that an event breaks after the event before it, or None."""
        event, before = one.event, self.before
        move, foot = event.move, event.foot
        if self._untold(one) and move and foot and any(may_act(move, foot, weight) for weight in before):
            return None
        return broken(event, before, self.names.count(event), self.names.since(self.since, event))

    def _free_foot(self, event: Event) -> str:
        """Return a hint where another foot would be right; none where only the weight afterwards is wrong."""
        before = self.before[0]
        if event.move is None or event.foot is None or before is None or may_act(event.move, event.foot, before):
            return ""
        return f"Did you mean {event.foot.mirrored}?"


def _joined(before: Danced | None, after: Danced) -> bool:
    """Whether two events follow each other in one block."""
    return before is not None and (before.wall, before.stretch) == (after.wall, after.stretch)


def _at_the_start(routine: Routine, timeline: Timeline) -> Weights:
    """Return the foot that carries before the first event.

    The weight that a sheet states may be that before a danced intro, or that before count 1: where the first does not
    fit and the second does, the second was meant, and what carries before the intro is not known.
    """
    lead = [
        one
        for one in timeline.danced(0, 1)
        if timeline.passes[0].stretches[one.stretch].begins < timeline.passes[0].start
    ]
    if lead and breach(lead[0].event, routine.starts) and lead[-1].event.weight == routine.starts:
        return (None,)
    return (routine.starts,)
