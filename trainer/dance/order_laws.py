"""Laws of the order: it names walls, counts and extras that exist, each once, and nothing after a wall is left."""

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches

from trainer.dance.blocks import Cut, Plan, find_extra
from trainer.dance.findings import finding, number_of
from trainer.dance.passes import LONGEST_HOLD, leaving, pass_numbers
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import MOST_UNASKED
from trainer.problems import Problem
from trainer.routine import Departure, Extra, Insert, OrderLine, PlayItem, Routine, Span

_NTH = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh", 8: "eighth", 9: "ninth"}


def order_findings(routine: Routine, timeline: Timeline) -> list[Problem]:
    """Return what is wrong with the order of walls and with the play, apart from weight and facing."""
    plans = {part.name: Plan.of(part) for part in routine.parts}
    found = [*_play(routine), *_walls(routine, timeline), *_twice(routine)]
    for line in routine.order:
        found += _line(routine, line, _plan_of(line, plans, routine, timeline))
    return [*found, *_unused(routine)]


def wall_name(part: str, number: int) -> str:
    """Return what an order line calls a pass: "wall 3", "the third A"."""
    return f"the {_NTH.get(number, f'{number}th')} {part}" if part else f"wall {number}"


def _plan_of(line: OrderLine, plans: dict[str, Plan], routine: Routine, timeline: Timeline) -> Plan | None:
    """Return the part that a line departs from; in a phrased dance `wall 3` may be any part."""
    if line.part or not routine.phrased:
        return plans.get(line.part) or (next(iter(plans.values()), None) if not line.part else None)
    numbers = pass_numbers(timeline.passes)
    places = [numbers["", number] for number in line.passes if ("", number) in numbers]
    return plans.get(timeline.passes[places[0]].part) if places else None


def _play(routine: Routine) -> Iterator[Problem]:
    names = [part.name for part in routine.parts]
    where = routine.where("play")
    for item in routine.play:
        if item.kind == "part" and item.name not in names:
            yield finding("order", item.span or where, f"there is no part {item.name}", hint=_meant(item.name, names))
        elif item.kind != "part":
            yield from _insert(routine, item, item.span or where)
    played = {item.name for item in routine.play if item.kind == "part"}
    if routine.play and not played:
        yield finding("order", where, "the play has no part")
    if not routine.play and len(names) > 1:
        yield finding("order", routine.parts[1].span, "the sheet has parts, but no play that puts them in order")
    for part in routine.parts:
        # A name that is not known may mean the part that is missing.
        if played and part.name not in played and played <= set(names):
            yield finding("order", part.span, f"part {part.name} is never danced", level="warning")


def _walls(routine: Routine, timeline: Timeline) -> Iterator[Problem]:
    """Yield the lines that name a part or a wall which is not danced."""
    numbers = pass_numbers(timeline.passes)
    names = [part.name for part in routine.parts]
    for line in routine.order:
        if line.part and line.part not in names:
            yield finding("order", line.span, f"there is no part {line.part}", hint=_meant(line.part, names))
            continue
        if not line.passes:
            yield finding("order", line.span, "the line names no wall")
        for number in line.passes:
            told = _no_such_wall(line.part, number, numbers, timeline)
            if told:
                yield finding("order", line.span, told)
                break


def _no_such_wall(part: str, number: int, numbers: dict[tuple[str, int], int], timeline: Timeline) -> str:
    if number < 1:
        return "walls are counted from 1"
    if (part, number) in numbers:
        return ""
    if timeline.open_ended:
        return f"{wall_name(part, number)} is too far to be danced" if number > MOST_UNASKED else ""
    last = max((key[1] for key in numbers if key[0] == part), default=0)
    if part:
        return f"there is no {wall_name(part, number)[4:]}: {part} is danced {_times(last)}"
    return f"there is no wall {number}: the dance ends in wall {last}"


def _times(count: int) -> str:
    return {0: "never", 1: "only once"}.get(count, f"only {count} times")


def _twice(routine: Routine) -> Iterator[Problem]:
    """Yield the lines that name a wall again."""
    seen: set[tuple[str, int]] = set()
    for line in routine.order:
        again = [n for place, n in enumerate(line.passes) if (line.part, n) in seen or n in line.passes[:place]]
        seen.update((line.part, number) for number in line.passes)
        if again:
            hint = "all departures of a wall stand in one line, divided by /"
            yield finding("order", line.span, f"{wall_name(line.part, again[0])} is named twice", hint=hint)


def _line(routine: Routine, line: OrderLine, plan: Plan | None) -> Iterator[Problem]:
    """Yield what is wrong with the departures of a line."""
    danced: list[Cut] = []
    for departure in line.departures:
        where = departure.span or line.span
        for insert in departure.inserts:
            yield from _insert(routine, insert, insert.span or where)
        change = find_extra(routine, "change", departure.change) if departure.change else None
        if departure.change and change is None:
            names = [extra.name for extra in routine.extras if extra.kind == "change"]
            yield finding(
                "order", where, f"there is no change {departure.change}", hint=_meant(departure.change, names)
            )
        elif plan:
            told = _no_such_count(departure, plan)
            cut = None if told else plan.cut(departure, change)
            if told:
                yield finding("order", where, told)
            elif cut:
                danced.append(cut)
                yield from _length(departure, change, where)
                yield from _open_cut(departure, plan, where)
    yield from _after_leaving(danced, line)


