"""Half beats that a list under whole counts only implies: "1-4 side, hold & close, side", "1-4 walk, walk, shuffle".

A range heads steps that are one more to the count than it holds. What follows an & is danced on the half beat, and a
figure takes the counts that the table gives it; of the ways to lay the steps so on just the counts of the range the
likeliest is taken.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.dance.counts import is_number, label_of, offset
from trainer.dance.figures import moves
from trainer.sheet.prose.items.phrases import Gloss, fills, item_readings
from trainer.sheet.prose.items.unmarked import groups_of, patterns_of
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Draft, Item, Reading, Slot, Token
from trainer.terms import Feel, Move

_FITS = 0.4
"""Words that fill their counts for less need no other."""
_FAILS = 1.0
"""Words that fill their counts for so much break a law there."""
_NEARLY = 0.03
"""So little worse words that name their halves may fill the counts with them."""
_EACH = 0.1
"""What each half beat more costs: a figure is not danced once by its name and once as it is spelled out."""
_MOST_HALVES = 4
_MOST_COUNTS = 16
_PARTING = (",", ";", ".", ":", ">", "(", BREAK)
_TURNING = {"turn", "turning", "quarter", "half", "turns"}
_OF_TURNS = _TURNING | {
    "right", "left", "r", "l", "to", "the", "a", "make", "making", "another", "further", "of", "full", "with", "and",
}  # fmt: skip
_SOUNDS = {"clap", "claps", "snap", "snaps", "click", "clicks"}
_TURNS = {Move.TURN, Move.PIVOT}


def with_listed_halves(item: Item, gloss: Gloss, feel: Feel) -> Item:
    """Return an item with the half beats among its counts that its words need."""
    n = len(item.slots)
    beat = offset("&", feel)
    if beat is None or not 0 < n <= _MOST_COUNTS or not all(is_number(slot.label) for slot in item.slots):
        return item
    now = fills(item.text, n, gloss)
    if _titled(item.text, n, gloss):
        return item
    halves = _halves(item.text, spoken=now >= _FITS and n > 1, added=now >= _FITS)
    if (now < _FITS and not halves) or (now < _FAILS and halves and _lead_to_sounds(item.text, halves)):
        return item
    best: tuple[float, tuple[int, ...]] | None = None
    for more in range(1, _MOST_HALVES + 1):
        if fills(item.text, n + more, gloss) > min(_FITS, now + _NEARLY):
            continue
        for reading in _readings(item, n + more, gloss):
            for unheard, layout in _layouts(reading.drafts, halves, n, feel):
                if now < _FITS and (unheard or not _needs(reading.drafts, layout)):
                    continue
                price = reading.preference + unheard * _FITS + more * _EACH
                if best is None or price < best[0]:
                    best = (price, layout)
    if best is None or best[0] >= _FAILS or best[0] > now + _NEARLY + _MOST_HALVES * _EACH:
        return item
    return replace(item, slots=tuple(_slots(item.slots, best[1], beat)))


def _titled(text: Sequence[Token], counts: int, gloss: Gloss) -> bool:
    """Whether steps behind a colon fill the counts by themselves: an "and" of the title before it is no half beat."""
    colon = next((at for at, token in enumerate(text) if token.text == ":"), 0)
    joined = any(token.low in ("and", "&", "+") for token in text[:colon])
    return joined and fills(text[colon + 1 :], counts, gloss) < _FITS


def _halves(text: Sequence[Token], *, spoken: bool, added: bool) -> list[Token]:
    """Return the words of a text that may stand for half beats: each & within it, and where `spoken` each "and".

    A plus does so where `added`: "step forward + full spiral" fills its count.
    """
    return [
        token
        for at, token in enumerate(text)
        if at
        and (token.kind == "amp" or (added and token.text == "+") or (spoken and token.low == "and"))
        and not _turns(text[:at])
    ]


def _turns(words: Sequence[Token]) -> bool:
    """Whether words end with no more than a turn, which is danced with the step after it: "turn 1/4 right &"."""
    start = next((at + 1 for at in range(len(words) - 1, -1, -1) if words[at].text in _PARTING), 0)
    clause = words[start:]
    return any(token.kind == "fraction" or token.low in _TURNING for token in clause) and all(
        token.kind in ("fraction", "number", "facing") or token.low in _OF_TURNS for token in clause
    )


def _readings(item: Item, counts: int, gloss: Gloss) -> Iterator[Reading]:
    slots = tuple(Slot(label_of(count % 8 + 1), Fraction(count)) for count in range(counts))
    for reading in item_readings(Item(slots, item.text, item.span), gloss, most=4):
        if not reading.breaches and None not in reading.drafts:
            yield reading


def _layouts(
    drafts: Sequence[Draft | None], halves: Sequence[Token], counts: int, feel: Feel
) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the ways to lay drafts on counts and half beats: how many & they leave unheard, and which are halves."""
    led = _led(drafts, halves)
    surplus = len(drafts) - counts
    if len(led) == surplus:
        yield len(halves) - len(led), tuple(led)
    groups = groups_of(drafts)
    if any(name for name, _ in groups):
        for found in _patterned(groups, 0, led, surplus, feel):
            yield len(set(led) - set(found)), found


