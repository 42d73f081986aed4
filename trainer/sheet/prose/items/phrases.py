"""From the words of an item to its readings: one draft for each count, the likeliest reading first."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from math import inf

from trainer.sheet.prose.header.gloss import Gloss, gloss_of
from trainer.sheet.prose.steps.abreast import with_feet_abreast
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.explained import with_explained, with_first_foot
from trainer.sheet.prose.steps.joining import EMPTY, EMPTY_MORE, LEFT_OVER, MOST_COUNTS, paths_of, turn_of
from trainer.sheet.prose.steps.leading import led_by_last
from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.steps.listed_feet import with_feet_behind
from trainer.sheet.prose.steps.path import Path, Placed
from trainer.sheet.prose.steps.profiles import HEAVY, prices_to_go
from trainer.sheet.prose.steps.roles import NO_TURN
from trainer.sheet.prose.steps.side_led import with_side_led
from trainer.sheet.prose.steps.splitting import clauses_of
from trainer.sheet.prose.steps.strange import with_strange
from trainer.sheet.prose.steps.titled_items import titles_apart, without_turns_told_again
from trainer.sheet.prose.steps.written_out import written_out, written_out_loosely
from trainer.sheet.prose.words import Draft, Item, Reading, Slot, Token

__all__ = ["Gloss", "fills", "gloss_of", "item_readings", "last_said"]

_WIDE = 16
"""Paths kept after each clause of an item of a usual length; long items are searched with fewer."""

_USUAL = 6
"""Clauses."""

_TARGETS = 3
"""Numbers of counts that are tried where the words do not fill the slots."""

_WAITS = 0.2
"""What it costs that a turn at an item's end falls on the next event."""

_LED = 0.3
"""What it costs that the foot said last in a row is the one that starts it, or that feet belong to a move before."""

_TITLED = 0.3
"""What it costs that an item opens with a title, where its words fill the counts only without."""

_MOST_CLAUSES = 60
"""No item is read further."""


def item_readings(item: Item, gloss: Gloss, *, most: int = 12, before: Draft | None = None) -> tuple[Reading, ...]:
    """Return the readings of an item, the best first; each has a draft for every slot.

    Without slots the words tell how many events there are. `before` is the last event of the item before: "walk right
    (1), left (2)", "bump hips right twice (5, 6), left twice (7, 8)".
    """
    item = replace(item, text=written_out(item.text))
    clauses = _clauses(item.text, gloss)
    n = len(item.slots)
    if not n:
        # Without counts nothing else says that the move told first is none by itself.
        clauses = with_feet_behind(clauses) or clauses
    if not all(slot.label.isdecimal() for slot in item.slots):
        clauses = _offbeat(clauses)
    found = _found(clauses, item.slots, before)
    if named := _with_first_foot(item.text, gloss):
        found += _found(named, item.slots, before)
    if not found or min(reading.breaches for reading in found) > 0:
        if (loosely := written_out_loosely(item.text)) != item.text:
            found += [_dearer(reading, _LED) for reading in _found(_clauses(loosely, gloss), item.slots, before)]
        if listed := with_feet_behind(clauses):
            found += [_dearer(reading, _LED) for reading in _found(listed, item.slots, before)]
        for apart in _titles_apart(item.text, gloss):
            found += [_dearer(reading, _TITLED) for reading in _found(apart, item.slots, before)]
    if led := led_by_last(clauses):
        found += [_dearer(reading, _LED) for reading in _found(led, item.slots, before)]
    if not found:
        found = [_reading(Path(), item.slots, _missing(n))]
    found.sort(key=lambda reading: (reading.breaches, reading.preference))
    return with_side_led(item.text, _distinct(found)[:most])


def _dearer(reading: Reading, price: float) -> Reading:
    return replace(reading, preference=reading.preference + price)


