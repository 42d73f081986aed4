"""Back references: "repeat section 1 on the other foot", "do that once more", "same again but finish with a touch".

An item whose words point back is given the drafts of the items that it points to, as said and mirrored; what the
words change at the end ("finish with a touch") is read and put in the place of the last steps. The search then
takes what fits.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.dance.figures import moves
from trainer.routine import Span
from trainer.sheet.prose.header.gloss import Gloss
from trainer.sheet.prose.heads.referring_words import POINTS, SECTION
from trainer.sheet.prose.items.phrases import fills, item_readings
from trainer.sheet.prose.items.pointing import names_a_foot_only, tells_itself
from trainer.sheet.prose.items.turned_again import turned_again
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.search.paths import mirrored
from trainer.sheet.prose.words import Draft, Item, Reading, Slot, Token
from trainer.terms import Foot

_MIRROR = re.compile(
    r"\b(?:other (?:foot|side|way|feet|direction|leg)|opposite|mirror\w*|reverse\w*|vice versa|"
    r"(?:with|on|to|starting|start|leading|from|beginning|begin|for|going|using|ditto|same|again)(?: with| on)?(?: the|"
    r" your)? (?:left|lf|l)\b|left (?:foot )?(?:lead|first))"
)
_COUNTS = re.compile(
    r"\b(?:counts?|cts?|beats?|the first|the last|first|last|steps) (\d+)(?: ?(?:-|to|through|"
    r"&) ?(\d+))?(?: (?:counts|beats))?\b|"
    r"^\W*(?:(?:repeats?|again|same|as|like|just|exactly|do|dance|redo|one|once|more|time|counts?|the|all|of|in|on|for|"
    r"steps|ditto) )+(\d+)(?: ?(?:,|and|&) ?\d+)* ?(?:-|,|and|&|to) ?(\d+)\b"
)
_NUMBERED = re.compile(
    r"^\W*(?:(?:repeat|redo|do|dance|again|the|same|as|like|in|steps|of|exactly|just|see) )+(?:no ?\. ?|number |# ?)?"
    r"(\d|[a-h])(?= ?(?:$|[.;!)(]|,(?! ?\d)|:(?!\d)|again|but|with|on|to the|starting|except))"
)
"""A section that is named by its number alone: "repeat 2", "same as 1, but ..."."""
_BARS = re.compile(r"\bbars? (\d+)(?: ?(?:-|to|&|and|through) ?(\d+))?\b")
_WALTZ = 6
_LETTERS = "abcdefgh"
_NUMBERS = {
    "one": 1, "first": 1, "1 st": 1, "two": 2, "second": 2, "2 nd": 2, "three": 3, "third": 3, "3 rd": 3, "four": 4,
    "fourth": 4, "4 th": 4, "five": 5, "fifth": 5, "six": 6, "sixth": 6, "seven": 7, "eight": 8,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Pointer:
    """What an item points back to."""

    first: int
    """Index of the first slot of the block pointed to."""
    last: int
    mirror: bool | None
    """None: not said, either may be meant."""
    change: tuple[Token, ...]
    """The words that change the end; empty where all is the same."""


def with_references(
    items: Sequence[Item], readings: Sequence[tuple[Reading, ...]], bounds: Sequence[int], gloss: Gloss, phrase: int = 8
) -> tuple[list[Item], list[tuple[Reading, ...]]]:
    """Return the items and their readings, with more readings for the items that point back.

    `bounds` are the beats at which sections begin. An item over a bare range of counts takes over the slots of what it
    points to.
    """
    slots: list[Slot] = []
    drafts: list[Draft | None] = []
    new_items: list[Item] = []
    new_readings: list[tuple[Reading, ...]] = []
    pointed = False
    for item, own in zip(items, readings, strict=True):
        pointer = _pointer(item, slots, bounds, 3 if phrase == _WALTZ else 4, on=pointed)
        found: tuple[Reading, ...] = ()
        if (
            pointer is not None
            and not _spelled_out(item)
            and not tells_itself(item, own, drafts[pointer.first : pointer.last])
        ):
            item, found = _expanded(item, pointer, slots, drafts, gloss, phrase)
        pointed = bool(found)
        kept = tuple(reading for reading in own if len(reading.drafts) == len(item.slots))
        if _ONLY_THE_SAME.match(" ".join(token.low for token in item.text)):
            kept = tuple(_dearer(reading) for reading in kept)
        choices = (*found, *kept) if found else own
        new_items.append(item)
        new_readings.append(choices)
        slots += item.slots
        best = _likeliest(choices).drafts if choices else (None,) * len(item.slots)
        drafts += best if len(best) == len(item.slots) else (None,) * len(item.slots)
    return new_items, new_readings


def _likeliest(choices: Sequence[Reading]) -> Reading:
    """Return the first reading in which no foot steps that carries the weight already, else the first."""
    best = [one for one in choices if one.breaches <= choices[0].breaches]
    return next((one for one in best if _steps_freely(one)), choices[0])


def _steps_freely(reading: Reading) -> bool:
    weight: Foot | None = None
    for draft in reading.drafts:
        foot = draft.foot if draft is not None else None
        if draft is None or foot not in (Foot.RIGHT, Foot.LEFT):
            weight = None
            continue
        rule = moves()[draft.moves[0]].weight
        if foot is weight and rule in ("takes", "none"):
            return False
        if rule in ("takes", "none"):
            weight = foot if rule == "takes" and draft.weight in (None, foot.value) else foot.mirrored
        else:
            weight = None
    return True


def _dearer(reading: Reading) -> Reading:
    """Return a reading of words that point back as if they told steps themselves."""
    return replace(reading, preference=reading.preference + _TOLD_ITSELF)


_TOLD_ITSELF = 0.4
_ONLY_THE_SAME = re.compile(
    r"^\W*(?:and |then |now |do |dance |just |exactly )*(?:the |all the )?(?:very )?(?:same|ditto|repeat)\b"
    r"(?: \w+){0,2}(?: counts?| steps?| thing)?"
    r"(?: (?:to|on|with|but|again|from|for|of|the|other|left|right|side|foot))*\W*$"
)
"""Words that say nothing but that steps are danced again, and on which foot."""


def _spelled_out(item: Item) -> bool:
    """Whether words point back only to announce steps that are told: "the same on the other foot: left side rock"."""
    colon = next((at for at, token in enumerate(item.text) if token.text == ":"), 0)
    if not colon or not _ONLY_THE_SAME.match(" ".join(token.low for token in item.text[:colon])):
        return False
    told = item.text[colon + 1 :]
    steps = any(token.low in STEP_WORDS - _FEET for token in told)
    return steps and len(told) > 1 and fills(told, len(item.slots)) < _FILLS


_FEET = {"right", "left", "r", "l", "rf", "lf", "foot"}
_FILLS = 0.6
"""So well words fill the counts that tell the steps themselves."""


def _pointer(item: Item, slots: Sequence[Slot], bounds: Sequence[int], bar: int, *, on: bool) -> _Pointer | None:
    """Return what an item points to; `on` says that the one before points back, so that a foot alone does too."""
    words = " ".join(token.low for token in item.text)
    points = POINTS.search(words) or (on and names_a_foot_only(item.text))
    if not slots or not item.slots or not points:
        return None
    place = _in_bars(words, item, slots, bar) or _place(words, item, slots, bounds)
    if place is None:
        return None
    first, last = place
    mirror: bool | None = True if _MIRROR.search(words) else None
    return _Pointer(first, last, mirror, _change(item.text))


def _in_bars(words: str, item: Item, slots: Sequence[Slot], bar: int) -> tuple[int, int] | None:
    """Return the slots of named bars, numbered through the dance: "repeat bars 3 and 4"."""
    named = _BARS.search(words)
    if named is None:
        return None
    first, last = int(named[1]), int(named[2] or named[1])
    if not 0 < first <= last or last * bar > item.slots[0].beat:
        return None
    return _slots_in(slots, Fraction((first - 1) * bar), Fraction(last * bar))


def _place(words: str, item: Item, slots: Sequence[Slot], bounds: Sequence[int]) -> tuple[int, int] | None:
    """Return the slots pointed to: a named section, named counts of this section, else what lies just before."""
    begins = item.slots[0].beat
    named = SECTION.search(words) or _NUMBERED.search(words)
    if named:
        word = (named[1] or named[named.re.groups] or "").strip()
        number = int(word[-1]) if word[-1:].isdecimal() else _NUMBERS.get(word, 0) or _LETTERS.find(word or "?") + 1
        here = sum(bound <= begins for bound in bounds)
        number = here - 1 if word in ("last", "previous") else number
        if 1 <= number <= len(bounds) and number < here + (begins > bounds[here - 1]):
            upto = bounds[number] if number < len(bounds) else int(begins)
            return _slots_in(slots, Fraction(bounds[number - 1]), Fraction(min(upto, int(begins))))
    counted = _COUNTS.search(words)
    if counted:
        low, high = int(counted[1] or counted[3]), int(counted[2] or counted[4] or 0)
        home = max((bound for bound in bounds if bound <= begins), default=0)
        if not high:
            return _slots_in(slots, begins - low, begins)
        if home + high > begins and high <= begins:
            # "Repeat 17-20" on 21-24 of a sheet that counts on through the dance.
            home = 0
        return _slots_in(slots, Fraction(home + low - 1), Fraction(home + high))
    length = int(item.slots[-1].beat // 1) + 1 - int(begins // 1)
    return _slots_in(slots, Fraction(int(begins // 1) - length), Fraction(int(begins // 1)))


def _slots_in(slots: Sequence[Slot], low: Fraction, high: Fraction) -> tuple[int, int] | None:
    inside = [place for place, slot in enumerate(slots) if low <= slot.beat < high]
    return (inside[0], inside[-1] + 1) if inside else None


def _change(text: Sequence[Token]) -> tuple[Token, ...]:
    """Return the words after "but", "finish with" and the like."""
    for index, token in enumerate(text):
        if token.low in ("but", "except", "finish", "finishing", "ending", "instead") and index:
            rest = [
                t
                for t in text[index + 1 :]
                if t.low not in ("with", "on", "the", "a", "this", "time", "finish", "end", "ending")
            ]
            return () if all(t.low in _MIRRORING or t.kind == "mark" for t in rest) else tuple(_without_replaced(rest))
    return ()


_MIRRORING = {
    "to", "left", "right", "lf", "rf", "l", "r", "foot", "leg", "side", "way", "other", "opposite", "begin",
    "beginning", "start", "starting", "leading", "lead", "first", "from", "mirrored", "reversed", "direction", "feet",
    "with", "now", "and",
}  # fmt: skip
"""Words of a change that says no more than that the other foot dances it."""


def _without_replaced(change: Sequence[Token]) -> Sequence[Token]:
    """Return the words of a change without the step that it replaces: "instead of the touch close left"."""
    low = [token.low for token in change]
    first = low.index("instead") if "instead" in low else -1
    if first < 0 or low[first + 1 : first + 2] != ["of"]:
        return change
    if first > 1:
        return change[:first]
    after = change[first + 3 :]
    return after[1:] if after and after[0].text == "," else after


def _expanded(
    item: Item,
    pointer: _Pointer,
    slots: Sequence[Slot],
    drafts: Sequence[Draft | None],
    gloss: Gloss,
    phrase: int,
) -> tuple[Item, tuple[Reading, ...]]:
    source = list(drafts[pointer.first : pointer.last])
    pattern = slots[pointer.first : pointer.last]
    shift = Fraction(int(item.slots[0].beat // 1) - int(pattern[0].beat // 1))
    plain = all(slot.label not in ("e", "&", "a") for slot in item.slots)
    if len(source) != len(item.slots):
        if not plain:
            return item, ()
        item = Item(tuple(moved(slot, shift, phrase) for slot in pattern), item.text, item.span)
    clean = [without_facing(draft, item.span) for draft in source]
    swapped = [draft and _opposite(draft) for draft in clean]
    ways = [(clean, 0.0), (swapped, 0.05)] if pointer.mirror is None else [(swapped, 0.0), (clean, 0.6)]
    ends = [token.value for token in item.text if token.kind == "facing"]
    readings = []
    for way, price in ways:
        way = list(way)
        if ends and way and way[-1] is not None:
            way[-1] = replace(way[-1], facing=ends[-1], facing_span=item.span)
        readings.append(Reading(tuple(way), 0.0, 0.1 + price))
        if (turned := turned_again(way, item.slots, item.text, gloss)) is not None:
            # A turn that is told of one of the steps is no more the plain way.
            readings[-1:] = [Reading(turned, 0.0, price)]
        if pointer.change:
            readings = _changed(way, price, pointer.change, item, gloss) + readings
    return item, tuple(readings)


def moved(slot: Slot, shift: Fraction, phrase: int) -> Slot:
    """Return a slot so many beats later, called as it is there."""
    beat = slot.beat + shift
    return Slot(slot.label if slot.label in ("e", "&", "a") else label_of(int(beat) % phrase + 1), beat)


def _changed(way: list[Draft | None], price: float, change: Sequence[Token], item: Item, gloss: Gloss) -> list[Reading]:
    """Return readings with the last steps danced as the changing words say."""
    readings = []
    for length in (1, 2, 3):
        if length >= len(way):
            break
        tail = Item(item.slots[-length:], tuple(change), item.span)
        readings += [
            Reading((*way[:-length], *reading.drafts), 0.0, 0.1 * length + price + reading.preference)
            for reading in item_readings(tail, gloss)[:2]
            if reading.breaches == 0
        ]
    return readings


def without_facing(draft: Draft | None, span: Span) -> Draft | None:
    """Return a draft told at another place, where it may lead to another facing."""
    return draft and replace(draft, facing=None, facing_span=None, span=span)


def _opposite(draft: Draft) -> Draft:
    """Return a draft seen in a mirror: feet, directions and turns."""
    swapped = mirrored(draft)
    return replace(
        swapped,
        direction=draft.direction.mirrored if draft.direction else None,
        turns=tuple(-turn for turn in draft.turns),
        then=-draft.then,
        also=tuple((foot, move, way.mirrored if way else None) for foot, move, way in swapped.also),
    )
