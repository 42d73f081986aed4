"""A path to written events and sections, and the findings that only the words can give: unread steps, empty counts."""

import re
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import count

from trainer.problems import Problem
from trainer.routine import Event, FigureMark, Gesture, Routine, Section, Span
from trainer.sheet.prose.heads.headings import title_of
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.page.heads_faced import with_faced_heads
from trainer.sheet.prose.search.paths import Path, Said
from trainer.sheet.prose.sections.each_count import is_of_several, steps_told, tells_each_count
from trainer.sheet.prose.sections.said_to_last import lasts_too_long
from trainer.sheet.prose.words import Item, Token
from trainer.terms import Foot, Move

_MOST_LABELS = 4
"""So many counts are named each in a sentence."""


def events_of(items: Sequence[Item], said: Sequence[Said], base: Fraction) -> tuple[Event, ...]:
    """Return a path's events; their beats count from `base`. Figures are numbered from 1 as they come."""
    events: list[Event] = []
    mark: FigureMark | None = None
    number = 0
    for one in said:
        draft = one.draft
        if draft is None or not draft.figure:
            mark = None
        elif mark is None or draft.figure_start or mark.name != draft.figure:
            number += 1
            mark = FigureMark(id=number, name=draft.figure, index=0)
        else:
            mark = mark.but(index=mark.index + 1)
        event = _event(one, items[one.item], base, mark)
        events.append(event.but(foot=Foot.NONE) if events and _bumps_again(events[-1], event) else event)
    return tuple(events)


def _bumps_again(before: Event, event: Event) -> bool:
    """Whether hips go once more to the side that carries: no foot acts, as in "bump right twice"."""
    hips = before.move is Move.BUMP or any(gesture.move is Move.BUMP for gesture in before.also)
    same = before.weight == event.weight == event.foot and before.foot in (event.foot, Foot.NONE)
    # Hips that go right and then left over a foot that keeps the weight go to two sides.
    other = before.foot is Foot.NONE and before.direction != event.direction
    return event.move is Move.BUMP and event.status == "sure" and hips and same and not other


def _own_words(tokens: Sequence[Token]) -> str:
    """Return the teacher's words of an item; what was put in to tell them plainly stands at places of theirs."""
    places = [(token.line, token.column) for token in tokens]
    return title_of([token for at, token in enumerate(tokens) if places[at] not in places[:at]])


def _event(one: Said, item: Item, base: Fraction, mark: FigureMark | None) -> Event:
    words = _own_words(item.text)
    span = one.draft.span if one.draft and one.draft.span else item.span
    if one.draft is None:
        return Event(
            label=one.slot.label,
            beat=one.slot.beat - base,
            foot=None,
            weight=None,
            words=words,
            status="unread",
            span=span,
        )
    event = _read(one, item, base, mark, span)
    if one.other is None or one.other.draft is None:
        return event
    other = _read(replace(one.other, facing=one.facing), item, base, mark, span)
    return event.but(status="unsure", other=other)


def _read(one: Said, item: Item, base: Fraction, mark: FigureMark | None, span: Span) -> Event:
    """Return the event of one reading."""
    assert one.draft is not None
    words = _own_words(item.text)
    also = tuple(Gesture(foot=foot or _gesturing(one), move=move, direction=way) for foot, move, way in one.draft.also)
    return Event(
        label=one.slot.label,
        beat=one.slot.beat - base,
        foot=one.foot,
        weight=one.weight,
        turn=one.turn,
        then=one.then,
        move=one.move,
        direction=one.draft.direction,
        also=also,
        figure=mark,
        asides=one.draft.asides,
        words=words,
        facing=one.facing,
        stated=one.draft.facing_span if one.facing is not None else None,
        span=span,
    )


def _gesturing(one: Said) -> Foot:
    """The foot of a gesture that no words name: the one that does not carry."""
    return {"R": Foot.LEFT, "L": Foot.RIGHT}.get(one.weight or "", Foot.NONE)


def section_of(block: Block, path: Path) -> tuple[Section, ...]:
    """Return the sections of a block with their events, parted at its bounds."""
    beats = [bound.beat for bound in block.bounds]
    groups: list[list[Said]] = [[] for _ in beats]
    for one in _wrapped(path.said, block.counts):
        groups[_section_index(one, path.items[one.item], beats)].append(one)
    sections = []
    for place, (bound, group) in enumerate(zip(block.bounds, groups, strict=True)):
        upto = beats[place + 1] if place + 1 < len(beats) else block.counts
        events = events_of(path.items, sorted(group, key=lambda one: one.slot.beat), Fraction(bound.beat))
        title = _title(bound.heading.text, place + 1) if bound.heading else ""
        span = bound.heading.tokens[0].span if bound.heading else (events[0].span if events else None)
        sections.append(
            Section(name=f"{block.part}{place + 1}", title=title, counts=upto - bound.beat, events=events, span=span)
        )
    return with_faced_heads(sections, block.bounds)


_NUMBERED = re.compile(
    r"((?:section|sec|set|block|s)\b\.?|s(?=\d))?\s*#?(\d+|[a-z]+)\b(?!\s*[\-–—]\s*\d)\s*([:.)\-–—]*)\s*",
    re.IGNORECASE,
)
_ONLY_FACES = re.compile(r"[(\[]?\s*\d{1,2}[:.]\d\d\s*[)\]]?")
"""What a number is followed by that names nothing: "Section 2 (9:00)"."""
_SPELLED = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _title(heading: str, number: int) -> str:
    """Return a section's heading without the number that its name tells anyway: "Section 1: walks" is "walks"."""
    match = _NUMBERED.match(heading)
    spelled = _SPELLED[number] if number < len(_SPELLED) else ""
    if match is None or match[2].lower() not in (str(number), spelled) or not (match[1] or match[3]):
        return heading
    rest = heading[match.end() :].lstrip(" |:-")
    return "" if _ONLY_FACES.fullmatch(rest) else rest


