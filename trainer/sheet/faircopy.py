"""The fair copy: our strict form of a sheet, from text to Routine.

A sheet has a head of `key: value` lines (header.py), blocks of count lines under headings (headings.py, blocks.py,
countlines.py, clauses.py) and the order (order.py). Every problem is collected; what is wrong is read as well as it can
be, and a step that cannot be read becomes an event that is unread.
"""

from collections.abc import Sequence
from typing import cast

from trainer.routine import Event, Extra, Option, OrderLine, Part, Routine, Section
from trainer.sheet.blocks import Body, head_and_body, read_body
from trainer.sheet.counting import Counted, Counter
from trainer.sheet.findings import Findings
from trainer.sheet.header import read_header
from trainer.sheet.lines import logical_lines
from trainer.sheet.marks import figure_marks
from trainer.sheet.standing import block_weights
from trainer.sheet.weighing import event_of
from trainer.terms import ExtraKind


def read_fair(text: str, findings: Findings) -> Routine:
    """Return the routine of a fair copy, as far as it can be read."""
    head, rest = head_and_body(list(logical_lines(text)))
    routine = Routine(**{"title": "", **read_header(head, findings)})
    body = read_body(rest, findings)
    phrased = routine.phrased or bool(body.parts)
    counter = Counter(routine, body.blocks, findings, phrased=phrased)
    counter.count()
    ordered = _in_reading_order(counter.blocks, body)
    events = _events(ordered, routine, body, phrased=phrased)
    made = dict(zip(map(id, ordered), events, strict=True))
    parts = _parts(counter.blocks, body, made)
    _check_ends(body, parts, findings)
    return routine.but(
        notes=(*routine.notes, *body.remarks),
        parts=parts,
        extras=tuple(_extra(one, made[id(one)]) for one in counter.blocks if _is_extra(one)),
        options=tuple(_option(one, made[id(one)]) for one in counter.blocks if one.block.heading.kind == "option"),
        order=tuple(told.line for told in body.order),
    )


def _is_extra(one: Counted) -> bool:
    return one.block.heading.kind not in ("section", "option")


def _part_names(blocks: Sequence[Counted], body: Body) -> list[str]:
    """Return the parts in order: the one without a heading first, if it has sections."""
    names = [name for name, _ in body.parts]
    nameless = any(one.block.heading.kind == "section" and one.block.part == "" for one in blocks)
    return ["", *names] if nameless and "" not in names else names


def _in_reading_order(blocks: Sequence[Counted], body: Body) -> list[Counted]:
    """Return the blocks in the order of Routine.events()."""
    intros = [one for one in blocks if one.block.heading.kind == "intro"]
    sections = [
        one
        for name in dict.fromkeys(_part_names(blocks, body))
        for one in blocks
        if one.block.heading.kind == "section" and one.block.part == name
    ]
    extras = [one for one in blocks if _is_extra(one) and one.block.heading.kind != "intro"]
    return [*intros, *sections, *extras, *(one for one in blocks if one.block.heading.kind == "option")]


def _events(ordered: Sequence[Counted], routine: Routine, body: Body, *, phrased: bool) -> list[tuple[Event, ...]]:
    """Return the events of each block."""
    sections = [one for one in ordered if one.block.heading.kind == "section"]
    closing = sections[-1].drafts if sections and not phrased else []
    marks = figure_marks([one.drafts for one in ordered], sections[0].drafts if sections else [], closing)
    weights = block_weights(ordered, routine, [told.line for told in body.order])
    return [
        tuple(event_of(*row) for row in zip(one.drafts, weights[id(one)], block, strict=True))
        for one, block in zip(ordered, marks, strict=True)
    ]


def _parts(blocks: Sequence[Counted], body: Body, made: dict[int, tuple[Event, ...]]) -> tuple[Part, ...]:
    spans = {name: span for name, span in reversed(body.parts)}
    seen: set[str] = set()
    parts = []
    for name in _part_names(blocks, body):
        sections = tuple(
            _section(one, made[id(one)])
            for one in blocks
            if one.block.heading.kind == "section" and one.block.part == name and name not in seen
        )
        seen.add(name)
        parts.append(Part(span=spans.get(name), name=name, sections=sections))
    return tuple(parts)


def _section(one: Counted, events: tuple[Event, ...]) -> Section:
    heading = one.block.heading
    return Section(
        span=heading.span,
        name=heading.name,
        title=heading.title,
        counts=one.counts,
        feel=one.block.feel,
        events=events,
    )


def _extra(one: Counted, events: tuple[Event, ...]) -> Extra:
    heading = one.block.heading
    return Extra(
        span=heading.span,
        kind=cast("ExtraKind", heading.kind),
        name=heading.name,
        title=heading.title,
        starts=heading.starts,
        counts=one.counts,
        feel=one.block.feel,
        events=events,
    )


def _option(one: Counted, events: tuple[Event, ...]) -> Option:
    heading = one.block.heading
    return Option(
        span=heading.span,
        part=one.block.part,
        section=heading.name,
        first=heading.first,
        last=heading.last,
        title=heading.title,
        events=events,
    )


def _check_ends(body: Body, parts: Sequence[Part], findings: Findings) -> None:
    """Ask what follows where a departure does not say it, and is not at its wall's last count."""
    counts = {part.name: part.counts for part in parts}
    for told in body.order:
        line: OrderLine = told.line
        for departure, span in told.open_ended:
            if departure.after != counts.get(line.part):
                findings.error(
                    "order",
                    span,
                    f"What follows after count {departure.after}?",
                    "Write continue, restart, next or end; only at the wall's last count it may be left out.",
                )