def _led(drafts: Sequence[Draft | None], halves: Sequence[Token]) -> list[int]:
    """Return which drafts are the first told after an &."""
    places = [(draft.span.line, draft.span.column) if draft is not None and draft.span else None for draft in drafts]
    found: list[int] = []
    for half in halves:
        at = next((i for i, place in enumerate(places) if place and place > (half.line, half.column)), 0)
        if at and at not in found and places[at] != places[at - 1]:
            found.append(at)
    return found


def _patterned(
    groups: Sequence[tuple[str, int]], first: int, led: Sequence[int], surplus: int, feel: Feel
) -> Iterator[tuple[int, ...]]:
    """Yield the halves of figures danced to their patterns, and of steps led by an &, so many in all."""
    if not groups:
        if not surplus:
            yield ()
        return
    name, steps = groups[0]
    own = tuple(at for at in led if first <= at < first + steps)
    choices = [own] if own or not name else []
    if name:
        choices += [
            tuple(first + at for at, label in enumerate(pattern) if label == "&")
            for pattern in patterns_of(name, steps)
            if all(is_number(label) or label == "&" for label in pattern) and is_number(pattern[0])
        ]
    for halves in dict.fromkeys(choices):
        if len(halves) <= surplus:
            for rest in _patterned(groups[1:], first + steps, led, surplus - len(halves), feel):
                yield (*halves, *rest)


def _lead_to_sounds(text: Sequence[Token], halves: Sequence[Token]) -> bool:
    """Whether each "and" leads to a clap, which shares its step's count: "touch and clap, step, touch and clap"."""
    places = {(half.line, half.column) for half in halves}
    after = [then.low for token, then in pairwise(text) if (token.line, token.column) in places]
    return len(after) == len(halves) and all(word in _SOUNDS for word in after)


def _needs(drafts: Sequence[Draft | None], layout: Sequence[int]) -> bool:
    """Whether steps stand on the half beats and before them: what only turns or gestures shares its step's count."""
    lights = [draft is not None and moves()[draft.moves[0]].weight != "takes" for draft in drafts]
    turns = [
        draft is not None and (draft.moves[0] in _TURNS or (draft.figure == "spiral" and draft.foot is None))
        for draft in drafts
    ]
    return not any(lights[at] or turns[at] or turns[at - 1] for at in layout)


def _slots(slots: Sequence[Slot], halves: Sequence[int], beat: Fraction) -> Iterator[Slot]:
    """Yield the counts of a range with half beats at some places."""
    at = 0
    for slot in slots:
        yield slot
        at += 1
        while at in halves:
            yield Slot("&", slot.beat + beat)
            at += 1
