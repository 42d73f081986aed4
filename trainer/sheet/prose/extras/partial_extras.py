"""Some counts of an extra as an extra of their own: walls may dance "only the first half of the tag"."""

from collections.abc import Iterator
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.routine import Event, Extra
from trainer.sheet.prose.order.told import Told


def partials_of(whole: Extra, told: Told, phrase: int) -> Iterator[Extra]:
    """Yield the extras of which the order calls for some counts of this one."""
    for part in told.partial:
        if (part.kind, part.whole) != whole.key:
            continue
        first, last = part.counts_of(whole.counts)
        events = tuple(_called(one, first - 1, phrase) for one in whole.events if first - 1 <= one.beat < last)
        yield Extra(kind=whole.kind, name=part.name, counts=last - first + 1, events=events, span=whole.span)


def turned_by(extra: Extra) -> Fraction:
    """Return the turn that an extra makes."""
    return sum((event.turn for event in extra.events), Fraction(0))


def _called(event: Event, before: int, phrase: int) -> Event:
    """Return an event that comes so many counts sooner, called as there."""
    beat = event.beat - before
    return event.but(beat=beat, label=label_of(int(beat) % phrase + 1) if event.label.isdecimal() else event.label)
