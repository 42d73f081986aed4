"""The events of a block as count lines of a fair copy.

A line holds two counts (in a waltz three), or a figure, or all that the teacher's words above it, or the styling beside
it, are about. It ends where those change, after a stated facing, and after a figure that is spelled out. Every line is
read again before it is taken: where a figure's bare name would be understood differently, its steps are spelled out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.routine import Event
from trainer.sheet.allot import allot
from trainer.sheet.countlines import figure_name, read_count_line
from trainer.sheet.drafts import Draft, drafts_of
from trainer.sheet.fair_clauses import clause, figure_clause
from trainer.sheet.findings import Findings
from trainer.sheet.labels import starts_with_counts
from trainer.sheet.lines import Line
from trainer.sheet.numbering import Slot
from trainer.sheet.stated import facing_told
from trainer.sheet.texts import quoted, told
from trainer.terms import Weight

_LONGEST = 48
"""Labels of one line."""

Before = Weight | None
"""The weight before an event; None where it is not known."""


@dataclass(frozen=True, slots=True)
class Run:
    """Consecutive events of one figure, or one event of none, with the weight before each."""

    events: tuple[Event, ...]
    befores: tuple[Before, ...]


def block_lines(
    events: Sequence[Event], befores: Sequence[Before], phrase: int, *, over: bool = False
) -> Iterator[str]:
    """Yield the lines of a block; `over` where its last event is the 1 of what follows (8&1)."""
    group: list[tuple[Event, Before]] = []
    for index, row in enumerate(zip(events, befores, strict=True)):
        last = index == len(events) - 1
        # A last 1 that belongs to this block must not look like the 1 of what follows.
        alone = last and not over and row[0].label == "1" and any(one.label.isdigit() for one in events[:index])
        if group and (alone or (not (last and over) and _breaks(group, row[0], 3 if phrase == 6 else 2))):
            yield from _lines(group)
            group = []
        group.append(row)
    if group:
        yield from _lines(group)


def _breaks(group: Sequence[tuple[Event, Before]], event: Event, unit: int) -> bool:
    """Whether an event begins a new line."""
    before = group[-1][0]
    if before.facing is not None or event.styling != before.styling or len(group) >= _LONGEST:
        return True
    words = _words([one for one, _ in group])
    if not _unread(event) and words is not None and event.words != words:
        return True
    if not event.label.isdigit() or words or event.styling or (event.words and not _unread(event)):
        return False
    if event.figure is not None and before.figure is not None and event.figure.id == before.figure.id:
        return False
    opens = (int(event.label) - 1) % unit == 0 and (before.label.isdigit() or event.figure is not None)
    return opens or sum(one.label.isdigit() for one, _ in group) >= unit


def _unread(event: Event) -> bool:
    return event.foot is None or event.move is None


def _words(events: Sequence[Event]) -> str | None:
    """Return the words above some events; what could not be read has its own, and says nothing here."""
    return next((event.words for event in events if not _unread(event)), None)


def _lines(group: Sequence[tuple[Event, Before]]) -> Iterator[str]:
    """Yield the line of a group of events, or the lines where figures must be spelled out."""
    runs = list(_runs(group))
    names = [figure_clause(run.events, run.befores[0]) for run in runs]
    told = list(_divided(runs, names))
    if not all(_reads_back(part, parts_names) for part, parts_names in told):
        told = list(_divided(runs, [None] * len(runs)))
    for part, part_names in told:
        yield from _told(part, part_names)


def _runs(group: Sequence[tuple[Event, Before]]) -> Iterator[Run]:
    events: list[Event] = []
    befores: list[Before] = []
    for event, before in group:
        mark, last = event.figure, events[-1].figure if events else None
        joins = mark is not None and last is not None and (mark.id, mark.index) == (last.id, last.index + 1)
        if events and not joins:
            yield Run(tuple(events), tuple(befores))
            events, befores = [], []
        events.append(event)
        befores.append(before)
    yield Run(tuple(events), tuple(befores))


Names = Sequence[str | None]


def _divided(runs: Sequence[Run], names: Names) -> Iterator[tuple[list[Run], list[str | None]]]:
    """Yield the runs line by line: after a figure that is spelled out only another such figure may stand."""
    part: list[Run] = []
    part_names: list[str | None] = []
    for run, name in zip(runs, names, strict=True):
        spelled = bool(part) and part[-1].events[0].figure is not None and part_names[-1] is None
        if spelled and (name is not None or run.events[0].figure is None):
            yield part, part_names
            part, part_names = [], []
        part.append(run)
        part_names.append(name)
    yield part, part_names


def _told(runs: Sequence[Run], names: Names) -> Iterator[str]:
    """Yield the words above a line, and the line."""
    events = [event for run in runs for event in run.events]
    words = _words(events) or ""
    if words:
        yield from (f"> {told(line)}" if line else ">" for line in words.split("\n"))
    yield _line(runs, names, words)


def _line(runs: Sequence[Run], names: Names, words: str) -> str:
    events = [event for run in runs for event in run.events]
    clauses = [name if name is not None else _spelled(run, words) for run, name in zip(runs, names, strict=True)]
    text = f"{labels_told(events):<7} {', '.join(clauses)}"
    if events[-1].facing is not None:
        text = f"{text:<66} @{facing_told(events[-1].facing)}"
    return f"{text}  ; {told(events[-1].styling)}" if events[-1].styling else text


def _spelled(run: Run, words: str) -> str:
    """Return the steps of a run one by one, after the name of their figure if they have one."""
    clauses = [clause(event, before, words) for event, before in zip(run.events, run.befores, strict=True)]
    mark = run.events[0].figure
    if mark is None:
        return clauses[0]
    name = mark.name if _bare_name(mark.name) else quoted(mark.name)
    going_on = f" (from step {mark.index + 1})" if mark.index else ""
    return f"{name}{going_on}: {', '.join(clauses)}"


def _bare_name(name: str) -> bool:
    """Whether a figure's name can stand before its colon without quotes."""
    letters = name.replace(" ", "").replace("-", "")
    if not letters.isalnum() or starts_with_counts(name):
        return False
    return told(name) == name and figure_name(name) == name


