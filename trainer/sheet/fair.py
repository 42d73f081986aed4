"""The fair copy of a routine: a sheet in our strict form, from which the same routine is read again.

What a line of counts cannot say in the usual way is still written: a figure that runs over the end of a section goes on
with the `1` of an `8&1` where that is all of it, else with `NAME (from step 3): ...`; a text that would be misread
stands in quotes; a length that the counts do not show stands in the heading.
"""

from collections.abc import Iterator, Sequence

from trainer.routine import Event, Extra, Option, Part, Routine, Section
from trainer.sheet.fair_lines import Before, block_lines
from trainer.sheet.fair_order import order_lines
from trainer.sheet.headings import name_told
from trainer.sheet.stated import facing_told, turn_told
from trainer.sheet.texts import quoted, told


def fair(routine: Routine) -> str:
    """Return the fair copy of a routine."""
    lines = [*_header(routine), *_Writer(routine).blocks(), *order_lines(routine)]
    return "\n".join(lines) + "\n"


def _header(routine: Routine) -> Iterator[str]:
    """Yield the lines of the head; what has its usual value is left out, but for what a reader looks for."""
    yield f"title: {told(routine.title)}"
    for key, text in (("tune", routine.tune), ("by", routine.by)):
        if text:
            yield f"{key}: {told(text)}"
    if routine.tempo is not None:
        yield f"tempo: {routine.tempo}"
    yield f"time: {routine.time}"
    yield f"feel: {routine.feel}"
    yield f"starts: weight on {routine.starts}"
    for key, number in (("counts", routine.counts), ("walls", routine.walls)):
        if number is not None:
            yield f"{key}: {number}"
    if routine.level:
        yield f"level: {told(routine.level)}"
    if routine.wait is not None:
        yield f"intro: {routine.wait} {told(routine.wait_from)}" if routine.wait_from else f"intro: {routine.wait}"
    elif routine.wait_from:
        yield f"intro: {quoted(routine.wait_from)}"
    if routine.squares:
        yield f"square up: {turn_told(routine.squares)}"
    if routine.play or not routine.repeats:
        items = [_played(item.kind, item.name, item.counts) for item in routine.play]
        yield f"play: {' '.join([*items, *(['repeat'] if routine.repeats else [])])}".rstrip()
    yield from (f"note: {told(note)}" for note in routine.notes)


def _played(kind: str, name: str, counts: int) -> str:
    if kind == "hold":
        return f"hold {counts}"
    return name_told(name) if kind == "part" else f"{kind} {name_told(name)}"


