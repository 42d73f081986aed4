"""An extra that is danced within another: "Long tag: the short tag (1-4), cross (5) ...", "Tag 2: tag 1, then sway".

Its steps are those that were read of it. Common practice, no source.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.items.references import moved, without_facing
from trainer.sheet.prose.search.paths import Path
from trainer.sheet.prose.words import Item, Reading, Token

_LEADS = {"the", "do", "dance", "repeat", "first", "all", "of", "a", "your"}
_JOINS = {",", "then", "and", "+", "plus", ".", ";", "followed", "by", "&"}
_EXTRAS = {"tag", "bridge"}

Readings = tuple[Reading, ...]


def with_extras_within(
    items: Sequence[Item],
    readings: Sequence[Readings],
    known: Mapping[str, Path],
    phrase: int,
    read_item: Callable[[Item], Readings],
) -> tuple[list[Item], list[Readings]]:
    """Return items and their readings, those that name an extra which was read with its steps; `known` is by names."""
    told: list[Item] = []
    read: list[Readings] = []
    for item, own in zip(items, readings, strict=True):
        name, last = _named(item.text)
        path = known.get(name)
        if path is None or not item.slots:
            told.append(item)
            read.append(own)
            continue
        shift = item.slots[0].beat - item.slots[0].beat % 1
        slots = tuple(moved(slot, shift, phrase) for one in path.items for slot in one.slots)
        drafts = tuple(without_facing(draft, item.span) for one in path.readings for draft in one.drafts)
        rest = item.slots[len(slots) :]
        if len(slots) != len(drafts) or bool(rest) != bool(item.text[last:]):
            told.append(item)
            read.append(own)
            continue
        told.append(replace(item, slots=slots))
        read.append((Reading(drafts),))
        if rest:
            told.append(Item(rest, item.text[last:], item.text[last].span))
            read.append(read_item(told[-1]))
    return told, read


def _named(text: Sequence[Token]) -> tuple[str, int]:
    """Return the name of the extra that words begin with, "tag 1", and where what is danced after it begins."""
    at = next((at for at, token in enumerate(text) if token.low not in _LEADS), len(text))
    if at >= len(text) or text[at].low not in _EXTRAS:
        return "", 0
    end = at + 1
    numbered = end < len(text) and text[end].kind == "number"
    name = f"{text[at].low} {text[end].text}" if numbered else text[at].low
    end += numbered
    last = end
    while last < len(text) and text[last].low in _JOINS:
        last += 1
    return (name, last) if last > end or end == len(text) else ("", 0)
