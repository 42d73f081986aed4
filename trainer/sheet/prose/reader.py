"""A teacher's sheet to a routine: page, items, readings, cheapest path, order, extras."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import inf

from trainer.dance.proof import proofread
from trainer.problems import Problem, in_order, loud
from trainer.routine import Extra, Part, Routine
from trainer.sheet.prose.blocks import Block
from trainer.sheet.prose.count_signs import with_count_signs
from trainer.sheet.prose.events import findings_of, renumbered, section_of
from trainer.sheet.prose.extras_read import extras_of
from trainer.sheet.prose.facings_held import held_end, held_facings
from trainer.sheet.prose.keys.finding import with_keys
from trainer.sheet.prose.layout import Line, clean_lines
from trainer.sheet.prose.listings.labels import with_labelled_walls
from trainer.sheet.prose.listings.listing import with_listed_walls
from trainer.sheet.prose.lost_extras import with_lost_extras
from trainer.sheet.prose.options import options_of
from trainer.sheet.prose.order.gather import gathered
from trainer.sheet.prose.order.known import known_of
from trainer.sheet.prose.page_views import doubtful_views, plain_views
from trainer.sheet.prose.pages import Page, page_of
from trainer.sheet.prose.part_labels import with_part_labels
from trainer.sheet.prose.paths import Goal, Path, State, cheapest
from trainer.sheet.prose.phrases import fills, gloss_of
from trainer.sheet.prose.plays.rewriting import with_play
from trainer.sheet.prose.plays.told_items import dances_a_tag
from trainer.sheet.prose.reading_state import Reader, kind_of, name_of
from trainer.sheet.prose.sides_told import with_sides
from trainer.sheet.prose.steps.strange import used_often
from trainer.sheet.prose.told import (
    Facts,
    Known,
    Told,
    header_facts,
    is_order,
    read_order,
)
from trainer.sheet.prose.told_above import in_place, told_below
from trainer.sheet.prose.wall_words import with_wall_words
from trainer.terms import Weight

_HOME = Fraction(0)

_WORTH = 1.5
"""So much less must be wrong in another view: one fault of the sheet is no reason to read it anew."""

_MISREAD = 3.0
"""So much is wrong with no sheet that is read as it is meant: any view that leaves less wrong is better."""
_LESS = 0.5
_NO_STEPS = 20
"""It costs so much that no steps are found at all."""

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


def read_prose(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    """Read a teacher's sheet; return the routine as far as it could be read, and what is wrong in its words and counts.

    The page is read as its lines stand; where more than one thing is wrong so, it is read in its other views too,
    and what leaves the least wrong is kept. The laws of the dance are not proofread here (`dance.proof` does that on
    the routine), but for what the cheapest path had to mend: a line with swapped feet, a stated facing that was
    believed against the turns.
    """
    keyed = with_keys(with_count_signs(with_part_labels(clean_lines(text))))
    lines = with_wall_words(with_listed_walls(with_labelled_walls(with_sides(keyed.lines))))
    below = told_below(lines)
    best = _with_play(below, _best_of(below, keyed.keys), keyed.keys) if below is not None else None
    if best is None or best.price > 0:
        # What stands above the dance may be told there as it is below it; else it is read where it stands.
        plain = _with_play(lines, _best_of(lines, keyed.keys, doubtful=True), keyed.keys)
        best = plain if best is None or plain.price <= best.price else best
    return in_place(best.routine, best.problems)


def _with_play(lines: Sequence[Line], plain: _Reading, keys: Sequence[Line]) -> _Reading:
    """Read the lines of a phrased dance once more with its play told as one, and return the better reading.

    Where the play is the one that was read already, the lines as they stand are believed unless they read worse.
    """
    anew = with_play(lines, plain.routine)
    if anew is None or (plain.price == 0 and not anew.differs):
        return plain
    most = plain.price + _MISREAD
    told = _best_of(anew.lines, keys, most=most)
    if [part.counts for part in told.routine.parts] != [part.counts for part in plain.routine.parts]:
        # What tells the play was taken for steps of a part.
        told = _best_of((with_play(lines, told.routine) or anew).lines, keys, most=most)
    # A thing or two wrong about a play whose parts are told alike are faults of the sheet, not of the reading.
    at_fault = anew.same_parts and plain.price <= 2 and any(one.kind == "order" for one in loud(plain.problems))
    less = 0 if anew.differs and not at_fault else _WORTH
    if all(one.line in anew.explained for one in loud(plain.problems)):
        # What was not understood there was only said of the play once more.
        less = min(less, _LESS)
    if told.price == plain.price and dances_a_tag(plain.routine) and not dances_a_tag(told.routine):
        # A tag that is placed apart from the play must not be lost in it.
        return plain
    return told if told.price <= plain.price - less else plain


def _best_of(clean: Sequence[Line], keys: Sequence[Line], *, doubtful: bool = False, most: float = inf) -> _Reading:
    """Read some clean lines in each of their views, and return what leaves the least wrong.

    The doubtful views are many: they are read once a sheet, and only where more than one thing is wrong. Where the
    first view leaves more than `most` wrong, no other is tried.
    """
    best: _Reading | None = None
    for view in plain_views(clean):
        reading = _read(view, keys)
        if best is None or reading.price <= best.price - (_WORTH if best.price < _MISREAD else _LESS):
            best = reading
        if best.price < _WORTH or best.price > most:
            break
    assert best is not None
    for view in doubtful_views(clean, keys) if doubtful and best.price >= _WORTH else ():
        reading = _read(view, keys)
        if reading.price <= best.price - _LESS and _steps_read(reading.routine) >= _steps_read(best.routine):
            best = reading
    return best


def _steps_read(routine: Routine) -> int:
    """Return how many steps of the dance were read: a view must not read better by leaving some out."""
    sections = (section for part in routine.parts for section in part.sections)
    return sum(event.status != "unread" for section in sections for event in section.events)


def _read(view: Sequence[Line], keys: Sequence[Line]) -> _Reading:
    """Read one view of a page; `keys` are the lines that explain its short forms."""
    lines, beside = gathered(view)
    facts = header_facts([line.tokens for line in _head(lines)])
    page = page_of(lines, is_order, fills, total=_total(lines, facts))
    facts = header_facts([line.tokens for line in (*page.header, *page.remarks)])
    gloss = gloss_of([line.tokens for line in (*keys, *page.header, *page.remarks)])
    reader = Reader(page, facts, replace(gloss, used=used_often(line.tokens for line in view)))
    mains = [block for block in page.blocks if block.kind == "main"]
    paths = _main_paths(reader, mains)
    known = _known(reader, mains, paths, lines)
    order = [*(line.tokens for line in page.order), *beside]
    told = with_lost_extras(read_order(order, known), order, known, reader.extras(), view)
    reader.problems += told.problems
    if len(mains) == 1:
        below = min((item.span.line for block in reader.extras() for item in block.items), default=view[-1].number + 1)
        reader.problems += held_end(view, paths[mains[0].part], below)
    parts = tuple(_part(reader, block, paths[block.part], bool(told.play)) for block in mains)
    extras = extras_of(reader, mains, paths, told)
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
    return found + passed_over + torn + (0 if routine.parts else _NO_STEPS)


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


def _main_paths(reader: Reader, mains: Sequence[Block]) -> dict[str, Path]:
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


def _known(reader: Reader, mains: Sequence[Block], paths: Mapping[str, Path], lines: Sequence[Line]) -> Known:
    blocks = reader.extras()
    extras = [
        (
            kind_of(block),
            name_of(block, blocks),
            block.counts or (0 if block.items else None),
            block.headings[-1].tokens if block.headings else (),
        )
        for block in blocks
    ]
    return known_of(mains, paths, extras, (reader.page.phrase, reader.facts.walls), lines)


def _part(reader: Reader, block: Block, path: Path, phrased: bool) -> Part:
    reader.problems += block.problems
    reader.problems += path.problems
    reader.problems += findings_of(block, path)
    reader.problems += held_facings(path)
    name = block.part if phrased or block.part else ""
    return Part(name=name, sections=section_of(block, path))


def _stated_counts(facts: Facts, parts: Sequence[Part]) -> int | None:
    """Return the stated length of the dance; of one in parts a number that one of them may have is that part's."""
    longest = max((part.counts for part in parts), default=0)
    of_a_part = len(parts) > 1 and facts.counts is not None and facts.counts <= longest
    return None if of_a_part else facts.counts


def _routine(reader: Reader, parts: tuple[Part, ...], extras: tuple[Extra, ...], told: Told) -> Routine:
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
