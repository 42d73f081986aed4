"""Counts for the words of an extra that are told without any: "a four count tag: shuffle right, rock back, recover".

Where one step a count does not fit, the figures that the words name are danced to the patterns that the table gives
them, so that all come out on the counts that the extra is said to have.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.dance.counts import is_number, label_of, offset
from trainer.dance.figures import figures
from trainer.sheet.prose.items.phrases import Gloss, fills, item_readings
from trainer.sheet.prose.words import Draft, Item, Slot
from trainer.terms import Feel, Label

_FITS = 0.4
"""Words that fit one a count need no other."""

_MOST_COUNTS = 32

Pattern = tuple[Label, ...]


def with_counts(item: Item, counts: int, gloss: Gloss, feel: Feel = "straight") -> Item:
    """Return an item without count marks whose words fill so many counts, called from 1."""
    plain = tuple(Slot(label_of(beat % 8 + 1), Fraction(beat)) for beat in range(counts))
    if counts > _MOST_COUNTS or fills(item.text, counts, gloss) < _FITS:
        return Item(plain, item.text, item.span)
    for reading in item_readings(Item((), item.text, item.span), gloss):
        if reading.breaches or None in reading.drafts or len(reading.drafts) <= counts:
            continue
        pattern = next(_patterns(groups_of(reading.drafts), counts, feel), None)
        if pattern is not None:
            return Item(_slots(pattern, feel), item.text, item.span)
    return Item(plain, item.text, item.span)


def groups_of(drafts: Sequence[Draft | None]) -> list[tuple[str, int]]:
    """Return the figures in a row of drafts, each with its number of steps; a step by itself is a figure of one."""
    groups: list[tuple[str, int]] = []
    for draft in drafts:
        name = draft.figure if draft is not None else ""
        if name and groups and draft is not None and not draft.figure_start and groups[-1][0] == name:
            groups[-1] = (name, groups[-1][1] + 1)
        else:
            groups.append((name, 1))
    return groups


def _patterns(groups: Sequence[tuple[str, int]], counts: int, feel: Feel) -> Iterator[list[Pattern]]:
    """Yield the patterns of all figures that fill so many counts together."""
    if not groups:
        if counts == 0:
            yield []
        return
    name, steps = groups[0]
    for pattern in dict.fromkeys(patterns_of(name, steps)):
        used = sum(map(is_number, pattern))
        sound = is_number(pattern[0]) and all(offset(label, feel) is not None for label in pattern)
        if sound and used <= counts:
            for rest in _patterns(groups[1:], counts - used, feel):
                yield [pattern, *rest]
                return


def patterns_of(name: str, steps: int) -> Iterator[Pattern]:
    """Yield the patterns that the table gives a figure of so many steps, and one step a count."""
    row = figures().get(name)
    for form in row.forms if row is not None else ():
        if len(form.steps) == steps:
            yield from form.counts
    yield tuple(label_of(count % 8 + 1) for count in range(steps))


def _slots(patterns: Sequence[Pattern], feel: Feel) -> tuple[Slot, ...]:
    slots: list[Slot] = []
    beat = -1
    for pattern in patterns:
        for label in pattern:
            beat += is_number(label)
            called = label_of(beat % 8 + 1) if is_number(label) else label
            slots.append(Slot(called, beat + (offset(label, feel) or Fraction(0))))
    return tuple(slots)
