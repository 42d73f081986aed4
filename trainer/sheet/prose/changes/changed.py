"""The changes of a sheet put into the order of its dance: each a change of counts, with what is danced after it."""

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from trainer.dance.unroll import unroll
from trainer.routine import Departure, Extra, Insert, OrderLine, Routine, Span
from trainer.sheet.prose.changes.cues import SECTIONS
from trainer.sheet.prose.changes.dance import Dance
from trainer.sheet.prose.changes.otherwise import Otherwise
from trainer.sheet.prose.changes.placing import Placed, Placer
from trainer.sheet.prose.changes.said import otherwise_in
from trainer.sheet.prose.changes.tellings import Telling
from trainer.sheet.prose.changes.walls_told import MOST_WALLS
from trainer.sheet.prose.changes.wording import words_of
from trainer.sheet.prose.reading_state import Reader
from trainer.terms import LeaveKind

_LASTS = re.compile(r"\b(?:lasts|longer)\b")
"""A hold of the dance takes more counts; other holds are told as what they are."""
_MOST = 40
"""So many tellings has no sheet."""
_SURE = 0.7
"""So little is wrong with a change that is surely meant so."""
_SAME = re.compile(
    r"\b(?:same|likewise|ditto|so does|so too|again the same)\b(?: (?:as|like) (?:in |on )?(?:walls? |w )?(?P<n>\d+))?"
)


@dataclass(slots=True)
class Resolved:
    """A telling with its changes at their places."""

    telling: Telling
    placed: list[Placed] = field(default_factory=list)

    @property
    def only_leaves_out(self) -> bool:
        """Whether it tells no more than that the wall ends early, as restarts are told too."""
        return bool(self.placed) and all(one.first <= one.last and not one.counts for one in self.placed)


def resolved(tellings: Sequence[Telling], routine: Routine, reader: Reader) -> list[Resolved]:
    """Return the tellings whose changes find their place in a dance, all that they tell."""
    if len(routine.parts) != 1 or len(tellings) > _MOST:
        return []
    dance = Dance(routine, routine.parts[0].name)
    placer = Placer(dance, reader)
    done: list[Resolved] = []
    for place, telling in enumerate(tellings):
        alike = [one for one in tellings[place + 1 :] if one.walls.numbers == telling.walls.numbers]
        placer.more = bool(alike)
        placer.before = [
            placed for one in done if one.telling.walls.numbers == telling.walls.numbers for placed in one.placed
        ]
        placed = _placed(telling, dance, placer)
        if placed and any(
            one.counts or one.tag or one.first <= one.last or _LASTS.search(telling.text) for one in placed
        ):
            done.append(Resolved(telling, placed))
        elif (before := _likened(telling, done)) is not None:
            done.append(Resolved(telling, list(before.placed)))
        elif alike and telling.only_announces:
            done.append(Resolved(telling))
    return done if any(one.placed for one in done) else []


def _likened(telling: Telling, done: Sequence[Resolved]) -> Resolved | None:
    """Return the telling before that another says is danced again."""
    for sentence in telling.sentences[:1]:
        match = _SAME.search(words_of(sentence).text)
        if match is None:
            continue
        named = [one for one in done if match["n"] and int(match["n"]) in one.telling.walls.numbers]
        return next(iter(named or list(done[-1:])), None)
    return None


def _placed(telling: Telling, dance: Dance, placer: Placer) -> list[Placed]:
    """Return the changes of a telling at their places; none where one of them finds none."""
    row = _row(telling, dance)
    if (telling.row and row is None) or _names_none(telling, dance):
        return []
    found: list[Placed] = []
    more = placer.more
    for place, told in enumerate(parts := otherwise_in(telling.sentences), 1):
        placer.more = more or place < len(parts)
        if _says_again(told, row, placer):
            if found and told.leaves:
                placer.before[-1] = found[-1] = replace(found[-1], leaves=True)
            continue
        placed = _one(told, row, placer)
        if not placed:
            return []
        found += placed
        placer.before += placed
    found.sort(key=lambda one: one.first)
    if any(one.last >= two.first for one, two in pairwise(found)):
        return []
    return found


