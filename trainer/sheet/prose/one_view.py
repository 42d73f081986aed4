"""One view of a page to a reading of it: page, items, readings, cheapest path, order, extras; and how much is wrong."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.proof import proofread
from trainer.problems import Problem, in_order, loud
from trainer.routine import Extra, Part, Routine
from trainer.sheet.prose.extras.extras_read import extras_of
from trainer.sheet.prose.extras.known import known_of
from trainer.sheet.prose.extras.lost_extras import with_lost_extras
from trainer.sheet.prose.extras.partial_parts import known_with_pieces
from trainer.sheet.prose.facing.facings_held import held_end, held_facings
from trainer.sheet.prose.items.phrases import fills, gloss_of
from trainer.sheet.prose.lexis.part_pieces import with_pieces_cut
from trainer.sheet.prose.order.lines.gather import gathered
from trainer.sheet.prose.order.told import (
    Facts,
    Known,
    Told,
    header_facts,
    is_order,
    read_order,
)
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.page.kinds import speaks_of_parts
from trainer.sheet.prose.page.pages import Page, page_of
from trainer.sheet.prose.reading_state import Reader, kind_of, name_of
from trainer.sheet.prose.search.frames import in_its_frame
from trainer.sheet.prose.search.paths import Goal, Path, State, cheapest
from trainer.sheet.prose.sections.events import findings_of, renumbered, section_of
from trainer.sheet.prose.sections.notes_broken import notes_broken
from trainer.sheet.prose.sections.options import options_of
from trainer.sheet.prose.steps.strange import used_often
from trainer.sheet.prose.text.layout import Line
from trainer.terms import Time, Weight

_HOME = Fraction(0)

_SIX = 6
"""The counts of a phrase of a waltz."""
_AS_AT_FIRST = 0.1
_NO_STEPS = 20
"""It costs so much that no steps are found at all."""

_SPEAKS_OF_ORDER = re.compile(
    r"\brestarts?\b|\b(?:begin|start|starts|begins|go) (?:it )?(?:again|over|anew|afresh|all over)\b|\bfrom the top\b|"
    r"\btags?\b|\bbridges?\b|"
    r"\b(?:after|before|behind) the (?:\w+(?:st|nd|rd|th)|last|final) (?:verse|chorus|part|[a-h])\b"
)


@dataclass(frozen=True, slots=True)
class ViewRead:
    """What one view of a page gives, and how much is wrong with it."""

    routine: Routine
    problems: tuple[Problem, ...]
    price: float
    short: bool = False
    """Whether a part is missing, or has fewer counts than the head gives it."""


def read_view(view: Sequence[Line], keys: Sequence[Line]) -> ViewRead:
    """Read one view of a page; `keys` are the lines that explain its short forms."""
    lines, beside = gathered(view)
    facts = header_facts([line.tokens for line in _head(lines)])
    page = page_of(lines, is_order, fills, total=total_of(lines, facts), phrased=speaks_of_parts(view))
    facts = _with_wait_above(
        header_facts([line.tokens for line in (*page.header, *page.remarks)]), page, (*keys, *view)
    )
    gloss = gloss_of([line.tokens for line in (*page.header, *page.remarks)], [line.tokens for line in keys])
    reader = Reader(page, facts, replace(gloss, used=used_often(line.tokens for line in view)))
    mains = [block for block in page.blocks if block.kind == "main"]
    paths = _main_paths(reader, mains)
    known = known_with_pieces(_known(reader, mains, paths, lines), lines)
    order = [*(line.tokens for line in page.order), *beside]
    told = with_lost_extras(read_order(order, known), order, known, reader.extras(), view)
    reader.problems += told.problems
    if len(mains) == 1:
        below = min((item.span.line for block in reader.extras() for item in block.items), default=view[-1].number + 1)
        reader.problems += held_end(view, paths[mains[0].part], below)
    parts = tuple(_part(reader, block, paths[block.part], bool(told.play)) for block in mains)
    extras = extras_of(reader, mains, paths, told)
    played = [item.name for item in told.play if item.kind == "part"]
    parts = with_pieces_cut(parts, played, page.phrase)
    routine = renumbered(_routine(reader, parts, extras, told))
    problems = in_order(reader.problems)
    heads = [heading.tokens for block in mains for heading in block.headings]
    lengths = {**dict(header_facts(heads).part_counts), **dict(facts.part_counts)}
    read = {part.name: part.counts for part in parts}
    amiss = [counts - read.get(name, 0) for name, counts in lengths.items() if read.get(name, 0) != counts]
    price = _price(routine, problems, told, page) + len(amiss)
    return ViewRead(routine, problems, price, any(left > 0 for left in amiss))


def _price(routine: Routine, problems: Sequence[Problem], told: Told, page: Page) -> float:
    """Return how much is wrong with a reading: findings, and what speaks of the order and was not understood."""
    left_over = sum(one.kind == "counts" and one.level == "note" for one in problems)
    found = len(loud(problems)) + left_over + len(loud(proofread(routine)))
    passed_over = sum(bool(_SPEAKS_OF_ORDER.search(line.words)) for line in page.remarks)
    half = page.phrase // 2
    torn = sum(block.kind == "main" and block.counts % half != 0 for block in page.blocks)
    return found + passed_over + page.passed_over + torn + (0 if routine.parts else _NO_STEPS)


_NOT_SO_FAR = "".join(
    f"(?<!{word} )" for word in ("after", "first", "until", "till", "to", "dance", "do", "of", "only")
)
"""What stands before eights that are no whole dance: "restart after 2 x 8"."""


def total_of(lines: Sequence[Line], facts: Facts) -> int | None:
    """The stated length of the main dance, also where it is told as 4 x 8."""
    for line in lines[:8]:
        match = re.search(rf"{_NOT_SO_FAR}\b(\d{{1,2}}) (?:x|times) (6|8)\b", line.words)
        if match:
            return int(match[1]) * int(match[2])
    return facts.counts


def _head(lines: Sequence[Line]) -> Sequence[Line]:
    """The lines that may hold the facts of the header: the first dozen, and of the last few those not of the order."""
    return (*lines[:12], *(line for line in lines[12:][-6:] if not is_order(line.tokens)))


def _with_wait_above(facts: Facts, page: Page, lines: Sequence[Line]) -> Facts:
    """Return the facts, with the wait that a line above the first step tells, whatever else that line is."""
    if facts.wait is not None:
        return facts
    first = min((item.span.line for block in page.blocks if block.kind == "main" for item in block.items), default=0)
    above = header_facts([line.tokens for line in lines if line.number < first])
    return replace(facts, wait=above.wait, wait_from=facts.wait_from or above.wait_from)


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
            dislike = 0.0 if start == likely else 0.5 if likely == reader.starts or not place else _AS_AT_FIRST
            if stated and place == 0 and start != stated:
                continue
            goal = Goal(start if len(mains) == 1 else None, facings)
            path = cheapest(items, readings, [(State(start, _HOME), dislike)], goal)
            if best is None or path.cost < best.cost:
                best = path
        assert best is not None
        if place:
            best = in_its_frame(items, readings, best, Goal())
        paths[block.part] = best
        # A part is begun from where the part above it ends, as the play mostly has it, or as the first one is.
        likely = best.end.weight if best.end.weight != "B" else likely
        if place == 0:
            reader.starts = best.start.weight
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
    known = known_of(mains, paths, extras, (reader.page.phrase, reader.facts.walls), lines)
    first = {
        name_of(block, blocks): next((slot.label for one in block.items for slot in one.slots), "") for block in blocks
    }
    return replace(known, begins={name: int(label) for name, label in first.items() if label.isdecimal()})


def _part(reader: Reader, block: Block, path: Path, phrased: bool) -> Part:
    reader.problems += block.problems
    reader.problems += path.problems
    reader.problems += findings_of(block, path)
    reader.problems += held_facings(path)
    reader.problems += notes_broken(path)
    name = block.part if phrased or block.part else ""
    return Part(name=name, sections=section_of(block, path))


def _stated_counts(facts: Facts, parts: Sequence[Part]) -> int | None:
    """Return the stated length of the dance; of one in parts a number that one of them may have is that part's."""
    longest = max((part.counts for part in parts), default=0)
    of_a_part = len(parts) > 1 and facts.counts is not None and facts.counts <= longest
    return None if of_a_part else facts.counts


def _time(reader: Reader) -> Time:
    """Return the time, by the counts of the steps where what is said of it cannot be: a waltz has no count 7."""
    told, sixes = reader.facts.time, reader.page.phrase == _SIX
    return ("3/4" if sixes else "4/4") if told is None or (told == "3/4" and not sixes) else told


def _routine(reader: Reader, parts: tuple[Part, ...], extras: tuple[Extra, ...], told: Told) -> Routine:
    facts = reader.facts
    options, notes = options_of(reader.page.options, parts, reader.starts, reader.gloss)
    return Routine(
        title=facts.title,
        tune=facts.tune,
        by=facts.by,
        tempo=facts.tempo,
        time=_time(reader),
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
