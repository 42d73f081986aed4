"""The play as it was read from the lines as they stand, to compare the one that was sought with."""

from collections.abc import Sequence

from trainer.routine import Routine
from trainer.sheet.prose.plays.definitions import Definition
from trainer.sheet.prose.plays.symbols import Named

_MISTAKEN = -2


def lengths_differ(inline: Sequence[Definition], routine: Routine) -> bool:
    """Whether an extra was read with another length than its words tell."""
    lengths = {extra.counts for extra in routine.extras}
    return bool(lengths) and any(one.body and one.counts and one.counts not in lengths for one in inline)


def played(routine: Routine, named: Named) -> list[tuple[int, int | None]]:
    """The play as it was read: places of parts with their cuts, -1 for extras."""
    cuts = {
        (line.part, number): one.after
        for line in routine.order
        for number in line.passes
        for one in line.departures
        if one.leave != "continue"
    }
    puts = {
        (line.part, number): sum(len(one.inserts) for one in line.departures)
        for line in routine.order
        for number in line.passes
    }
    found: list[tuple[int, int | None]] = []
    counts: dict[str, int] = {}
    for item in routine.play:
        if item.kind != "part" or item.name not in named.parts:
            # An ending is danced at the end: before another part it was misread.
            found.append((-1 if item.kind != "ending" or item is routine.play[-1] else _MISTAKEN, None))
            continue
        counts[item.name] = counts.get(item.name, 0) + 1
        place = named.parts.index(item.name)
        key = (item.name, counts[item.name])
        cut = cuts.get(key)
        found.append((place, None if cut == named.lengths[place] else cut))
        found += [(-1, None)] * puts.get(key, 0)
    return found
