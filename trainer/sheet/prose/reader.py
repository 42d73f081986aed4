"""A teacher's sheet to a routine: page, items, readings, cheapest path, order, extras."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.dance.proof import proofread
from trainer.problems import Problem, in_order, loud
from trainer.routine import Event, Extra, Part, Routine
from trainer.sheet.prose.blocks import Block
from trainer.sheet.prose.columns import with_columns
from trainer.sheet.prose.events import events_of, findings_of, renumbered, section_of
from trainer.sheet.prose.facings import with_facings
from trainer.sheet.prose.facings_held import held_end, held_facings
from trainer.sheet.prose.layout import Line, clean_lines
from trainer.sheet.prose.nicknames import with_nicknames
from trainer.sheet.prose.options import options_of
from trainer.sheet.prose.order.gather import gathered
from trainer.sheet.prose.order.known import known_of
from trainer.sheet.prose.pages import Page, items_of, page_of
from trainer.sheet.prose.paths import Goal, Path, State, cheapest
from trainer.sheet.prose.phrases import Gloss, fills, gloss_of, item_readings, last_said
from trainer.sheet.prose.references import with_references
from trainer.sheet.prose.regrouping import regrouped
from trainer.sheet.prose.section_words import with_section_words
from trainer.sheet.prose.told import (
    Facts,
    Inline,
    Known,
    Told,
    header_facts,
    is_order,
    read_order,
)
from trainer.sheet.prose.unmarked import with_counts
from trainer.sheet.prose.views import views_of
from trainer.sheet.prose.wall_words import with_wall_words
from trainer.sheet.prose.walls import Walls
from trainer.sheet.prose.words import Item, Reading
from trainer.terms import ExtraKind, Weight

_HOME = Fraction(0)

_WORTH = 1.5
"""So much less must be wrong in another view: one fault of the sheet is no reason to read it anew."""

_MISREAD = 3.0
"""So much is wrong with no sheet that is read as it is meant: any view that leaves less wrong is better."""
_LESS = 0.5

_AS_THE_DANCE = 0.3
"""How far an extra told in a sentence leans as the dance does: counts before their words, or after them."""

_SPEAKS_OF_ORDER = re.compile(
    r"\brestarts?\b|\b(?:begin|start|starts|begins|go) (?:it )?(?:again|over|anew|afresh|all over)\b|\bfrom the top\b|"
    r"\btags?\b|\bbridges?\b"
)


@dataclass(frozen=True, slots=True)
class _Reading:
    """What one view of a page gives, and how much is wrong with it."""

    routine: Routine
    problems: tuple[Problem, ...]
    price: float


@dataclass(slots=True)
class _Reader:
    """What is known while a sheet is read."""

    page: Page
    facts: Facts
    gloss: Gloss
    problems: list[Problem] = field(default_factory=list)
    starts: Weight = "L"

    def extras(self) -> list[Block]:
        """Return the blocks of extras; a sentence that only speaks of one ("And the ending?") is none."""
        return [block for block in self.page.blocks if block.kind != "main" and (block.items or _heads(block))]

    def readings(self, block: Block, items: Sequence[Item]) -> tuple[list[Item], list[tuple[Reading, ...]]]:
        """Return a block's items, back references resolved, with their candidate readings."""
        own: list[tuple[Reading, ...]] = []
        items = regrouped(items, self.gloss, self.page.feel)
        for item in items:
            own.append(item_readings(item, self.gloss, before=last_said(own[-1]) if own else None))
        return with_references(items, own, [bound.beat for bound in block.bounds], self.gloss, self.page.phrase)


