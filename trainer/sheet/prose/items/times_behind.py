"""How often, or on which feet, told behind the steps: "V step; kick ball change, twice", "lock step, scuff, R and L".

What is danced so often may be the last figure, all since the last semicolon, or all of it: steps under a range of whole
counts are written out as often as that where they fill just its counts so. Steps that leave the other foot free are
danced again on the other side. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.dance.counts import is_number
from trainer.dance.figures import moves
from trainer.sheet.prose.items.phrases import Gloss, item_readings
from trainer.sheet.prose.items.unmarked import groups_of, patterns_of
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Draft, Item, Token

_PARTING = {",", ";", ".", ":", "(", ")", "[", "]"}
_CLOSING = {";", ".", ":"}
_TIMES = {"two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}
_OFTEN = re.compile(
    r"^(?:(?:and|then|do|dance|all|of|it|that|this|the|lot|danced|done|both) )*"
    r"(?:twice|(?P<many>[234]|two|three|four) (?:x|times)|x (?P<times>[234])|again|once (?:more|again)|"
    r"repeat(?:ed)?(?: (?:that|this|it|once))?)$"
)
_MIRRORED = re.compile(
    r"^(?:(?:and|then|the|do|dance|repeat|again|it|that|this) )*(?:(?:same|repeat|mirror(?:ed)?|again)"
    r"(?: again| it| that)?(?: (?:on|to|with|for|from))?(?: the)? "
    r"(?:left|right|l|r|other|opposite)(?: (?:side|foot|way))?|"
    r"(?:on |to )?(?:both|each|either) (?:sides?|feet)|(?:left|right|l|r)(?: the)? same|"
    r"(?:on |with )?the other (?:side|foot)|(?<=and )(?:left|right|l|r))$"
)
_FEET = re.compile(r"^(?:first )?(?P<first>r|l|right|left)(?: then| and| &){1,2} (?P<last>r|l|right|left)$")
_OTHER = {"right": "left", "left": "right", "r": "l", "l": "r", "rf": "lf", "lf": "rf"}
_COUNTS = range(4, 17)
_SURE = 0.1
"""Words that fill their counts for less need not be written out."""
_MOST = 3
"""Such words in one item."""


@dataclass(frozen=True, slots=True)
class _Said:
    """Words that tell how often what stands before them is danced."""

    first: int
    last: int
    """The token behind them."""
    times: int = 2
    mirrored: bool = False
    foot: str = ""
    """The foot that it is danced on first, where both are told."""


def with_times_told(item: Item, gloss: Gloss) -> Item:
    """Return an item with steps written out as often as the words behind them say, where they fill its counts so."""
    n = len(item.slots)
    if n not in _COUNTS or not all(is_number(slot.label) for slot in item.slots) or _said(item.text, 0) is None:
        return item
    as_it_stands = item_readings(item, gloss, most=1)
    if any(not one.breaches and one.preference < _SURE for one in as_it_stands):
        return item
    ways = list(dict.fromkeys(_ways(item.text, 0, gloss, _MOST)))
    for usual in (True, False):
        for text in ways:
            if text != item.text and _fills(replace(item, text=text), n, gloss, usual=usual):
                return replace(item, text=text)
    return item


def _ways(text: tuple[Token, ...], start: int, gloss: Gloss, most: int) -> Iterator[tuple[Token, ...]]:
    """Yield the ways to write a text out, the shortest stretches that are danced again first."""
    said = _said(text, start)
    if said is None or not most:
        yield text
        return
    for first in _scopes(text, said.first):
        group = text[first : said.first]
        while group and group[-1].text in _PARTING:
            group = group[:-1]
        if not group:
            continue
        again = _again(group, said, gloss)
        rest = text[said.last :]
        yield from _ways((*text[:first], *again, *rest), first + len(again), gloss, most - 1)


def _said(text: Sequence[Token], start: int) -> _Said | None:
    """Return the first words that say so, behind others, from a token on."""
    ends = [at for at in range(start, len(text)) if text[at].text in _PARTING]
    ends.append(len(text))
    for place, before in enumerate(ends[:-1]):
        for end in ends[place + 1 : place + 3]:
            words = " ".join(token.low for token in text[before + 1 : end] if token.text != ",")
            if before and (found := _meant(words, before, end)):
                return found
    return None


def _meant(words: str, first: int, last: int) -> _Said | None:
    if match := _OFTEN.match(words):
        return _Said(first, last, _TIMES.get(match["many"] or match["times"] or "", 2))
    if _MIRRORED.match(words):
        return _Said(first, last, mirrored=True)
    if (match := _FEET.match(words)) and match["first"][0] != match["last"][0]:
        return _Said(first, last, mirrored=True, foot=match["first"])
    return None


def _scopes(text: Sequence[Token], end: int) -> list[int]:
    """Return where a stretch may begin that is danced again: the last piece, the last sentence, all."""
    last = next((at + 1 for at in range(end - 1, -1, -1) if text[at].text in _PARTING), 0)
    sentence = next((at + 1 for at in range(end - 1, -1, -1) if text[at].text in _CLOSING), 0)
    return list(dict.fromkeys((last, sentence, 0)))


def _again(group: tuple[Token, ...], said: _Said, gloss: Gloss) -> tuple[Token, ...]:
    """Return a stretch as often as it is danced."""
    if said.foot:
        foot = replace(group[0], kind="word", text=said.foot.upper(), low=said.foot, glued=False, value=None)
        group = (foot, *group)
    mirrored = said.mirrored or _changes_feet(group, gloss)
    done = group
    for place in range(1, said.times):
        turned = mirrored and place % 2 == 1
        done = (*done, mark_like(group[-1], ","), *(_other_side(group) if turned else group))
    return done


def _other_side(group: Sequence[Token]) -> Iterator[Token]:
    for token in group:
        other = _OTHER.get(token.low)
        text = other and (other.upper() if token.text.isupper() else other)
        yield replace(token, text=text, low=other) if text and other else token


def _changes_feet(group: tuple[Token, ...], gloss: Gloss) -> bool:
    """Whether steps end with the other foot free than they began with."""
    reading = next(iter(item_readings(Item((), group, group[0].span), gloss, most=1)), None)
    drafts: Sequence[Draft | None] = reading.drafts if reading is not None else ()
    steps = sum(draft is not None and moves()[draft.moves[0]].weight == "takes" for draft in drafts)
    return steps % 2 == 1


def _fills(item: Item, counts: int, gloss: Gloss, *, usual: bool) -> bool:
    """Whether all steps of some words fill so many counts by the patterns of their figures, `usual`: by the first."""
    for reading in item_readings(replace(item, slots=()), gloss, most=4):
        if reading.breaches or None in reading.drafts:
            continue
        sums = {0}
        for name, steps in groups_of(reading.drafts):
            lengths = [sum(map(is_number, pattern)) for pattern in patterns_of(name, steps) if is_number(pattern[0])]
            sums = {before + length for before in sums for length in (lengths[:1] if usual else lengths)}
        if counts in sums:
            return True
    return False
