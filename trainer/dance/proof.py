"""Proofreading: every law of the dance held against a whole routine, each fault found once, at its line.

The laws themselves stand in counts, footing and facing, so that a reader of prose prices its readings with the same
checks. Notes say what was assumed; they never make a sheet unsound. Nothing is raised, whatever the routine holds.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from trainer.dance.count_laws import count_findings
from trainer.dance.facing_laws import block_facings, extra_facings, mended
from trainer.dance.findings import Names, finding, listed
from trainer.dance.naming import clause_name
from trainer.dance.option_laws import option_findings
from trainer.dance.order_facings import room_findings, room_shifts
from trainer.dance.order_laws import order_findings
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.dance.weight_laws import weight_findings
from trainer.problems import Problem, in_order
from trainer.routine import Event, Routine, Section
from trainer.timing import ASSUMED_TEMPO


def proofread(routine: Routine) -> tuple[Problem, ...]:
    """Return everything that is wrong with a routine, and notes on what was assumed, by line and column."""
    names = Names(routine)
    timeline = _to_the_next_wall(routine)
    found = [
        *count_findings(routine, names, timeline),
        *weight_findings(routine, names, timeline),
        *_facing_findings(routine, names, timeline),
        *order_findings(routine, timeline),
        *_unread(routine, names),
        *_notes(routine, names),
    ]
    return in_order(found)


def _to_the_next_wall(routine: Routine) -> Timeline:
    """Return the routine as danced, one pass further than need be: how a dance closes shows in the next wall."""
    return unroll(routine, len(unroll(routine).passes) + 1)


def _facing_findings(routine: Routine, names: Names, timeline: Timeline) -> Iterator[Problem]:
    """Yield what is wrong with facings, from the parts outwards: what a block's statements want, the order may want."""

    def mend(mends: Mapping[int, Fraction]) -> list[Timeline]:
        return [unroll(mended(routine, mends), len(timeline.passes))] if mends else []

    facings = block_facings(routine, names)
    if facings.framed and not facings.lost and room_findings(routine, [timeline]):
        shifts = {id(event): shift for event, shift, _ in facings.framed}
        if not room_findings(routine, mend({**facings.mends, **shifts})):
            facings.believe_statements()
    timelines = [timeline, *mend(facings.mends)]
    extra_facings(routine, names, timelines, room_shifts(routine, timelines), facings)
    yield from facings.found
    yield from option_findings(routine, names, facings)
    if not facings.lost:
        yield from room_findings(routine, [timeline, *mend(facings.mends)])


def _unread(routine: Routine, names: Names) -> Iterator[Problem]:
    """Yield a finding for each run of events that nobody could read; those of one line or one text are one.

    Blocks that are only guessed are one finding together, at the first words of theirs that could not be read.
    """
    guessed = [block for block in routine.blocks() if _not_understood(block)]
    if guessed:
        told = listed([names.block(block.events[0]) for block in guessed])
        steps = "its steps are" if len(guessed) == 1 else "their steps are"
        hint = "write each count before its steps, such as: 1&2 shuffle forward"
        unread = (event.span for event in guessed[0].events if event.status == "unread")
        span = next(unread, None) or guessed[0].span or guessed[0].events[0].span
        yield finding("text", span, f"the layout of {told} was not understood: {steps} a guess", hint=hint)
    within = {id(event) for block in guessed for event in block.events}
    before: Event | None = None
    for event in routine.events():
        if event.status == "unread" and id(event) not in within and not (before and _one_text(before, event)):
            words = f': "{event.words}"' if event.words else ""
            yield finding("text", event.span, f"{names.full(event)} could not be read{words}")
        before = event if event.status == "unread" else None


def _not_understood(block: Section) -> bool:
    """Whether a block is only guessed, or unread in several places."""
    if any(event.doubtful and event.status != "unread" for event in block.events):
        return True
    return len({event.words for event in block.events if event.status == "unread"}) > 2


def _one_text(first: Event, second: Event) -> bool:
    if first.span and second.span:
        return first.span.line == second.span.line
    return bool(first.words) and first.words == second.words


def _notes(routine: Routine, names: Names) -> Iterator[Problem]:
    """Yield what was assumed."""
    if routine.tempo is None:
        told = f"no tempo is stated: {ASSUMED_TEMPO} counts a minute is assumed"
        yield finding("music", routine.where("tempo"), told, level="note")
    elif routine.tempo <= 0:
        yield finding("music", routine.where("tempo"), "a tempo is above 0 counts a minute")
    for event in routine.events():
        if event.status == "unsure" and not event.doubtful:
            told = f"{names.full(event)} is read as {_reading(event)}"
            other = f", but could be {_reading(event.other)}" if event.other else ""
            yield finding("text", event.span, f"{told}{other}", level="note")


def _reading(event: Event) -> str:
    foot = f"{event.foot} " if event.foot in ("R", "L") else ""
    return f"{foot}{clause_name(event)}"
