"""Sentences of a story that tell two parts by turns: "three As, with a B after each of them", "A and B alternate"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.repeats import many_of
from trainer.sheet.prose.plays.story_clauses import clauses_of, items_in, so_many, times_behind
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Told

_AFTER_EACH = re.compile(
    r"\b(?:after|behind|following|to|with|for) (?:each|every)(?: single)?(?: 1| one)?(?: of (?:them|these|those))?\b|"
    r"\beach(?: 1| one)? of (?:them|these|those)\b|\beach (?:is |being |gets |has )"
)
_IN_TURN = re.compile(r"\b(?:in turns?|alternat\w+|by turns|turn about|turn and turn)\b")
_OF_EACH = re.compile(r"\b(?:(\d+) times|(twice|thrice)|(\d+)) (?:of )?(?:each|apiece)\b")
_TWO = 2


def by_turns(text: Text, around: Around) -> list[Told]:
    """Return the items of a sentence that tells two parts by turns and how often; none of another."""
    parts = [at for at in items_in(text, around, 0, len(text.symbols)) if text.symbols[at].part >= 0]
    return _after_each(text, around, parts) or _in_turn(text, parts)


def _after_each(text: Text, around: Around, parts: Sequence[int]) -> list[Told]:
    """Read "A comes three times, and B after each"."""
    found = _AFTER_EACH.search(text.text)
    alone = len(parts) == _TWO and not any(one.extra for one in text.symbols)
    if found is None or not alone or text.symbols[parts[0]].part == text.symbols[parts[1]].part:
        return []
    first = parts[0]
    end = next(last for begin, last in clauses_of(text.symbols) if begin <= first < last)
    many = max(so_many(text, around, first), times_behind(text.of(first + 1, end)))
    return _told(text, parts, many) if many > 1 and text.starts[first] < found.start() else []


def _in_turn(text: Text, parts: Sequence[int]) -> list[Told]:
    """Read "A and B are danced in turn, three times each, and a last A is added"."""
    found, each = _IN_TURN.search(text.text), _OF_EACH.search(text.text)
    if found is None or each is None or sum(text.starts[at] < found.start() for at in parts) != _TWO:
        return []
    return _told(text, parts[:_TWO], many_of(each.groups())) + _told(text, parts[_TWO:], 1)


def _told(text: Text, parts: Sequence[int], times: int) -> list[Told]:
    return [Told(text.symbols[at].token, text.symbols[at].part) for _ in range(times) for at in parts]


def says_by_turns(text: Text) -> bool:
    """Whether a sentence says of the parts told before it that they alternate."""
    return _IN_TURN.search(text.text) is not None


def alternated(told: Sequence[Told]) -> list[Told]:
    """Return the items of two parts by turns, the more frequent first; none where there are too many of one.

    "A is danced four times and B three times. The two alternate."
    """
    parts = list(dict.fromkeys(item.part for item in told))
    if len(parts) != _TWO or -1 in parts:
        return []
    first, second = ([item for item in told if item.part == part] for part in parts)
    if len(first) < len(second):
        first, second = second, first
    if len(first) - len(second) > 1:
        return []
    mixed = [item for pair in zip(first, second, strict=False) for item in pair]
    return [*mixed, *first[len(second) :]]