def _no_such_count(departure: Departure, plan: Plan) -> str:
    """Return what is wrong with the counts that a departure names, empty if nothing is."""
    length = plan.block.counts
    dance = f"part {plan.block.name}" if plan.block.name else "the dance"
    if departure.after > length:
        return f"there is no count {departure.after}: {dance} has {number_of(length, 'count')}"
    if departure.after < 0:
        return "counts are numbered from 1"
    if departure.change and not 1 <= departure.first <= departure.after:
        return f"counts {departure.first} to {departure.after} are none that could be changed"
    if departure.before and not departure.change and plan.label_after(departure.after, departure.before) is None:
        return f"there is no {departure.before} after count {departure.after}"
    return ""


def _length(departure: Departure, change: Extra | None, where: Span | None) -> Iterator[Problem]:
    """Yield a finding for a change that is longer or shorter than what it replaces; a note if its title says so."""
    replaced = departure.after - departure.first + 1
    if change is None or change.counts in (replaced, 0):
        return
    told = f"change {change.name} has {number_of(change.counts, 'count')} in place of {replaced}"
    says_so = f"{change.counts} count" in change.title
    hint = f"where that is meant, the title says so: `== change {change.name}: {change.counts} counts`"
    yield finding("counts", where, told, level="note" if says_so else "error", hint="" if says_so else hint)


def _open_cut(departure: Departure, plan: Plan, where: Span | None) -> Iterator[Problem]:
    """Yield a note where a cut inside a section leaves an & or a behind, and the sheet does not say whether it does."""
    after = departure.after
    if departure.before or departure.change or after in plan.ends:
        return
    index = plan.straight_after(after)
    row = plan.block.rows[index] if index < len(plan.block.rows) else None
    if row and row.beat < after:
        label = row.event.label
        told = f"after {after} is read as straight after the number: the {label} that follows is cut off"
        hint = f"write `after {after} before {label}` to say so"
        yield finding("order", where, told, level="note", hint=hint)


def _after_leaving(cuts: Sequence[Cut], line: OrderLine) -> Iterator[Problem]:
    """Yield the departures that come after the wall was left, or inside counts that were changed."""
    left: Cut | None = None
    reached = index = 0
    for cut in sorted(cuts, key=lambda one: (one.first, one.leaves)):
        departure = cut.departure
        where = departure.span or line.span
        if left:
            told = f"the wall is left after {left.returns}, count {departure.after} is not danced"
            yield finding("order", where, told)
        elif cut.leaves < reached or cut.first < index:
            yield finding("order", where, f"count {cut.leaves + 1} is replaced by a change before")
        if left is None:
            reached, index = cut.returns, cut.last
            left = cut if leaving(departure) != "continue" else None


def _insert(routine: Routine, item: Insert | PlayItem, where: Span | None) -> Iterator[Problem]:
    """Yield a finding for an extra that the sheet does not have, or a hold without a length."""
    if item.kind == "hold":
        if not 1 <= item.counts <= LONGEST_HOLD:
            yield finding("order", where, f"a hold of {number_of(item.counts, 'count')} cannot be danced")
    elif find_extra(routine, item.kind, item.name) is None:
        names = [extra.name for extra in routine.extras if extra.kind not in ("intro", "change")]
        yield finding("order", where, f"there is no {item.kind} {item.name}".rstrip(), hint=_meant(item.name, names))


def _unused(routine: Routine) -> Iterator[Problem]:
    """Yield the extras that no order line asks for; where a name is not known, it may mean one of them."""
    inserts = (insert for line in routine.order for one in line.departures for insert in one.inserts)
    asked: list[Insert | PlayItem] = [*routine.play, *inserts]
    used = [find_extra(routine, item.kind, item.name) for item in asked if item.kind not in ("hold", "part")]
    changes = [one.change for line in routine.order for one in line.departures if one.change]
    used += [find_extra(routine, "change", name) for name in changes]
    for extra in routine.extras:
        if extra.events and all(event.doubtful for event in extra.events):
            # It may be no extra at all.
            continue
        if extra.kind != "intro" and not any(one is None or one is extra for one in used):
            told = f"{extra.kind} {extra.name} is never danced: the order does not name it"
            # Of an ending many sheets say no more than that it ends the song, in a wall that the music decides.
            open_end = extra.kind == "ending" and not routine.play and not _ends(routine)
            yield finding("order", extra.span, told, level="note" if open_end else "warning")


def _ends(routine: Routine) -> bool:
    """Whether the order says of a wall that the dance ends in it."""
    return any(one.leave == "end" for line in routine.order for one in line.departures)


def _meant(name: str, names: Iterable[str]) -> str:
    """Return a hint: the nearest name there is, or all of them."""
    known = [one for one in names if one]
    near = get_close_matches(name, known, 1, 0.6) or [one for one in known if one.casefold() == name.casefold()]
    if near:
        return f"did you mean {near[0]}?"
    return f"the sheet has {', '.join(known)}" if known else ""