def labels_told(events: Sequence[Event]) -> str:
    """Return the counts of some events: 1&2, 5-6, 2a3&4, &3-4."""
    text = ""
    open_range: str = ""
    previous = ""
    for event in events:
        label = event.label
        if label.isdigit() and previous.isdigit():
            if int(label) == int(previous) + 1:
                open_range = label
            else:
                text, open_range = f"{_closed(text, open_range)} {label}", ""
        else:
            text, open_range = _closed(text, open_range) + label, ""
        previous = label
    return _closed(text, open_range)


def _closed(text: str, open_range: str) -> str:
    return f"{text}-{open_range}" if open_range else text


def _reads_back(runs: Sequence[Run], names: Names) -> bool:
    """Whether a line is understood as it is meant, weights apart."""
    if not any(names):
        return True
    events = [event for run in runs for event in run.events]
    words = _words(events) or ""
    text = _line(runs, names, words)
    findings = Findings()
    line = read_count_line(Line(text, ((0, 1, 1),)), words, findings)
    slots = [Slot(event.label, event.beat) for event in events]
    fit = allot(line, [slot.label for slot in slots])
    drafts = drafts_of(line, slots, fit, words, findings)
    return (
        not findings.result()
        and fit.complaint is None
        and all(_same(draft, event) for draft, event in zip(drafts, events, strict=True))
    )


def _same(draft: Draft, event: Event) -> bool:
    mark = event.figure and (event.figure.name, event.figure.index)
    return (draft.mark and (draft.mark.name, draft.mark.index)) == mark and (
        (draft.foot, draft.move, draft.direction, draft.turn, draft.then, draft.also, draft.asides, draft.facing)
        == (event.foot, event.move, event.direction, event.turn, event.then, event.also, event.asides, event.facing)
    )
