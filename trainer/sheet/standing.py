"""The weight before each block of a sheet, and with it the weights of all its steps.

The sections of a part are one run of steps; the dance begins with the weight of its head. An option begins where
the counts that it replaces do, an extra with the weight that its own steps need; one that moves no foot, four claps
say, with the weight of the place where it is first danced.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from trainer.routine import Departure, OrderLine, PlayItem, Routine
from trainer.sheet.counting import Counted
from trainer.sheet.headings import Heading
from trainer.sheet.weighing import weigh
from trainer.terms import Label, Weight

Weighed = list[tuple[Weight, Weight | None]]
"""The weights before and after each draft of a block."""


class Stood(NamedTuple):
    """The weights at a count of a part."""

    beat: Fraction
    """From the part's first count."""
    label: Label
    before: Weight
    after: Weight | None


def block_weights(ordered: Sequence[Counted], routine: Routine, order: Sequence[OrderLine]) -> dict[int, Weighed]:
    """Return the weights of every block, by the identity of the block; `ordered` are they in reading order."""
    sections = [one for one in ordered if one.block.heading.kind == "section"]
    weights: dict[int, Weighed] = {}
    parts: dict[str, list[Stood]] = {}
    for name in dict.fromkeys(one.block.part for one in sections):
        run = [one for one in sections if one.block.part == name]
        before = routine.starts if run[0] is sections[0] else None
        told = iter(weigh([draft for one in run for draft in one.drafts], before, routine.starts))
        weights |= {id(one): [next(told) for _ in one.drafts] for one in run}
        parts[name] = list(_stood(run, weights))
    for one in ordered:
        heading = one.block.heading
        if heading.kind == "option":
            weights[id(one)] = weigh(one.drafts, _before_option(one, sections, weights), routine.starts)
        elif heading.kind != "section":
            placed = _first_place(heading, parts, order, routine.play)
            weights[id(one)] = weigh(one.drafts, None, placed or routine.starts)
    return weights


def _stood(run: Sequence[Counted], weights: dict[int, Weighed]) -> Iterator[Stood]:
    start = 0
    for one in run:
        for draft, (before, after) in zip(one.drafts, weights[id(one)], strict=True):
            yield Stood(start + draft.slot.beat, draft.slot.label, before, after)
        start += one.counts


def _before_option(option: Counted, sections: Sequence[Counted], weights: dict[int, Weighed]) -> Weight | None:
    """Return the weight in the section before the counts that an option replaces."""
    name = option.block.heading.name
    for one in sections:
        if one.block.part == option.block.part and one.block.heading.name == name and option.drafts:
            begins = option.drafts[0].slot.beat
            rows = zip(one.drafts, weights[id(one)], strict=True)
            return next((before for draft, (before, _) in rows if draft.slot.beat >= begins), None)
    return None


def _first_place(
    heading: Heading, parts: dict[str, list[Stood]], order: Sequence[OrderLine], play: Sequence[PlayItem]
) -> Weight | None:
    """Return the weight where an extra is first danced, if anything says where that is."""
    for line in order:
        for departure in line.departures:
            inserted = any((one.kind, one.name) == (heading.kind, heading.name) for one in departure.inserts)
            if inserted or (heading.kind == "change" and departure.change == heading.name):
                return _at(parts.get(line.part, []), departure, inserted=inserted)
    for before, item in pairwise(play):
        if (item.kind, item.name) == (heading.kind, heading.name) and before.kind == "part":
            return next((one.after for one in reversed(parts.get(before.name, []))), None)
    return None


def _at(part: Sequence[Stood], departure: Departure, *, inserted: bool) -> Weight | None:
    """Return the weight where a departure cuts a part."""
    cut = Fraction(departure.after)
    if departure.change and not inserted:
        cut = Fraction(departure.first - 1)
    elif departure.before is not None:
        cut = next((one.beat for one in part if one.beat > cut - 1 and one.label == departure.before), cut)
    return next((one.after for one in reversed(part) if one.beat < cut), None)
