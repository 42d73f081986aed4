"""Options told beside the steps: "Option for 3-4: no turns, just walk back right, left".

An option replaces counts of the section that its line stands in. It is kept where its words give steps that end on the
foot and facing of the counts that they replace; other remarks of the kind stay with the routine as notes.
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.routine import Event, Option, Part, Section
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import title_of
from trainer.sheet.prose.items.phrases import Gloss, item_readings
from trainer.sheet.prose.search.paths import Goal, State, cheapest
from trainer.sheet.prose.sections.events import events_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Item, Slot, Token
from trainer.terms import Weight


def options_of(
    lines: Sequence[Line], parts: Sequence[Part], starts: Weight, gloss: Gloss
) -> tuple[tuple[Option, ...], tuple[str, ...]]:
    """Return the options that could be read, and as notes the remarks that could not."""
    options: list[Option] = []
    notes: list[str] = []
    for line in lines:
        option = _option(line, parts, starts, gloss)
        if option is None:
            notes.append(title_of(line.tokens))
        else:
            options.append(option)
    return tuple(options), tuple(notes)


def _option(line: Line, parts: Sequence[Part], starts: Weight, gloss: Gloss) -> Option | None:
    home = _section_above(line.number, parts)
    if home is None:
        return None
    part, section = home
    replaced = _replaced(line, section)
    words = _words(line)
    if not replaced or not words:
        return None
    first = replaced[0]
    before = _state_before(part, section, first, starts)
    item = Item(tuple(Slot(event.label, event.beat) for event in replaced), words, words[0].span)
    weight, facing = _state_after(before, replaced)
    path = cheapest([item], [item_readings(item, gloss)], [(before, 0.0)], Goal(weight, (facing,)))
    if path.cost[0] > 0:
        return None
    return Option(
        part=part.name,
        section=section.name,
        first=int(replaced[0].beat // 1) + 1,
        last=int(replaced[-1].beat // 1) + 1,
        title=title_of(line.tokens),
        events=events_of((item,), path.said, Fraction(0)),
        span=line.tokens[0].span,
    )


def _section_above(number: int, parts: Sequence[Part]) -> tuple[Part, Section] | None:
    """Return the section whose last line above a line is the nearest."""
    best: tuple[int, Part, Section] | None = None
    for part in parts:
        for section in part.sections:
            lines = [event.span.line for event in section.events if event.span and event.span.line < number]
            if lines and (best is None or max(lines) > best[0]):
                best = (max(lines), part, section)
    return None if best is None else best[1:]


def _replaced(line: Line, section: Section) -> list[Event]:
    """Return the events that an option replaces: those of the counts it names, else those of the line just above."""
    marks = marks_in(line.tokens, 0)
    if marks:
        numbers = {place.number for place in marks[0].places}
        return [event for event in section.events if event.beat >= 0 and int(event.beat // 1) + 1 in numbers]
    above = max(event.span.line for event in section.events if event.span and event.span.line < line.number)
    return [event for event in section.events if event.span and event.span.line == above]


def _words(line: Line) -> tuple[Token, ...]:
    """Return the words of an option without its head and counts."""
    marks = marks_in(line.tokens, 0)
    start = marks[0].last if marks else 0
    for index, token in enumerate(line.tokens[:14]):
        if token.text in (":", "-") and index >= start - 1:
            start = index + 1
            break
    return tuple(token for token in line.tokens[start:] if token.text not in "()[]")


def _state_before(part: Part, section: Section, first: Event, starts: Weight) -> State:
    weight, facing = starts, Fraction(0)
    for other in part.sections:
        for event in other.events:
            if other is section and event.beat >= first.beat:
                return State(weight, facing % 1)
            weight = event.weight or weight
            facing += event.turn
    return State(weight, facing % 1)


def _state_after(before: State, replaced: Sequence[Event]) -> tuple[Weight, Fraction]:
    weight, facing = before.weight, before.facing
    for event in replaced:
        weight = event.weight or weight
        facing += event.turn
    return weight, facing % 1
