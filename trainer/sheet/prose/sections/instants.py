"""Each instant of a block is danced once, and each whole count: what the page gives twice is left out the second time.

A count that no words were found for becomes an event that is unread, so that it is called as such and a fair copy can
be written. Both are findings of counts.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil
from typing import TypeVar

from trainer.dance.count_laws import block_findings, called_from, holes, named_blocks
from trainer.dance.counts import is_number, label_of
from trainer.problems import Problem, loud
from trainer.routine import Event, Extra, Part, Routine, Section
from trainer.sheet.prose.sections.events import renumbered

_Block = TypeVar("_Block", Section, Extra)


def settled(routine: Routine) -> tuple[Routine, tuple[Problem, ...]]:
    """Return a routine whose blocks have each instant once and each count, and what was wrong with their counts."""
    found: list[Problem] = []
    for block, name in named_blocks(routine):
        if block.events and _settled(block, routine.phrase) != block:
            found += loud(block_findings(block, name, routine))
    if not found:
        return routine, ()
    parts = tuple(_part(part, routine.phrase) for part in routine.parts)
    extras = tuple(_settled(extra, routine.phrase) for extra in routine.extras)
    return renumbered(routine.but(parts=parts, extras=extras)), tuple(found)


def _part(part: Part, phrase: int) -> Part:
    return part.but(sections=tuple(_settled(section, phrase) for section in part.sections))


def _settled(block: _Block, phrase: int) -> _Block:
    if not block.events:
        return block
    events: list[Event] = list(_once(_from_the_start(block.events)))
    counts = max([block.counts, *(int(event.beat) + 1 for event in events)])
    events += _fillers(events, counts, phrase)
    return block.but(events=tuple(sorted(events, key=lambda event: event.beat)), counts=counts)


def _from_the_start(events: Sequence[Event]) -> Sequence[Event]:
    """Return events of which no whole count stands before the block's first."""
    first = min((event.beat for event in events if is_number(event.label)), default=Fraction(0))
    shift = max(ceil(-first), 0)
    return [event.but(beat=event.beat + shift) for event in events] if shift else events


def _once(events: Sequence[Event]) -> Iterator[Event]:
    """Yield the events without those on an instant that was danced before."""
    seen: set[Fraction] = set()
    for event in events:
        if event.beat not in seen:
            seen.add(event.beat)
            yield event


def _fillers(events: Sequence[Event], counts: int, phrase: int) -> Iterator[Event]:
    """Yield an unread event for each whole count that nothing is danced on."""
    shift = called_from(events, phrase)
    for first, last, near in holes(events, 1, counts):
        for beat in range(first, last):
            label = label_of((beat + shift) % phrase + 1)
            yield Event(label=label, beat=Fraction(beat), foot=None, weight=None, status="unread", span=near.span)