def _wrapped(said: Sequence[Said], counts: int) -> list[Said]:
    """Return the events with the 1 of a last 8&1 at the block's start, unless the block gives its own 1."""
    opens = any(one.slot.beat == 0 for one in said)
    done = []
    for one in said:
        if one.slot.beat >= counts:
            if opens:
                continue
            one = _at(one, one.slot.beat - counts)
        done.append(one)
    return sorted(done, key=lambda one: one.slot.beat)


def _at(one: Said, beat: Fraction) -> Said:
    return replace(one, slot=replace(one.slot, beat=beat))


def _section_index(one: Said, item: Item, beats: Sequence[int]) -> int:
    """Return the section that an event is written in: a leading & or a belongs to the section that it leads into."""
    beat = one.slot.beat
    index = max(bisect_right(beats, beat) - 1, 0)
    leads = one.slot.label in ("e", "&", "a") and any(
        slot.beat == int(beat // 1) + 1 for slot in item.slots if slot.label not in ("e", "&", "a")
    )
    starts_item = bool(item.slots) and item.slots[0].label in ("e", "&", "a")
    if leads and starts_item and index + 1 < len(beats) and int(beat // 1) + 1 == beats[index + 1]:
        return index + 1
    return index


def findings_of(block: Block, path: Path) -> list[Problem]:
    """Return what could not be read in a block: one finding an item.

    Words left over are a note: most say how a step is danced. `gates` takes them for more where the feet do not go on,
    and so they are where a block tells a step for each of its counts, but more on these.
    """
    if block.problems:
        return []
    lost: dict[int, list[Said]] = {one.item: [] for one in path.said}
    for one in path.said:
        if one.draft is None:
            lost[one.item].append(one)
    counted = tells_each_count(path.items)
    return [
        problem
        for index in sorted(lost)
        for problem in _item_findings(path.items[index], path, index, lost[index], counted=counted)
    ]


def _item_findings(item: Item, path: Path, index: int, lost: Sequence[Said], *, counted: bool) -> list[Problem]:
    reading = path.readings[index] if index < len(path.readings) else None
    if reading is not None and reading.unread:
        span = reading.unread[0]
        return [_unread_problem(item, span)]
    if lost:
        labels = [one.slot.label for one in lost]
        told = f"{labels[0]} to {labels[-1]}" if len(labels) > _MOST_LABELS else " and ".join(labels)
        message = f"there is no step for count {told}" if len(lost) == 1 else f"there are no steps for counts {told}"
        return [_item_problem(item, "counts", message, "Say what is danced there, or hold")]
    if reading is not None and reading.breaches >= 1.0:
        counts = " ".join(slot.label for slot in item.slots)
        message = f"more steps are named here than the counts {counts} hold"
        surplus = counted and is_of_several(item) and steps_told(item.text) > len(item.slots)
        return [replace(_item_problem(item, "counts", message, ""), level="error" if surplus else "note")]
    if longer := lasts_too_long(item, counted=counted and is_of_several(item)):
        counts = " ".join(slot.label for slot in item.slots)
        return [_item_problem(item, "counts", f"what lasts for {longer} counts has only the counts {counts}", "")]
    return []


def _unread_problem(item: Item, span: Span) -> Problem:
    words = _words_at(item.text, span)
    return Problem(
        level="error",
        kind="text",
        line=span.line,
        column=span.column,
        message=f"“{words}” is not a step that can be read",
        hint="",
    )


def _words_at(text: Sequence[Token], span: Span) -> str:
    inside = [
        token
        for token in text
        if token.line == span.line and span.column <= token.column < span.column + max(span.length, 1)
    ]
    return title_of(inside) or title_of(text)


def _item_problem(item: Item, kind: str, message: str, hint: str) -> Problem:
    return Problem(
        level="error",
        kind="counts" if kind == "counts" else "text",
        line=item.span.line,
        column=item.span.column,
        message=message,
        hint=hint,
    )


def renumbered(routine: Routine) -> Routine:
    """Return a routine with its figures numbered in reading order through the whole of it."""
    numbers = count(1)

    def block(events: Sequence[Event]) -> tuple[Event, ...]:
        known: dict[int, int] = {}
        done = []
        for event in events:
            mark = event.figure
            if mark is not None:
                if mark.id not in known:
                    known[mark.id] = next(numbers)
                mark = mark.but(id=known[mark.id])
                event = event.but(figure=mark, other=event.other and event.other.but(figure=mark))
            done.append(event)
        return tuple(done)

    intros = {id(extra): extra.but(events=block(extra.events)) for extra in routine.extras if extra.kind == "intro"}
    parts = tuple(
        part.but(sections=tuple(section.but(events=block(section.events)) for section in part.sections))
        for part in routine.parts
    )
    extras = tuple(intros.get(id(extra)) or extra.but(events=block(extra.events)) for extra in routine.extras)
    options = tuple(option.but(events=block(option.events)) for option in routine.options)
    return routine.but(parts=parts, extras=extras, options=options)
