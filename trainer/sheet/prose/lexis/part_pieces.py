"""Names of parts that are danced only from some count on: "B 17-32" is the second half of a part of 32 counts.

A part that is left early is one pass of it, cut; one that begins late is told as a part of its own by such a name,
so that it may stand wherever a part may. Counts are those of the whole part, from 1; two stretches are joined by +.
"""

import re
from collections.abc import Iterable, Sequence

from trainer.dance.counts import is_number, label_of, number_at
from trainer.routine import Event, Part, Section
from trainer.terms import Label

Stretch = tuple[int, int]
"""First and last count of the part."""

_NAME = re.compile(r"(.+) (\d+-\d+(?:\+\d+-\d+)*)")


def piece_name(part: str, stretches: Sequence[Stretch]) -> str:
    """Return the name of some stretches of a part."""
    return f"{part} {'+'.join(f'{first}-{last}' for first, last in stretches)}"


def piece_of(name: str) -> tuple[str, tuple[Stretch, ...]] | None:
    """Return the part and the stretches of it that a name tells of; None: it is no such name."""
    match = _NAME.fullmatch(name)
    if match is None:
        return None
    ends = [one.split("-") for one in match[2].split("+")]
    return match[1], tuple((int(first), int(last)) for first, last in ends)


def is_piece(name: str) -> bool:
    """Whether a name is one of a piece of a part."""
    return _NAME.fullmatch(name) is not None


def with_pieces_cut(parts: Sequence[Part], names: Iterable[str], phrase: int) -> tuple[Part, ...]:
    """Return the parts, and behind them the pieces of them that have some names; `phrase` counts have own labels."""
    whole = {part.name: part for part in parts}
    new = dict.fromkeys(name for name in names if name not in whole)
    pieces = [(name, *found) for name in new if (found := piece_of(name)) and found[0] in whole]
    return (*parts, *(_piece(name, whole[part], stretches, phrase) for name, part, stretches in pieces))


def _piece(name: str, part: Part, stretches: Sequence[Stretch], phrase: int) -> Part:
    sections: list[Section] = []
    for first, last in stretches:
        start = 0
        for section in part.sections:
            kept = _stretch(section, first - 1 - start, last - start, phrase)
            sections += [kept] if kept is not None else []
            start += section.counts
    return part.but(name=name, sections=tuple(sections))


def _stretch(section: Section, first: int, last: int, phrase: int) -> Section | None:
    """Return the counts of a section from one beat to before another; None: none of them.

    What leads into its first count from the count before it is left out with that one.
    """
    first, last = max(first, 0), min(last, section.counts)
    if first >= last:
        return None
    if (first, last) == (0, section.counts):
        return section.but(events=tuple(_unchecked(event) for event in section.events))
    events = tuple(
        _unchecked(event).but(beat=event.beat - first, label=_called(event, first, phrase))
        for event in section.events
        if (first if first else -1) <= event.beat < last
    )
    return section.but(counts=last - first, events=events)


def _unchecked(event: Event) -> Event:
    """Return an event without the facing that the sheet states for the whole part: the piece begins elsewhere."""
    return event.but(facing=None)


def _called(event: Event, first: int, phrase: int) -> Label:
    """Return how an event is called in a stretch that begins so many counts into its section: from 1 on."""
    whole = is_number(event.label) and first
    return label_of(number_at(event.beat - first, phrase)) if whole else event.label