def _names_none(telling: Telling, dance: Dance) -> bool:
    """Whether a section is named that the dance does not have: that is a fault of the sheet, wherever it stands."""
    named = [
        int(one)
        for match in SECTIONS.finditer(telling.text)
        if not match[0].startswith(("line", "row"))
        for one in match.groups()
        if one
    ]
    return max(named, default=0) > len(dance.ends) - 1


def _says_again(told: Otherwise, row: tuple[int, int, int] | None, placer: Placer) -> bool:
    """Whether no more is said than that steps are not danced for which others were told."""
    if told.steps or not (told.drops or told.unturned) or not placer.before:
        return False
    gone = [placer.left_out(told, row)] if told.drops else placer.unturned(told, row)
    return all(
        one is None or any(other.first <= one.first and one.last <= other.last for other in placer.before)
        for one in gone
    )


def _one(told: Otherwise, row: tuple[int, int, int] | None, placer: Placer) -> list[Placed]:
    """Return one change at its place, or the several counts of which it is told; none where it finds none."""
    if told.steps or told.likewise or told.again or (told.holds and not told.drops):
        placed = placer.place(told, row)
        return [placed] if placed is not None else []
    if told.unturned:
        return placer.unturned(told, row)
    if told.drops:
        placed = placer.left_out(told, row)
        return [placed] if placed is not None else []
    return []


def _row(telling: Telling, dance: Dance) -> tuple[int, int, int] | None:
    """Return the counts of the row that a telling stands beside; of one told twice, those of the first telling."""
    if not telling.row:
        return None
    lines = [telling.row, telling.row - 1, telling.row + 1] if telling.rewrites else [telling.row, telling.row + 1]
    for line in lines:
        row = dance.row(line, telling.column)
        if row is not None:
            return row
    return None


def without_faulty(found: Sequence[Resolved], lines: Collection[int]) -> list[Resolved]:
    """Return tellings without those of a wall that ends early in whose lines something is wrong: that is a fault."""
    return [one for one in found if not (one.only_leaves_out and any(line in lines for line, _, _ in one.telling.cuts))]


def sure(found: Sequence[Resolved]) -> list[Resolved]:
    """Return the tellings whose changes fit their places well."""
    return [one for one in found if all(placed.price <= _SURE for placed in one.placed)]


def with_changes(routine: Routine, found: Sequence[Resolved]) -> Routine:
    """Return a dance with its changes."""
    writer = _Writer(routine)
    for one in found:
        if one.telling.walls.facing is None:
            writer.write(one, one.telling.walls.numbers)
    for one in found:
        facing = one.telling.walls.facing
        for number in range(1, MOST_WALLS + 1) if facing is not None else ():
            passes = unroll(writer.routine(), number).passes
            if len(passes) == number and passes[-1].facing == facing:
                writer.write(one, (number,))
    return writer.routine()


class _Writer:
    """Writes the changes of single walls into the order of a dance."""

    def __init__(self, routine: Routine) -> None:
        self._routine = routine
        self._dance = Dance(routine, routine.parts[0].name)
        self._extras = list(routine.extras)
        self._walls: dict[int, list[Departure]] = {}
        self._made: dict[int, list[Departure]] = {}
        self._starts: dict[int, Fraction] = {}

    def write(self, one: Resolved, numbers: Sequence[int]) -> None:
        """Add the changes of a telling to some walls."""
        if id(one) not in self._made:
            span = Span(one.telling.line, one.telling.cuts[0][1] + 1, 1)
            self._made[id(one)] = []
            for placed in _whole(one.placed, self._dance):
                departure, extras = _departure(placed, self._dance, self._extras, span)
                self._extras += extras
                self._made[id(one)].append(departure)
        for number in numbers:
            self._walls.setdefault(number, []).extend(self._made[id(one)])
            if one.telling.starts is not None:
                self._starts[number] = one.telling.starts

    def routine(self) -> Routine:
        """Return the dance with what was written."""
        order = [
            line.but(passes=passes)
            for line in self._routine.order
            if (passes := tuple(number for number in line.passes if number not in self._walls))
        ]
        alike: dict[tuple[tuple[Departure, ...], Fraction | None], list[int]] = {}
        told: dict[tuple[tuple[Departure, ...], Fraction | None], OrderLine] = {}
        for number, departures in sorted(self._walls.items()):
            before = next((line for line in self._routine.order if number in line.passes), None)
            departed = _merged(before, departures)
            starts = self._starts.get(number, before.starts if before is not None else None)
            key = (departed, starts)
            alike.setdefault(key, []).append(number)
            line = before or OrderLine(passes=(number,), span=departures[0].span if departures else None)
            told[key] = line.but(starts=starts)
        order += [told[key].but(passes=tuple(numbers), departures=key[0]) for key, numbers in alike.items()]
        return self._routine.but(extras=tuple(self._extras), order=tuple(order))


