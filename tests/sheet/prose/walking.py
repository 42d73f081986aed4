"""A dancer who walks an item's readings: the first one that the feet allow, as events.

Written apart from the search of the reader, so that the two can disagree.
"""

from collections.abc import Iterator
from fractions import Fraction

from trainer.dance.figures import moves, pattern
from trainer.routine import Span
from trainer.sheet.prose.items.phrases import Gloss, item_readings
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Draft, Item, Reading, Slot
from trainer.terms import Foot, Label, Move

Event = tuple[Move, str, str, Fraction]
"""Move, acting foot, weight afterwards, signed turn."""

_OTHER = {"R": "L", "L": "R", "B": "B"}


def item(words: str, labels: str, *, line: int = 1) -> Item:
    """Return an item of words and of labels such as "1&2" or "1 & 2"; its beats rise by a half each."""
    spelled: tuple[Label, ...] = tuple(labels.split()) if " " in labels else pattern(labels)  # type: ignore[assignment]
    slots = tuple(Slot(label, Fraction(place, 2)) for place, label in enumerate(spelled))
    tokens = tuple(token for number, text in enumerate(words.split("\n"), line) for token in tokens_of(text, number))
    return Item(slots, tokens, Span(line, 1, 1))


def danced(
    one: Item, weight: str, gloss: Gloss | None = None, before: Draft | None = None
) -> tuple[list[Event], Reading] | None:
    """Return the events of the first reading that breaks no law, and the reading; None where each breaks one."""
    for reading in item_readings(one, gloss or Gloss(), before=before):
        if reading.breaches:
            continue
        events = walked(reading, weight)
        if events is not None:
            return events, reading
    return None


def walked(reading: Reading, weight: str) -> list[Event] | None:
    """Return a reading's events from a weight on, or None where the loaded foot would have to step."""
    return _walked(reading.drafts, weight)


def _walked(drafts: tuple[Draft | None, ...], weight: str) -> list[Event] | None:
    if not drafts:
        return []
    first = drafts[0]
    for event in _steps(first, weight) if first is not None else ():
        rest = _walked(drafts[1:], event[2])
        if rest is not None:
            return [event, *rest]
    return None


def _steps(draft: Draft, weight: str) -> Iterator[Event]:
    for move in draft.moves:
        row = moves()[move]
        foot = draft.foot.value if draft.foot is not None else _free(row.weight, row.footless, weight)
        after = {
            "takes": foot if foot != weight else None,
            "none": (weight if weight != "B" else _OTHER.get(foot, "B")) if foot != weight or foot == "B" else None,
            "same": weight,
            "both": "B",
            "open": foot if row.ends == "foot" and foot in ("R", "L") else weight,
            "still": weight,
        }[row.weight]
        if move is Move.STOMP and foot == weight:
            continue
        if row.weight == "takes" and foot == "B":
            after = "B"
        if draft.weight is not None and row.weight in ("open", "still", "both"):
            after = draft.weight
            if foot == "-" and after != weight and after in ("R", "L"):
                foot = after
        if after is None or (draft.weight is not None and draft.weight != after):
            continue
        if any(gesture is not None and gesture.value == after for gesture, _, _ in draft.also):
            continue
        yield move, foot, after, draft.turns[0]


def _free(rule: str, footless: bool, weight: str) -> str:
    if rule == "still" or (footless and rule == "open" and weight == "B"):
        return Foot.NONE.value
    if rule == "both":
        return "B"
    if rule == "same":
        return weight
    return {"R": "L", "L": "R"}.get(weight, "R")


def told(events: list[Event], *, named: bool = False) -> str:
    """Return events as text: "R/R L/L-1/4"; with their moves "walk:R/R pivot:L/L-1/2"."""
    return " ".join(
        (f"{move.value.replace(' ', '_')}:" if named else "")
        + f"{foot}/{after}"
        + (f"{'+' if turn > 0 else ''}{turn}" if turn else "")
        for move, foot, after, turn in events
    )