def _found(clauses: tuple[Clause, ...], slots: Sequence[Slot], before: Draft | None) -> list[Reading]:
    """Return what the search finds for each likely number of counts."""
    n = len(slots)
    prices = prices_to_go(clauses, n + 8 if n else MOST_COUNTS)
    width = max(3, min(_WIDE, _WIDE * _USUAL // max(len(clauses), 1)))
    found: list[Reading] = []
    targets = _targets(prices[0], n)
    for tried, (price, counts, cost) in enumerate(targets):
        fits = counts == n and price < 0.4 * HEAVY
        if found and (tried >= _TARGETS or price > targets[0][0] + 2.5 * HEAVY):
            break
        found += [_reading(path, slots, cost) for path in paths_of(clauses, counts, prices, width, before)]
        if fits and found:
            break
    return found


def _offbeat(clauses: tuple[Clause, ...]) -> tuple[Clause, ...]:
    """Return the clauses of an item that has counts between the whole ones."""
    return tuple(replace(clause, offbeat=True) if clause.upbeat else clause for clause in clauses)


def last_said(readings: Sequence[Reading]) -> Draft | None:
    """Return the last event of an item's best reading, for the item after it."""
    return next((draft for reading in readings[:1] for draft in reversed(reading.drafts) if draft is not None), None)


def _targets(prices: Sequence[float], n: int) -> list[tuple[float, int, float]]:
    """Return the numbers of counts that words may fill, each with its whole price before and the laws broken after it.

    The likeliest come first; without slots (n is 0) any number of events breaks no law.
    """
    return sorted(
        (price + HEAVY * cost, counts, cost)
        for counts, price in enumerate(prices)
        if price < inf and (counts or n)
        for cost in [_missing(n - counts) if counts < n else LEFT_OVER * (counts - n) if n else 0.0]
    )


def _missing(counts: int) -> float:
    """Return what it costs that so many counts are empty."""
    return EMPTY + EMPTY_MORE * (counts - 1) if counts > 0 else 0.0


def fills(item_text: Sequence[Token], n: int, gloss: Gloss | None = None) -> float:
    """Return how badly words fill so many counts, by a quick estimate: 0 where they fit."""
    prices = _prices(written_out(item_text), gloss or Gloss())
    costs = [
        price / HEAVY
        + 0.9 * (price % HEAVY if price < HEAVY else 0.0)
        + (_missing(n - counts) if counts < n else LEFT_OVER * (counts - n))
        for counts, price in enumerate(prices)
        if price < inf
    ]
    return min(costs, default=_missing(n))


@lru_cache(maxsize=8192)
def _prices(text: tuple[Token, ...], gloss: Gloss) -> tuple[float, ...]:
    """Return for each number of counts from 0 on what it costs that the words fill so many."""
    prices = tuple(prices_to_go(_offbeat(_clauses(text, gloss)), 20)[0])
    if listed := with_feet_behind(_clauses(text, gloss)):
        dearest = (price + _LED for price in prices_to_go(_offbeat(listed), 20)[0])
        prices = tuple(map(min, prices, dearest))
    if named := _with_first_foot(text, gloss):
        prices = tuple(map(min, prices, prices_to_go(_offbeat(named), 20)[0]))
    if (loosely := written_out_loosely(text)) != text:
        dearest = (price + _LED for price in prices_to_go(_offbeat(_clauses(loosely, gloss)), 20)[0])
        prices = tuple(map(min, prices, dearest))
    for apart in _titles_apart(text, gloss):
        dearer = (price + _TITLED for price in prices_to_go(_offbeat(apart), 20)[0])
        prices = tuple(map(min, prices, dearer))
    return prices


@lru_cache(maxsize=4096)
def _titles_apart(text: tuple[Token, ...], gloss: Gloss) -> tuple[tuple[Clause, ...], ...]:
    """Return the clauses of words that open with a title, each way of taking it; none of other words."""
    return tuple(clauses_of(apart)[:_MOST_CLAUSES] for apart in titles_apart(_lexes(text, gloss)))


@lru_cache(maxsize=4096)
def _with_first_foot(text: tuple[Token, ...], gloss: Gloss) -> tuple[Clause, ...]:
    """Return the clauses of words that tell the first foot of a figure behind a comma; none of other words."""
    lexes = _lexes(text, gloss)
    joined = with_first_foot(lexes)
    return clauses_of(joined)[:_MOST_CLAUSES] if joined != lexes else ()


@lru_cache(maxsize=4096)
def _lexes(text: tuple[Token, ...], gloss: Gloss) -> tuple[Lex, ...]:
    return with_explained(lexemes(text, gloss.short))


@lru_cache(maxsize=4096)
def _clauses(text: tuple[Token, ...], gloss: Gloss) -> tuple[Clause, ...]:
    abreast = with_feet_abreast(text, lambda words: lexemes(words, gloss.short))
    lexes = without_turns_told_again(_lexes(abreast, gloss))
    return clauses_of(lexes if gloss.used is None else with_strange(lexes, gloss.used))[:_MOST_CLAUSES]


def _reading(path: Path, slots: Sequence[Slot], cost: float) -> Reading:
    drafts = _on_their_counts(path, slots)
    n = len(slots)
    if n:
        drafts = (*drafts[:n], *(None,) * (n - len(drafts)))
    # Where steps are left over, no words that were passed over can have told one that is missing.
    lacks = cost and len(path.drafts) < n
    waits = path.waiting.turns[0] if path.waiting else Fraction(0)
    return Reading(
        drafts=drafts,
        breaches=round(path.breaches + cost, 4),
        preference=round(path.preference + (_WAITS if path.waiting else 0.0), 4),
        unread=path.unread or (path.chatter if lacks else ()),
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
    if not targets and placed.turns:
        # "... and on 7 quarter left, left forward": the step of that count is told behind its turn.
        ahead = range(placed.last, min(len(drafts), len(slots)))
        targets = [index for index in ahead if slots[index].label in wanted and drafts[index] is not None]
        turning = [index for index in targets if _turns(drafts[index])]
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
