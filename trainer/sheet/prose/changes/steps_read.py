"""Steps of a telling as they are read: how many counts they take, and what is danced on each from a weight on."""

from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.routine import Event
from trainer.sheet.prose.changes.dance import Dance
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.items.unmarked import with_counts
from trainer.sheet.prose.page.pages import items_of
from trainer.sheet.prose.reading_state import Reader
from trainer.sheet.prose.search.paths import Goal, Path, State, cheapest
from trainer.sheet.prose.sections.events import events_of
from trainer.sheet.prose.words import Item, Token
from trainer.terms import Foot, Move, Weight

_LONGEST = 16
"""Counts of steps that are told without any."""
_NEARLY = 0.9
"""So much worse steps may fill other counts than those that they fill best."""
WRONG_FOOT = 1.5
"""What it costs that the dance does not go on from where steps end."""


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps as they are told: with counts of their own, or none."""

    tokens: tuple[Token, ...]
    items: tuple[Item, ...]
    counted: bool
    first: int = 0
    """The number of their first count, where it is told."""
    counts: int = 0


class StepsRead:
    """Reads the steps of changes of a dance."""

    def __init__(self, dance: Dance, reader: Reader) -> None:
        self._dance = dance
        self._reader = reader

    def told(self, tokens: tuple[Token, ...]) -> Steps:
        """Return steps with the counts that they are told with."""
        block = items_of([tokens], self._reader.page.phrase, self._reader.page.feel, fills, first=1)
        if not any(item.slots for item in block.items):
            return Steps(tokens, block.items, counted=False)
        first = next((int(token.text) for token in tokens if token.kind == "number"), 1)
        return Steps(tokens, block.items, True, first, block.counts)

    def read(self, steps: Steps, counts: int, start: Weight, after: Weight | None) -> Path | None:
        """Return steps over so many counts, as they are read from a weight on."""
        items = list(steps.items)
        if not items:
            return None
        if not steps.counted:
            if len(items) != 1:
                return None
            items = [with_counts(items[0], counts, self._reader.gloss, self._reader.page.feel)]
        block = items_of([steps.tokens], self._reader.page.phrase, self._reader.page.feel, fills)
        told, readings = self._reader.readings(block, items)
        return cheapest(told, readings, [(State(start, Fraction(0)), 0.0)], Goal(after))

    def called(self, path: Path, first: int, counts: int) -> tuple[Event, ...]:
        """Return the events of a path, called as the counts of the wall from one on; what is empty is held."""
        phrase = self._reader.page.phrase
        base = self._dance.section_of(first)[0] if first > 1 else 1
        done: list[Event] = []
        weight: Weight = path.start.weight
        told = {event.beat: event for event in events_of(path.items, path.said, Fraction(0))}
        for beat in sorted({*told, *map(Fraction, range(counts))}):
            event = told.get(beat)
            label = label_of((first - base + int(beat)) % phrase + 1)
            if event is None:
                event = Event(label=label, beat=beat, foot=Foot.NONE, weight=weight, move=Move.HOLD)
            elif event.label.isdecimal():
                event = event.but(label=label)
            weight = event.weight or weight
            done.append(event.but(facing=None, stated=None))
        return tuple(done)

    def lengths(self, steps: Steps) -> list[int]:
        prices = {counts: fills(steps.tokens, counts, self._reader.gloss) for counts in range(1, _LONGEST + 1)}
        least = min(prices.values())
        return [counts for counts, price in prices.items() if price <= least + _NEARLY]

    def followed(self, steps: Steps, start: Weight, after: Weight) -> tuple[tuple[Event, ...], int, float] | None:
        """Return steps of a tag as they are read, with the counts that they take and what is wrong with them."""
        lengths = [steps.counts] if steps.counted else self.lengths(steps)
        found = []
        for counts in lengths:
            path = self.read(steps, counts, start, after)
            if path is not None:
                price = path.cost[0] + (WRONG_FOOT if path.end.weight not in (after, "B") else 0.0)
                found.append((price, path.cost[1], counts, path))
        if not found:
            return None
        price, _, counts, path = min(found, key=lambda one: one[:3])
        return self.called(path, 1, counts), counts, price