def read_prose(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    """Read a teacher's sheet; return the routine as far as it could be read, and what is wrong in its words and counts.

    The page is read as its lines stand; where more than one thing is wrong so, it is read in its other views too,
    and what leaves the least wrong is kept. The laws of the dance are not proofread here (`dance.proof` does that on
    the routine), but for what the cheapest path had to mend: a line with swapped feet, a stated facing that was
    believed against the turns.
    """
    best: _Reading | None = None
    for view in views_of(_lines_of(text), is_order):
        reading = _read(view)
        if best is None or reading.price <= best.price - (_WORTH if best.price < _MISREAD else _LESS):
            best = reading
        if best.price < _WORTH:
            break
    assert best is not None
    return best.routine, best.problems


def _lines_of(text: str) -> tuple[Line, ...]:
    """Return the lines of a sheet, tables told as lines and the sheet's own words as those of the trade."""
    return with_nicknames(with_section_words(with_facings(with_columns(with_wall_words(clean_lines(text))))))


def _read(view: Sequence[Line]) -> _Reading:
    """Read one view of a page."""
    lines, beside = gathered(view)
    facts = header_facts([line.tokens for line in _head(lines)])
    page = page_of(lines, is_order, fills, total=_total(lines, facts))
    facts = header_facts([line.tokens for line in (*page.header, *page.remarks)])
    reader = _Reader(page, facts, gloss_of([line.tokens for line in (*page.header, *page.remarks)]))
    mains = [block for block in page.blocks if block.kind == "main"]
    paths = _main_paths(reader, mains)
    known = _known(reader, mains, paths, lines)
    told = read_order([*(line.tokens for line in page.order), *beside], known)
    reader.problems += told.problems
    if len(mains) == 1:
        below = min((item.span.line for block in reader.extras() for item in block.items), default=view[-1].number + 1)
        reader.problems += held_end(view, paths[mains[0].part], below)
    parts = tuple(_part(reader, block, paths[block.part], bool(told.play)) for block in mains)
    extras = _extras(reader, mains, paths, told)
    routine = renumbered(_routine(reader, parts, extras, told))
    problems = in_order(reader.problems)
    return _Reading(routine, problems, _price(routine, problems, told, page))


def _price(routine: Routine, problems: Sequence[Problem], told: Told, page: Page) -> float:
    """Return how much is wrong with a reading: findings, and what speaks of the order and was not understood."""
    left_over = sum(one.kind == "counts" and one.level == "note" for one in problems)
    found = len(loud(problems)) + left_over + len(loud(proofread(routine)))
    passed_over = sum(bool(_SPEAKS_OF_ORDER.search(line.words)) for line in page.remarks)
    half = page.phrase // 2
    torn = sum(block.kind == "main" and block.counts % half != 0 for block in page.blocks)
    return found + passed_over + torn


def _total(lines: Sequence[Line], facts: Facts) -> int | None:
    """The stated length of the main dance, also where it is told as 4 x 8."""
    for line in lines[:8]:
        match = re.search(r"\b(\d{1,2}) (?:x|times) (6|8)\b", line.words)
        if match:
            return int(match[1]) * int(match[2])
    return facts.counts


def _head(lines: Sequence[Line]) -> Sequence[Line]:
    """The lines that may hold the facts of the header: the first dozen, and the last few."""
    return (*lines[:12], *lines[12:][-6:])


def _main_paths(reader: _Reader, mains: Sequence[Block]) -> dict[str, Path]:
    """Read the main dance, or each part; settle the foot that the dance starts on."""
    # Weight on both feet leaves open which of them steps first.
    stated = None if reader.facts.starts == "B" else reader.facts.starts
    likely: Weight = stated or "L"
    paths: dict[str, Path] = {}
    facings = _net_turns(reader.facts.walls) if len(mains) == 1 else ()
    for place, block in enumerate(mains):
        items, readings = reader.readings(block, block.items)
        best: Path | None = None
        for weight in ("L", "R"):
            start: Weight = "L" if weight == "L" else "R"
            dislike = 0.0 if start == likely else 0.5
            if stated and place == 0 and start != stated:
                continue
            goal = Goal(start if len(mains) == 1 else None, facings)
            path = cheapest(items, readings, [(State(start, _HOME), dislike)], goal)
            if best is None or path.cost < best.cost:
                best = path
        assert best is not None
        paths[block.part] = best
        if place == 0:
            reader.starts = likely = best.start.weight
    return paths


def _net_turns(walls: int | None) -> tuple[Fraction, ...]:
    """Return the facings that a plain wall may end with for so many walls."""
    return {
        1: (Fraction(0),),
        2: (Fraction(1, 2),),
        4: (Fraction(1, 4), Fraction(3, 4)),
        8: (Fraction(1, 8), Fraction(3, 8), Fraction(5, 8), Fraction(7, 8)),
    }.get(walls or 0, ())


def _known(reader: _Reader, mains: Sequence[Block], paths: Mapping[str, Path], lines: Sequence[Line]) -> Known:
    blocks = reader.extras()
    extras = [
        (
            _kind(block),
            _extra_name(block, blocks),
            block.counts or (0 if block.items else None),
            block.headings[-1].tokens if block.headings else (),
        )
        for block in blocks
    ]
    return known_of(mains, paths, extras, (reader.page.phrase, reader.facts.walls), lines)


def _heads(block: Block) -> bool:
    """Whether the heading of an extra without steps is one, and not a sentence."""
    tokens = block.headings[-1].tokens if block.headings else ()
    return bool(tokens) and (len(tokens) < 7 or tokens[-1].text not in (".", "!", "?") or is_order(tokens))


def _kind(block: Block) -> ExtraKind:
    kinds: Mapping[str, ExtraKind] = {"intro": "intro", "bridge": "bridge", "change": "change", "ending": "ending"}
    return kinds.get(block.kind, "tag")


def _extra_name(block: Block, blocks: Sequence[Block]) -> str:
    """Return a name of its own for an extra block: its kind, numbered where there are more."""
    alike = [other for other in blocks if other.kind == block.kind]
    name = _kind(block).capitalize()
    return name if len(alike) == 1 else f"{name} {alike.index(block) + 1}"


def _part(reader: _Reader, block: Block, path: Path, phrased: bool) -> Part:
    reader.problems += block.problems
    reader.problems += path.problems
    reader.problems += findings_of(block, path)
    reader.problems += held_facings(path)
    name = block.part if phrased or block.part else ""
    return Part(name=name, sections=section_of(block, path))


def _extras(reader: _Reader, mains: Sequence[Block], paths: Mapping[str, Path], told: Told) -> tuple[Extra, ...]:
    """Read each extra from the state in which it is first danced."""
    walls = Walls({block.part: (paths[block.part], block.counts) for block in mains}, reader.starts, told)
    blocks = [(_kind(block), _extra_name(block, reader.extras()), block) for block in reader.extras()]
    inlined = {(inline.kind, inline.name) for inline in told.inlines}
    blocks = [one for one in blocks if one[2].items or one[:2] not in inlined]
    known = {(kind, name) for kind, name, _ in blocks}
    leaning = _AS_THE_DANCE * sum(block.leaning for block in mains)
    for inline in told.inlines:
        first = inline.first or inline.called or 1
        block = items_of([inline.body], reader.page.phrase, reader.page.feel, fills, first=first, leaning=leaning)
        if (inline.kind, inline.name) not in known:
            blocks.append((inline.kind, inline.name, block))
    lengths = {(inline.kind, inline.name): _told_length(inline) for inline in told.inlines}
    firsts: dict[tuple[str, str], int] = {
        (inline.kind, inline.name): inline.first or inline.called for inline in told.inlines
    }
    found = []
    for kind, name, block in blocks:
        starts = walls.starts_of(kind, name)
        goal = walls.goal_of(kind, name)
        told_items = _filled(reader, block, lengths.get((kind, name)))
        told_items = _called_as_hosts(told_items, firsts.get((kind, name), 0), reader.page.phrase)
        items, readings = reader.readings(block, told_items)
        path = cheapest(items, readings, starts, goal)
        reader.problems += path.problems
        reader.problems += findings_of(block, path)
        walls.learn(kind, name, path)
        found.append(_extra(kind, name, block, path, lengths.get((kind, name))))
    return tuple(found)


def _told_length(inline: Inline) -> int | None:
    if inline.first:
        return inline.last - inline.first + 1
    return inline.counts


def _filled(reader: _Reader, block: Block, counts: int | None) -> tuple[Item, ...]:
    """Return the items of an extra; words without count marks fill so many counts."""
    if counts is None or any(item.slots for item in block.items) or len(block.items) != 1:
        return block.items
    return (with_counts(block.items[0], counts, reader.gloss, reader.page.feel),)


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


def _stated_counts(facts: Facts, parts: Sequence[Part]) -> int | None:
    """Return the stated length of the dance; of one in parts a number that one of them may have is that part's."""
    longest = max((part.counts for part in parts), default=0)
    of_a_part = len(parts) > 1 and facts.counts is not None and facts.counts <= longest
    return None if of_a_part else facts.counts


def _routine(reader: _Reader, parts: tuple[Part, ...], extras: tuple[Extra, ...], told: Told) -> Routine:
    facts = reader.facts
    options, notes = options_of(reader.page.options, parts, reader.starts, reader.gloss)
    return Routine(
        title=facts.title,
        tune=facts.tune,
        by=facts.by,
        tempo=facts.tempo,
        time=facts.time or ("3/4" if reader.page.phrase == 6 else "4/4"),
        feel=facts.feel or reader.page.feel,
        starts=reader.starts,
        counts=_stated_counts(facts, parts),
        walls=facts.walls,
        level=facts.level,
        wait=facts.wait,
        wait_from=facts.wait_from,
        notes=notes,
        parts=parts,
        extras=extras,
        options=options,
        order=told.order,
        play=told.play,
        repeats=told.repeats,
    )
