"""From the words of an item to its readings: one draft for each count, the likeliest reading first."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from trainer.sheet.prose.acts import Path, Placed
from trainer.sheet.prose.clauses import Clause, clauses_of
from trainer.sheet.prose.gloss import Gloss, gloss_of
from trainer.sheet.prose.joining import EMPTY, EMPTY_MORE, LEFT_OVER, MOST_COUNTS, paths_of, turn_of
from trainer.sheet.prose.lexicon import lexemes
from trainer.sheet.prose.roles import NO_TURN
from trainer.sheet.prose.words import Draft, Item, Reading, Slot, Token

__all__ = ["Gloss", "fills", "gloss_of", "item_readings"]

_WIDE = 10
"""Paths kept for each number of counts in an item of a usual length; long items are searched with fewer."""

_MANY_CLAUSES = 12

_WAITS = 0.2
"""What it costs that a turn at an item's end falls on the next event."""


def item_readings(item: Item, gloss: Gloss, *, most: int = 12, before: Draft | None = None) -> tuple[Reading, ...]:
    """Return the readings of an item, the best first; each has a draft for every slot.

    Without slots the words tell how many events there are. `before` is the last event of the item before: "walk right (1),
    left (2)", "bump hips right twice (5, 6), left twice (7, 8)".
    """
    clauses = _clauses(item.text, gloss)
    if item.slots:
        found = _for_slots(clauses, item.slots, before)
    else:
        found = [
            _reading(path, (), Fraction(0))
            for paths in _paths(clauses, MOST_COUNTS, before=before)
            for path in paths
            if path.drafts
        ]
    found.sort(key=lambda reading: (round(reading.breaches, 4), reading.preference))
    return tuple(_distinct(found)[:most])


def fills(item_text: Sequence[Token], n: int, gloss: Gloss | None = None) -> float:
    """Return how badly words fill so many counts: 0 where they fit."""
    costs = _fill_costs(tuple(item_text), gloss or Gloss())
    if n < len(costs):
        return costs[n]
    return costs[-1] + EMPTY_MORE * (n - len(costs) + 1)


@lru_cache(maxsize=8192)
def _fill_costs(text: tuple[Token, ...], gloss: Gloss) -> tuple[float, ...]:
    """Return for each number of counts from 0 on what it costs that the words fill so many."""
    clauses = _clauses(text, gloss)
    exact = [
        min((path.breaches + path.preference for path in paths), default=None) for paths in _paths(clauses, 20, width=2)
    ]
    return tuple(
        min(
            (
                cost + (LEFT_OVER * (m - n) if m > n else EMPTY + EMPTY_MORE * (n - m - 1) if m < n else 0.0)
                for m, cost in enumerate(exact)
                if cost is not None
            ),
            default=EMPTY + EMPTY_MORE * n,
        )
        for n in range(len(exact))
    )


@lru_cache(maxsize=4096)
def _clauses(text: tuple[Token, ...], gloss: Gloss) -> tuple[Clause, ...]:
    return clauses_of(lexemes(text, gloss.short))


def _paths(
    clauses: Sequence[Clause], counts: int, *, width: int = _WIDE, before: Draft | None = None
) -> list[list[Path]]:
    if len(clauses) > _MANY_CLAUSES:
        width = max(2, width * _MANY_CLAUSES // (2 * len(clauses)))
    return paths_of(clauses, counts, width, before)


def _for_slots(clauses: Sequence[Clause], slots: Sequence[Slot], before: Draft | None) -> list[Reading]:
    n = len(slots)
    by_counts = _paths(clauses, n, before=before)
    if not any(not path.breaches for path in by_counts[n]):
        by_counts = _paths(clauses, min(n + 8, MOST_COUNTS + n), before=before)
    found = []
    for m, paths in enumerate(by_counts):
        over = m - n
        cost = LEFT_OVER * over if over > 0 else EMPTY + EMPTY_MORE * (-over - 1) if over < 0 else 0.0
        for path in paths if not over else paths[:2]:
            found.append(_reading(path, slots, Fraction(0), cost))
    return found


def _reading(path: Path, slots: Sequence[Slot], leaves: Fraction, cost: float = 0.0) -> Reading:
    drafts = _on_their_counts(path, slots)
    n = len(slots)
    if n:
        drafts = (*drafts[:n], *(None,) * (n - len(drafts)))
    waits = path.waiting.turns[0] if path.waiting else leaves
    return Reading(
        drafts=drafts,
        breaches=round(path.breaches + cost, 4),
        preference=round(path.preference + (_WAITS if path.waiting else 0.0), 4),
        unread=path.unread,
        leaves=waits,
    )


def _on_their_counts(path: Path, slots: Sequence[Slot]) -> tuple[Draft | None, ...]:
    """Move turns to the counts that the words lay them on."""
    drafts = list(path.drafts)
    cleared: set[tuple[int, int]] = set()
    for placed in path.placed:
        _lay(drafts, placed, slots, cleared)
    return tuple(drafts)


def _lay(drafts: list[Draft | None], placed: Placed, slots: Sequence[Slot], cleared: set[tuple[int, int]]) -> None:
    inside = range(placed.first, min(placed.last, len(drafts), len(slots)))
    wanted = {str((count - 1) % 8 + 1) for count in placed.counts} | {
        str(count) for count in placed.counts if count < 9
    }
    targets = [index for index in inside if slots[index].label in wanted and drafts[index] is not None]
    turning = [index for index in inside if _turns(drafts[index])]
    if not targets or not (turning or placed.turns):
        return
    found = drafts[turning[0]] if turning else None
    sign = 1 if found is None or found.turns[0] > 0 else -1
    total = sum((turn_of(drafts[index]) for index in turning), Fraction(0))
    turns = placed.turns if placed.turns else (total / len(targets),)
    if len(placed.turns) > 1 and found is not None:
        turns = tuple(turn for turn in placed.turns if (turn > 0) == (sign > 0))
    key = (0, 0)
    for index in turning:
        draft = drafts[index]
        if key not in cleared and draft is not None:
            drafts[index] = replace(draft, turns=NO_TURN)
    if placed.turns:
        cleared.add(key)
    for index in targets:
        draft = drafts[index]
        if draft is not None:
            drafts[index] = replace(draft, turns=turns)


def _turns(draft: Draft | None) -> bool:
    return draft is not None and draft.turns != NO_TURN


def _distinct(readings: Sequence[Reading]) -> list[Reading]:
    seen: set[object] = set()
    kept = []
    for reading in readings:
        key = (reading.drafts, reading.leaves)
        if key not in seen:
            seen.add(key)
            kept.append(reading)
    return kept
