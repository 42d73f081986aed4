"""Laws of counts: they fill their sections, each once and in order, and no two events fall on one instant."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.dance.counts import is_number, number_at, offset, spoken
from trainer.dance.findings import Names, block_name, finding, number_of
from trainer.dance.timeline import Danced, Timeline
from trainer.problems import Problem
from trainer.routine import Event, Extra, Routine, Section
from trainer.terms import Feel


def count_findings(routine: Routine, names: Names, timeline: Timeline) -> list[Problem]:
    """Return what is wrong with the counts of sections and extras, as written and as danced, and with their sum."""
    found: list[Problem] = []
    faulty: set[str] = set()
    for section, name in named_blocks(routine):
        own = block_findings(section, name, routine)
        found += own
        if own:
            faulty.add(name)
    found += _together(names, timeline, faulty)
    # One fault, one finding: counts that are missing in a section are missing in the sum, too.
    return found or list(_declared(routine))


def named_blocks(routine: Routine) -> Iterator[tuple[Section, str]]:
    """Yield every section and extra with its name."""
    for part in routine.parts:
        for section in part.sections:
            yield section, block_name(section, part)
    for extra in routine.extras:
        yield extra, block_name(extra)


def block_findings(section: Section, name: str, routine: Routine) -> list[Problem]:
    """Return what is wrong with the counts of one section or extra."""
    if section.counts < 1:
        return [finding("counts", section.span, f"{name} has no counts")]
    if not section.events:
        return [finding("counts", section.span, f"{name} has no steps")]
    if any(event.doubtful and event.status != "unread" for event in section.events):
        # Where the layout was not understood the counts are guesses, too.
        return []
    # A line with the counts of another line leaves its own empty: that is one fault.
    found = list(crowded(section, name)) or list(gaps(section.events, 1, section.counts, name, routine.phrase))
    return found or list(_mislabelled(section, name, section.feel or routine.feel, routine.phrase))


def gaps(events: Sequence[Event], first: int, last: int, name: str, phrase: int) -> Iterator[Problem]:
    """Yield a finding for each run of whole counts, from `first` to `last`, without an event.

    Counts inside a figure are covered by it, and counts beside an unread event may be what could not be read.
    """
    shift = called_from(events, phrase)
    for begins, until, near in holes(events, first, last):
        missing = _run(begins + shift, until + shift, phrase)
        yield finding("counts", near.span, f"{name} has no step on {missing}")


def holes(events: Sequence[Event], first: int, last: int) -> Iterator[tuple[int, int, Event]]:
    """Yield each run of whole counts, from `first` to `last`, without an event, as beats, and an event beside it."""
    done, before = first - 1, None
    for event in [*sorted(events, key=lambda one: one.beat), None]:
        if event is None or event.beat.denominator == 1:
            until = last if event is None else int(event.beat)
            near = event or before
            if until > done and near is not None and not _covered(before, event):
                yield done, until, near
            done = max(done, until + 1)
        before = event


def _covered(before: Event | None, after: Event | None) -> bool:
    if any(event is not None and event.status == "unread" for event in (before, after)):
        return True
    return bool(before and after and before.figure and after.figure and before.figure.id == after.figure.id)


def _run(first: int, last: int, phrase: int) -> str:
    """Return beats from one to before another as they are called: "count 5", "counts 5 to 8"."""
    start, end = number_at(first, phrase), number_at(last - 1, phrase)
    return f"count {start}" if last - first == 1 else f"counts {start} to {end}"


def called_from(events: Sequence[Event], phrase: int) -> int:
    """Return by how much an extra that carries on its host's numbering counts higher than from 1."""
    first = next((event for event in events if is_number(event.label)), None)
    return int(first.label) - number_at(first.beat, phrase) if first else 0


def crowded(section: Section, name: str) -> Iterator[Problem]:
    """Yield a finding for each run of events that stand on counts of others, before them, or outside the section."""
    called = spoken(event.label for event in section.events)
    high: Event | None = None
    top, inside = "", False
    for event, count in zip(section.events, called, strict=True):
        if not -1 <= event.beat < section.counts:
            yield finding(
                "counts", event.span, f"{count} lies outside the {number_of(section.counts, 'count')} of {name}"
            )
            return
        if high is None or event.beat > high.beat:
            high, top, inside = event, count, False
        elif not inside:
            told = (
                f"has {count} twice" if any(_same(event, one) for one in section.events) else f"has {count} after {top}"
            )
            yield finding("counts", event.span, f"{name} {told}")
            inside = True


def _same(event: Event, other: Event) -> bool:
    return event is not other and event.beat == other.beat


def _mislabelled(section: Section, name: str, feel: Feel, phrase: int) -> Iterator[Problem]:
    """Yield the first event whose label and beat say different things; only a routine typed as JSON can have one."""
    shift = called_from(section.events, phrase) if isinstance(section, Extra) else 0
    for event, count in zip(section.events, spoken(event.label for event in section.events), strict=True):
        falls = offset(event.label, feel)
        if falls is None:
            yield finding("counts", event.span, f"{name} has {count}, but there is no {event.label} in a {feel} count")
            return
        if event.beat % 1 != falls or (
            is_number(event.label) and int(event.label) != _called(event.beat, shift, phrase)
        ):
            yield finding("counts", event.span, f"{name} has {count} at {event.beat} beats from its first count")
            return


def _called(beat: Fraction, shift: int, phrase: int) -> int:
    return (number_at(beat, phrase) - 1 + shift) % phrase + 1


def _together(names: Names, timeline: Timeline, faulty: set[str]) -> Iterator[Problem]:
    """Yield a finding for two events on one instant as danced: at the edge of two sections, or across a cut."""
    seen: set[tuple[int, int]] = set()
    before: Danced | None = None
    for one in timeline.danced():
        if before and one.beat <= before.beat:
            pair = (id(before.event), id(one.event))
            blocks = {names.block(before.event), names.block(one.event)}
            guess = one.event.doubtful or before.event.doubtful
            if pair not in seen and not blocks & faulty and not guess:
                told = f"{names.full(one.event)} falls on or before {names.full(before.event)}"
                yield finding("counts", one.event.span, told)
            seen.add(pair)
        before = one


def _declared(routine: Routine) -> Iterator[Problem]:
    danced = sum(part.counts for part in routine.parts)
    if routine.counts is None or routine.counts == danced or not routine.parts:
        return
    told = f"the sheet declares {number_of(routine.counts, 'count')}, but its sections have {danced}"
    odd = [(section, part) for part in routine.parts for section in part.sections if section.counts != routine.phrase]
    if len(odd) == 1 and odd[0][0].counts + routine.counts - danced == routine.phrase:
        section, part = odd[0]
        name = block_name(section, part)
        hint = f"with {number_of(routine.phrase, 'count')} in {name} it would come out"
        # Counts are mostly missing at the end: there the finding stands.
        last = section.events[-1].span if section.counts < routine.phrase and section.events else section.span
        yield finding("counts", last, f"{told}: {name} has {section.counts}", hint=hint)
    else:
        yield finding("counts", routine.where("counts"), told)
