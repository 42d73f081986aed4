"""From a routine to its card."""

import re
from collections.abc import Iterator
from fractions import Fraction

from trainer.cards.model import Card, CardBlock
from trainer.cards.rows import card_rows
from trainer.cards.walls import called, wall_list
from trainer.cards.words import plain
from trainer.dance.blocks import extra_block, rows_of
from trainer.dance.facing import HOME
from trainer.dance.timeline import Row, Timeline
from trainer.dance.unroll import unroll
from trainer.routine import Extra, Option, Part, Routine, Section
from trainer.terms import Weight

_LONGEST_TITLE = 120
_SECTION = "section|sect|sec|set|part|s|#"


def card_of(routine: Routine) -> Card:
    """Return the card of a routine; any routine has one, however little could be read of it."""
    timeline = unroll(routine)
    walls, goes_on = wall_list(timeline)
    return Card(
        title=plain(routine.title, _LONGEST_TITLE) or "Untitled",
        facts=tuple(_facts(routine)),
        credits=tuple(_credits(routine)),
        blocks=tuple(_blocks(routine, timeline)),
        walls=walls,
        goes_on=goes_on,
        notes=tuple(filter(None, map(plain, routine.notes))),
        key=_key(routine),
    )


def _key(routine: Routine) -> str:
    frame = "each part as if it began at 12:00" if routine.phrased else "sections as on wall 1"
    extras = ", all else as first danced" if routine.extras else ""
    told = f"R and L are feet, right and left are directions. Clocks: {frame}{extras}; the order as in the room."
    unsure = any(event.status == "unsure" for event in routine.events())
    return f"{told} ? : the sheet may mean another step." if unsure else told


def _facts(routine: Routine) -> Iterator[str]:
    counts = sum(max(section.counts, 0) for part in routine.parts for section in part.sections)
    yield _number(counts, "count")
    if routine.walls is not None:
        yield _number(routine.walls, "wall")
    if routine.level:
        yield plain(routine.level, _LONGEST_TITLE)
    if routine.tempo is not None:
        tempo = routine.tempo
        yield f"{tempo if tempo.denominator == 1 else round(float(tempo), 1)} counts a minute"
    if routine.time != "4/4":
        yield {"3/4": "waltz, 3/4", "2/4": "2/4"}[routine.time]
    if routine.feel != "straight":
        yield routine.feel
    if routine.wait is not None:
        yield plain(f"wait {routine.wait} {routine.wait_from}")
    elif routine.wait_from:
        yield plain(routine.wait_from)
    yield {"R": "weight on R, L begins", "L": "weight on L, R begins"}.get(routine.starts, "weight on both feet")


def _number(number: int, word: str) -> str:
    return f"{number} {word}{'s' if number != 1 else ''}"


def _credits(routine: Routine) -> Iterator[str]:
    if routine.tune:
        yield f"to {plain(routine.tune)}"
    if routine.by:
        yield f"by {plain(routine.by)}"


def _blocks(routine: Routine, timeline: Timeline) -> Iterator[CardBlock]:
    """Yield the blocks in reading order: the danced intro, the sections, the other extras, the options."""
    intros = [extra for extra in routine.extras if extra.kind == "intro"]
    for extra in intros:
        yield _extra(extra, routine, extra.starts or HOME)
    weight: Weight | None = routine.starts
    for part in routine.parts:
        yield from _part(part, routine, weight)
        weight = None
    for extra in routine.extras:
        if extra.kind != "intro":
            yield _extra(extra, routine, _first_danced(extra, timeline))
    for option in routine.options:
        yield _option(option, routine)


def _part(part: Part, routine: Routine, weight: Weight | None) -> Iterator[CardBlock]:
    facing = HOME
    for index, section in enumerate(part.sections):
        rows = rows_of([section])
        yield CardBlock(
            kind="section",
            part=plain(part.name, _LONGEST_TITLE) if not index else "",
            name=plain(section.name, _LONGEST_TITLE),
            title=_title(section),
            length="" if section.counts == routine.phrase else _number(section.counts, "count"),
            starts=facing,
            rows=card_rows(rows, facing, weight, routine.phrase),
        )
        facing = (facing + _turn(rows)) % 1
        weight = rows[-1].event.weight if rows else weight


def _title(section: Section) -> str:
    """Return the title of a section without the name that it may begin with: "Section 2: rocks" is "rocks"."""
    title = plain(section.title)
    if title.casefold() == section.name.casefold():
        return ""
    name = re.escape(section.name)
    opens = re.match(rf"(?:{_SECTION})?[ .]?\(?{name} *[-–—:.)\]/]+ *(?=[^\d\s])", title, re.IGNORECASE)
    return title[opens.end() :] if opens and section.name else title


def _turn(rows: tuple[Row, ...]) -> Fraction:
    return rows[-1].turned if rows else HOME


def _extra(extra: Extra, routine: Routine, facing: Fraction) -> CardBlock:
    return CardBlock(
        kind=extra.kind,
        part="",
        name=called(extra.kind, extra.name),
        title=_title(extra),
        length=_number(extra.counts, "count"),
        starts=facing,
        rows=card_rows(extra_block(extra).rows, facing, None, routine.phrase),
    )


def _first_danced(extra: Extra, timeline: Timeline) -> Fraction:
    """Return the facing with which an extra is first danced; 12:00 where it never is."""
    stretches = (stretch for one in timeline.passes for stretch in one.stretches)
    found = (one.facing for one in stretches if (one.block.kind, one.block.name) == (extra.kind, extra.name))
    return next(found, HOME)


def _option(option: Option, routine: Routine) -> CardBlock:
    facing, weight = _before(option, routine)
    counts = f"counts {option.first}–{option.last}" if option.first != option.last else f"count {option.first}"
    part = f"part {option.part}, " if option.part else ""
    section = Section(name="", counts=0, events=option.events)
    return CardBlock(
        kind="option",
        part="",
        name=plain(f"{part}section {option.section}, {counts}", _LONGEST_TITLE),
        title=plain(option.title),
        length="",
        starts=facing,
        rows=card_rows(rows_of([section]), facing, weight, routine.phrase),
    )


def _before(option: Option, routine: Routine) -> tuple[Fraction, Weight | None]:
    """Return the facing and the weight before the counts that an option replaces."""
    part = routine.part(option.part)
    facing, weight = HOME, None
    for section in part.sections if part is not None else ():
        for row in rows_of([section]):
            if section.name == option.section and row.beat >= option.first - 1:
                return facing, weight
            facing, weight = (facing + row.event.turn) % 1, row.event.weight
    return facing, weight