def _merged(before: OrderLine | None, departures: Sequence[Departure]) -> tuple[Departure, ...]:
    """Return the departures of a wall with those told elsewhere of it."""
    done = list(departures)
    for old in before.departures if before is not None else ():
        same = next((at for at, new in enumerate(done) if new.after == old.after), None)
        if same is None or old.change:
            done.append(old)
        else:
            new = done[same]
            leave = new.leave if new.leave != "continue" else old.leave
            done[same] = new.but(inserts=new.inserts or old.inserts, leave=leave)
    return tuple(sorted(done, key=lambda one: one.after))


def _whole(placed: Sequence[Placed], dance: Dance) -> Iterator[Placed]:
    """Yield changes, those of counts left out with what is danced straight after them."""
    waiting: Placed | None = None
    for one in placed:
        if waiting is not None and waiting.last == one.first - 1:
            one = replace(one, first=waiting.first)
        elif waiting is not None:
            yield _with_rest(waiting, dance, one.first - 1)
        waiting = None
        if not one.counts and one.first <= one.last and not (one.leaves or one.last == dance.counts):
            waiting = one
        else:
            yield one
    if waiting is not None:
        yield _with_rest(waiting, dance, dance.counts)


def _with_rest(one: Placed, dance: Dance, most: int) -> Placed:
    """Return counts left out with the rest of their section, or the next one, called as ever."""
    last = dance.section_of(one.last)[1]
    if last == one.last:
        last = dance.section_of(one.last + 1)[1]
    last = min(last, most)
    events = tuple(
        event.but(beat=beat - one.last, facing=None, stated=None) for beat, event in dance.within(one.last + 1, last)
    )
    return replace(one, last=last, events=events, counts=last - one.last)


def _departure(placed: Placed, dance: Dance, extras: Sequence[Extra], span: Span) -> tuple[Departure, list[Extra]]:
    """Return the place of a change in the order, and the extras that it needs."""
    made: list[Extra] = []
    inserts: list[Insert] = []
    if placed.tag:
        name = _name("tag", extras)
        made.append(Extra(kind="tag", name=name, counts=placed.tag_counts, events=placed.tag, span=span))
        inserts.append(Insert(kind="tag", name=name, span=span))
    if placed.holds:
        inserts.append(Insert(kind="hold", counts=placed.holds, span=span))
    leave: LeaveKind = "restart" if placed.leaves and placed.last < dance.counts else "continue"
    leave = "end" if placed.ends else leave
    if placed.first > placed.last:
        return Departure(after=placed.last, inserts=tuple(inserts), leave=leave, span=span), made
    if not placed.counts:
        return Departure(after=placed.first - 1, inserts=tuple(inserts), leave="restart", span=span), made
    name = _name("change", extras)
    replaced = placed.last - placed.first + 1
    title = f"{placed.counts} counts" if placed.counts != replaced else ""
    made.append(Extra(kind="change", name=name, title=title, counts=placed.counts, events=placed.events, span=span))
    return (
        Departure(
            after=placed.last,
            change=name,
            first=placed.first,
            inserts=tuple(inserts),
            leave=leave,
            facing=placed.faces if placed.leaves else None,
            span=span,
        ),
        made,
    )


def _name(kind: str, extras: Sequence[Extra]) -> str:
    alike = {extra.name for extra in extras if extra.kind == kind}
    name = kind.capitalize()
    if name not in alike:
        return name
    return next(f"{name} {number}" for number in range(2, 999) if f"{name} {number}" not in alike)