class _Writer:
    """Writes the blocks of a routine."""

    def __init__(self, routine: Routine) -> None:
        self._routine = routine
        self._phrased = routine.phrased or any(part.name for part in routine.parts) or len(routine.parts) > 1
        self._sections = [section for part in routine.parts for section in part.sections]
        self._moved = self._moves()
        """Of each section the event of the next block that is written at its end, by identity of the section."""
        self._befores = self._weights()

    def blocks(self) -> Iterator[str]:
        """Yield the lines of all blocks: the intro first, parts, other extras, options."""
        extras = self._routine.extras
        ahead = next((index for index, extra in enumerate(extras) if extra.kind != "intro"), len(extras))
        for extra in extras[:ahead]:
            yield from self._extra(extra)
        for number, part in enumerate(self._routine.parts):
            yield from self._part(part, first=number == 0)
        for extra in extras[ahead:]:
            yield from self._extra(extra)
        for option in self._routine.options:
            yield from self._option(option)

    def _part(self, part: Part, *, first: bool) -> Iterator[str]:
        if part.name or not first or not part.sections:
            yield from ("", f"== part {name_told(part.name)}")
        for section in part.sections:
            name = name_told(section.name)
            yield from ("", f"== {name}{self._length(section)}{_title(section.title)}")
            yield from self._body(section)

    def _extra(self, extra: Extra) -> Iterator[str]:
        name = f" {name_told(extra.name)}" if extra.name or extra.kind != "intro" else ""
        starts = f", starts {facing_told(extra.starts)}" if extra.starts is not None else ""
        yield from ("", f"== {extra.kind}{name}{starts}{self._length(extra)}{_title(extra.title)}")
        yield from self._body(extra)

    def _length(self, block: Section) -> str:
        """Return the length of a block where its counts do not show it."""
        shown = max((int(event.beat) + 1 for event in block.events if event.label.isdigit()), default=0)
        return "" if shown == block.counts else f", {block.counts} counts"

    def _body(self, block: Section) -> Iterator[str]:
        if block.feel is not None:
            yield f"feel: {block.feel}"
        events, befores = list(block.events), self._befores[id(block)]
        if any(event is moved for moved in self._moved.values() for event in events[:1]):
            events, befores = events[1:], befores[1:]
        if (moved := self._moved.get(id(block))) is not None:
            # Its weight is known as where it is danced: the first count of all begins as the dance does.
            first = bool(self._sections) and moved is self._sections[0].events[0]
            before = self._routine.starts if first else block.events[-1].weight
            events, befores = [*events, moved], [*befores, before]
        yield from block_lines(events, befores, self._routine.phrase, over=moved is not None)

    def _option(self, option: Option) -> Iterator[str]:
        counts = f"count {option.first}" if option.first == option.last else f"counts {option.first}-{option.last}"
        last_part = next((part.name for part in reversed(self._routine.parts)), "")
        part = f" of part {name_told(option.part)}" if option.part != last_part or option.part else ""
        yield from ("", f"== option {name_told(option.section)}{part}, {counts}{_title(option.title)}")
        befores = _running(option.events, self._before_option(option))
        yield from block_lines(option.events, befores, self._routine.phrase)

    def _before_option(self, option: Option) -> Before:
        """Return the weight before the counts that an option replaces.

        Where it is not known a reader may take it for either foot: it is told as the one that makes a note necessary.
        """
        part = self._routine.part(option.part)
        for section in part.sections if part is not None and option.events else ():
            if section.name == option.section:
                rows = zip(section.events, self._befores[id(section)], strict=True)
                known = next((before for event, before in rows if event.beat >= option.events[0].beat), None)
                return known or ("R" if option.events[0].weight == "L" else "L")
        return None

    def _moves(self) -> dict[int, Event]:
        """Return the first events of blocks that are written as the 1 of an `8&1` at the end of the block before."""
        moved: dict[int, Event] = {}
        pairs: list[tuple[Section, Section]] = []
        for part in self._routine.parts:
            pairs += zip(part.sections, part.sections[1:], strict=False)
        if self._sections:
            before: list[Section] = [extra for extra in self._routine.extras if extra.kind == "intro"]
            before += [] if self._phrased else self._sections[-1:]
            pairs += [(block, self._sections[0]) for block in before]
        for block, following in pairs:
            if _goes_over(block, following):
                moved[id(block)] = following.events[0]
        return moved

    def _weights(self) -> dict[int, list[Before]]:
        """Return the weight before every event of the blocks, as a reader of the fair copy knows it."""
        befores: dict[int, list[Before]] = {}
        for part in self._routine.parts:
            opens = bool(self._sections) and bool(part.sections) and part.sections[0] is self._sections[0]
            weight: Before = self._routine.starts if opens else None
            for section in part.sections:
                befores[id(section)] = _running(section.events, weight)
                weight = section.events[-1].weight if section.events else weight
        for extra in self._routine.extras:
            befores[id(extra)] = _running(extra.events, None)
        return befores


def _running(events: Sequence[Event], before: Before) -> list[Before]:
    """Return the weight before each event."""
    return [before, *(event.weight for event in events)][: len(events)]


def _goes_over(block: Section, following: Section) -> bool:
    """Whether the figure at the end of a block has exactly the first count of what follows as its last step."""
    if not block.events or not following.events or following is block:
        return False
    last, first = block.events[-1], following.events[0]
    second = following.events[1] if len(following.events) > 1 else None
    if last.figure is None or first.figure is None or last.label.isdigit() or first.beat or first.label != "1":
        return False
    if second is not None and second.figure is not None and second.figure.id == first.figure.id:
        return False
    if not any(event.label.isdigit() for event in following.events[1:]):
        # What is left of it would look like a block that begins with a pick-up.
        return False
    if last.facing is not None or not _one_line([*block.events, first]):
        return False
    return (first.figure.id, first.figure.index) == (last.figure.id, last.figure.index + 1)


def _one_line(events: Sequence[Event]) -> bool:
    """Whether the last event has the words and the styling of its figure's others; one unread has its own."""
    last = events[-1]
    others = (
        [one for one in events[:-1] if one.figure is not None and one.figure.id == last.figure.id]
        if last.figure
        else []
    )
    told = [one.words for one in others if one.status != "unread"] or [one.words for one in others]
    return all(words == last.words for words in told) and all(one.styling == last.styling for one in others)


def _title(title: str) -> str:
    """Return a title after its colon; bare it may not end like a ruled line, which is no heading."""
    return f": {quoted(title) if title.endswith('=') else told(title)}" if title else ""
