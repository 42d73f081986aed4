"""Laws of options: they fill the counts that they replace, and end on the same foot and facing.

The first law that an option breaks is its one finding: an option that is wrong inside ends wrong, too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.blocks import Plan, option_fits, rows_of
from trainer.dance.count_laws import crowded, gaps
from trainer.dance.facing import HOME, clock
from trainer.dance.facing_laws import Belief, Facings
from trainer.dance.findings import Names, block_name, finding
from trainer.dance.footing import breach
from trainer.problems import Problem
from trainer.routine import Event, Option, Part, Routine, Section
from trainer.terms import Weight


def option_findings(routine: Routine, names: Names, facings: Facings) -> list[Problem]:
    """Return what is wrong with the options, at most one finding for each."""
    found = []
    for option in routine.options:
        first = next(_of(option, routine, names, facings), None)
        if first:
            found.append(first)
    return found


def _of(option: Option, routine: Routine, names: Names, facings: Facings) -> Iterator[Problem]:
    part = routine.part(option.part)
    section = next((one for one in part.sections if one.name == option.section), None) if part else None
    if part is None or section is None:
        yield finding("order", option.span, f"there is no section {option.section} for this option")
        return
    name = block_name(section, part)
    counts = f"counts {option.first} to {option.last}" if option.first != option.last else f"count {option.first}"
    if not option_fits(option, section):
        yield finding("order", option.span, f"{name} has no {counts}")
        return
    own = Section(name=section.name, counts=option.last, events=option.events)
    yield from crowded(own, f"the option for {counts} of {name}")
    yield from gaps(option.events, option.first, option.last, f"the option for {counts} of {name}", routine.phrase)
    if not any(event.doubtful for event in (*option.events, *section.events)):
        yield from _footing(option, _Host.of(part, section, option, routine), names)
        yield from _facing(option, _Host.of(part, section, option, routine), names, facings)


@dataclass(frozen=True, slots=True)
class _Host:
    """The part around an option."""

    before: Sequence[Event]
    """The events of the part before the counts replaced."""
    replaced: Sequence[Event]
    starts: Weight | None
    """The foot that carries before the part; None where that depends on the play."""

    @classmethod
    def of(cls, part: Part, section: Section, option: Option, routine: Routine) -> "_Host":
        """Return what an option stands in."""
        events: list[Event] = []
        for one in part.sections:
            if one is section:
                break
            events += one.events
        ordered = sorted(section.events, key=lambda event: event.beat)
        low, high = Plan.of(Part(sections=(section,))).replaced(option.first, option.last, option.events)
        starts = routine.starts if part is routine.parts[0] else None
        return cls((*events, *ordered[:low]), ordered[low:high], starts)

    @property
    def weight(self) -> Weight | None:
        """The foot that carries before the counts replaced."""
        return self.before[-1].weight if self.before else self.starts


def _footing(option: Option, host: _Host, names: Names) -> Iterator[Problem]:
    """Yield the breaches inside an option, then another foot at its end."""
    weight, since = host.weight, host.before[-1] if host.before else None
    for event in option.events:
        told = breach(event, weight, count=names.count(event), since=names.since(since, event))
        if told:
            yield finding("weight", event.span, told)
        weight, since = event.weight, event if event.weight != weight else since
    ends = host.replaced[-1].weight if host.replaced else host.weight
    if option.events and ends != option.events[-1].weight:
        told = f"the option ends with the weight on {weight}, but the counts that it replaces end on {ends}"
        yield finding("weight", option.events[-1].span, told)


def _facing(option: Option, host: _Host, names: Names, facings: Facings) -> Iterator[Problem]:
    """Yield the statements of an option that its turns do not meet, then another facing at its end."""

    def turns(events: Sequence[Event]) -> list[Fraction]:
        """Return the net turn as written, and as other statements of the sheet want it."""
        written = sum((event.turn for event in events), HOME)
        return [written, written + sum((facings.mends.get(id(event), HOME) for event in events), HOME)]

    rows = rows_of([Section(name=option.section, counts=option.last, events=option.events)])
    bases = turns(host.before)
    shift = facings.frames.get(option.part, HOME)
    stated = Facings()
    stated.follow(names, rows, [*bases, *(base + shift for base in bases if shift)], Belief())
    yield from stated.found
    own = rows[-1].turned if rows else HOME
    wanted = turns(host.replaced)
    if rows and all((own - turn) % 1 for turn in wanted):
        ends, other = clock(bases[0] + own), clock(bases[0] + wanted[0])
        told = f"the option ends facing {ends}, but the counts that it replaces end facing {other}"
        yield finding("facing", option.events[-1].span, told)
