"""The extras of a sheet, told in blocks or in sentences, each read from the state in which it is first danced."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.dance.counts import label_of
from trainer.routine import Event, Extra
from trainer.sheet.prose.extras.extra_lengths import headed_length, length_findings
from trainer.sheet.prose.extras.extras_within import with_extras_within
from trainer.sheet.prose.extras.partial_extras import partials_of, turned_by
from trainer.sheet.prose.extras.partial_parts import walked
from trainer.sheet.prose.extras.walls import Walls
from trainer.sheet.prose.heads.headings import Heading
from trainer.sheet.prose.items.halves_told import with_halves_counted
from trainer.sheet.prose.items.phrases import fills, item_readings
from trainer.sheet.prose.items.references import moved, without_facing
from trainer.sheet.prose.items.unmarked import with_counts
from trainer.sheet.prose.lexis.counts_again import danced_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.statements.step_words import without_length_in_brackets
from trainer.sheet.prose.order.told import Inline, Told
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.page.pages import items_of
from trainer.sheet.prose.reading_state import Reader, kind_of, name_of
from trainer.sheet.prose.search.paths import Path, cheapest
from trainer.sheet.prose.sections.events import events_of, findings_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Item, Reading
from trainer.terms import ExtraKind

_AS_THE_DANCE = 0.3
"""How far an extra told in a sentence leans as the dance does: counts before their words, or after them."""


_BELOW = 3
"""Lines at most between the name of an extra and the steps told for it."""
_HOLDS = {"hold", "holds", "pause", "freeze"}
_STRAIGHT = Fraction(0)
_BETTER = 0.3
"""So much better words must fill the counts that they replace than plain ones."""


def extras_of(reader: Reader, mains: Sequence[Block], paths: Mapping[str, Path], told: Told) -> tuple[Extra, ...]:
    """Read each extra from the state in which it is first danced."""
    whole = {block.part: (paths[block.part], block.counts) for block in mains}
    walls = Walls(walked(whole, told.play), reader.starts, told)
    blocks = [(kind_of(block), name_of(block, reader.extras()), block) for block in reader.extras()]
    inlined = {(inline.kind, inline.name) for inline in told.inlines}
    blocks = [
        one
        for one in blocks
        if one[2].items or (one[:2] not in inlined and not _heads_other(one, told, reader.page.order))
    ]
    known = {(kind, name) for kind, name, _ in blocks}
    leaning = _AS_THE_DANCE * sum(block.leaning for block in mains)
    for inline in told.inlines:
        first = inline.first or inline.called or 1
        body = with_halves_counted(inline.body, inline.counts)
        block = items_of([body], reader.page.phrase, reader.page.feel, fills, first=first, leaning=leaning)
        if (inline.kind, inline.name) not in known:
            blocks.append((inline.kind, inline.name, block))
    inlines = {(inline.kind, inline.name): inline for inline in told.inlines}
    lengths = {(inline.kind, inline.name): _told_length(inline) for inline in told.inlines}
    firsts: dict[tuple[str, str], int] = {
        (inline.kind, inline.name): inline.first or inline.called for inline in told.inlines
    }
    agains = {(inline.kind, inline.name): inline for inline in told.inlines if inline.again}
    found: list[tuple[int, Extra]] = []
    read: dict[str, Path] = {}
    # A change in a wall turns those after it, and so where other extras begin.
    for place, (kind, name, block) in sorted(enumerate(blocks), key=lambda one: one[1][0] != "change"):
        starts = walls.starts_of(kind, name)
        goal = walls.goal_of(kind, name)
        told_items = _filled(reader, block, lengths.get((kind, name)) or _headed_length(block))
        told_items = _as_replaced(told_items, inlines.get((kind, name)), paths, reader)
        told_items = _called_as_hosts(told_items, firsts.get((kind, name), 0), reader.page.phrase)
        again = agains.get((kind, name)) or (_again_of(kind, name, block, mains[0]) if mains else None)
        source = paths.get(again.part or mains[0].part) if again is not None else None
        if again is not None and source is not None:
            items, readings = danced_again(again, source, reader.page.phrase)
        else:
            items, readings = with_extras_within(
                *reader.readings(block, told_items),
                read,
                reader.page.phrase,
                partial(item_readings, gloss=reader.gloss),
            )
        path = cheapest(items, readings, starts, goal)
        read[name.lower()] = path
        reader.problems += block.problems
        reader.problems += path.problems
        reader.problems += findings_of(block, path)
        walls.learn(kind, name, path.end.facing - path.start.facing)
        extra = _extra(kind, name, block, path, lengths.get((kind, name)))
        if again is not None and kind == "change":
            # It is as long as what is danced after the counts left out.
            extra = extra.but(title=f"{extra.counts} counts")
        found.append((place, extra))
        reader.problems += length_findings(block, extra)
        for part in tuple(partials_of(extra, told, reader.page.phrase)):
            walls.learn(part.kind, part.name, turned_by(part))
            found.append((place, part))
    return tuple(extra for _, extra in sorted(found, key=lambda one: one[0]))


def _again_of(kind: ExtraKind, name: str, block: Block, main: Block) -> Inline | None:
    """Return which counts of the dance an extra is whose definition says no more."""
    words = tuple(token for item in block.items for token in item.text)
    ends = [*(bound.beat for bound in main.bounds[1:]), main.counts]
    told = danced_in(words[0].low, ends) if len(words) == 1 else None
    return None if told is None else Inline(kind, name, told[1] - told[0] + 1, words, part=main.part, again=told)


def danced_again(inline: Inline, path: Path, phrase: int) -> tuple[list[Item], list[tuple[Reading, ...]]]:
    """Return counts of the dance as the items of an extra, each as it is read there, and called from 1."""
    first, last = inline.again or (1, 0)
    span = inline.body[0].span
    items: list[Item] = []
    readings: list[tuple[Reading, ...]] = []
    for item, reading in zip(path.items, path.readings, strict=True):
        inside = [at for at, slot in enumerate(item.slots) if first - 1 <= slot.beat < last]
        if not inside or len(reading.drafts) != len(item.slots):
            continue
        slots = tuple(moved(item.slots[at], Fraction(1 - first), phrase) for at in inside)
        if inline.unturned:
            # They are danced where they stand, and called so.
            slots = tuple(replace(slot, label=item.slots[at].label) for at, slot in zip(inside, slots, strict=True))
        items.append(Item(slots, item.text, span))
        drafts = tuple(without_facing(reading.drafts[at], span) for at in inside)
        if inline.unturned:
            drafts = tuple(draft and replace(draft, turns=(_STRAIGHT,), then=_STRAIGHT) for draft in drafts)
        readings.append((Reading(drafts, leaves=reading.leaves),))
    return items, readings


def _heads_other(extra: tuple[ExtraKind, str, Block], told: Told, order: Sequence[Line]) -> bool:
    """Whether the name of an extra that has no steps heads what is told in other ways.

    "TAGS" stands over those told by name below it; "Ending" over "The music ends in wall 7 after 24 counts.".
    """
    kind, name, block = extra
    departures = [one for line in told.order for one in line.departures]
    if any((insert.kind, insert.name) == (kind, name) for one in departures for insert in one.inserts):
        return False
    head = block.headings[-1] if block.headings else None
    if head is None or len([token for token in head.tokens if token.kind == "word"]) != 1:
        return _heads_a_change(extra, told)
    lines = {token.line for line in order if line.number == head.line + 1 for token in line.tokens}
    ends = [one.span for one in departures if one.leave == "end"] if kind == "ending" else []
    told_below = (
        {one.body[0].line for one in told.inlines if one.kind == kind and one.body} if _is_plural(head) else set()
    )
    return (
        any(span is not None and span.line in lines for span in ends)
        or any(line > head.line for line in told_below)
        or _heads_a_change(extra, told)
    )


def _is_plural(head: Heading) -> bool:
    return any(token.low in ("tags", "bridges", "endings") for token in head.tokens)


def _heads_a_change(extra: tuple[ExtraKind, str, Block], told: Told) -> bool:
    """Whether a heading without steps stands over a change that ends the dance: "THE FINISH", "stop after ... and"."""
    kind, _, block = extra
    departures = [one for line in told.order for one in line.departures]
    if kind != "ending" or not block.headings or any(one.kind == kind for d in departures for one in d.inserts):
        return False
    ends = {one.change for one in departures if one.leave == "end" and one.change}
    line = block.headings[-1].line
    return any(one.name in ends and 0 < one.body[0].line - line <= _BELOW for one in told.inlines)


def _told_length(inline: Inline) -> int | None:
    if inline.first and not inline.again:
        return inline.last - inline.first + 1
    return inline.counts


def _headed_length(block: Block) -> int | None:
    """Return how long the name of an extra says that it is: "Tag, three counts: just hold."."""
    told = {token.low for item in block.items for token in item.text if token.kind == "word"} & STEP_WORDS
    return headed_length(block) if told and (told <= _HOLDS or not any(item.slots for item in block.items)) else None


def _filled(reader: Reader, block: Block, counts: int | None) -> tuple[Item, ...]:
    """Return the items of an extra; words without count marks fill so many counts."""
    if any(item.slots for item in block.items) or len(block.items) != 1:
        return block.items
    item = block.items[0]
    if counts is None and (told := _of_its_own_length(item, reader)) is not None:
        return (told,)
    if counts is None:
        return block.items
    return (with_counts(block.items[0], counts, reader.gloss, reader.page.feel),)


def _of_its_own_length(item: Item, reader: Reader) -> Item | None:
    """Return an item with as many counts as its last bracket says, where its words fill them: "... hold (4 counts)".

    The bracket is of all the words, and not of the last step, where each count has a step then.
    """
    words, counts = without_length_in_brackets(list(item.text))
    ends = item.text[-1].text == ")" or item.text[-2:][0].text == ")"
    if counts is None or not ends or fills(tuple(words), counts, reader.gloss) > _BETTER:
        return None
    return with_counts(replace(item, text=tuple(words)), counts, reader.gloss, reader.page.feel)


def _as_replaced(
    items: tuple[Item, ...], inline: Inline | None, paths: Mapping[str, Path], reader: Reader
) -> tuple[Item, ...]:
    """Return the item of a change without counts of its own over those that it replaces, where it fills them better.

    "Instead of 8 a: recover right, step left" has a step for each of the two.
    """
    path = paths.get(inline.part) if inline is not None and inline.first else None
    if inline is None or path is None or len(items) != 1:
        return items
    item, first = items[0], inline.first - 1
    plain = [slot for slot in item.slots if slot.label not in ("e", "&", "a")]
    replaced = [one.slot for one in path.said if first <= one.slot.beat < inline.last]
    if len(plain) != len(item.slots) or len(replaced) <= len(plain) or replaced[0].beat != first:
        return items
    now, then = (fills(item.text, len(slots), reader.gloss) for slots in (plain, replaced))
    if then > now - _BETTER:
        return items
    return (replace(item, slots=tuple(replace(slot, beat=slot.beat - first) for slot in replaced)),)


def _called_as_hosts(items: Sequence[Item], first: int, phrase: int) -> tuple[Item, ...]:
    """Return the items of a change with the counts called as those of the wall that they replace, from `first` on."""
    if not first:
        return tuple(items)
    return tuple(
        replace(
            item,
            slots=tuple(
                slot
                if slot.label in ("e", "&", "a")
                else replace(slot, label=label_of((first - 1 + int(slot.beat)) % phrase + 1))
                for slot in item.slots
            ),
        )
        for item in items
    )


def _extra(kind: ExtraKind, name: str, block: Block, path: Path, counts: int | None) -> Extra:
    events: tuple[Event, ...] = events_of(path.items, path.said, Fraction(0))
    length = counts or block.counts or max((int(event.beat) + 1 for event in events), default=0)
    starts = path.start.facing if kind == "intro" and path.start.facing else None
    span = block.headings[-1].tokens[0].span if block.headings else (block.items[0].span if block.items else None)
    return Extra(kind=kind, name=name, counts=length, events=events, starts=starts, span=span)
