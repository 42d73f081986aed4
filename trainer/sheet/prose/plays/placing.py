"""Where extras are danced that a sheet tells apart from its play: "the tag comes after the second B".

An extra that the play names itself is danced where it stands there; what is said of its place again is no news.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.sheet.prose.plays.bodies import body_in
from trainer.sheet.prose.plays.definitions import Below, Definition, answer_in, counts_before, counts_in, opening_of
from trainer.sheet.prose.plays.paragraphs import Sentence, closes_with_counts, is_steps
from trainer.sheet.prose.plays.symbols import Named, Symbol, symbols, text_of
from trainer.sheet.prose.plays.told_items import Play, Told

_AFTER = {"after", "following", "behind"}
_EACH = {"each", "every", "all", "both"}
_LAST = {"last", "final"}
_LEADS = {
    "the", "part", "parts", "and", ",", "&", "of", "end", "at", "again", "a", "time", "you", "dance", "danced", "only",
    "full", "whole", "also", "then", "or", "is", "once", "more", "but", "one", "pass", "round", "chorus", "+",
    "in", "into", "counts", "beats",
} | _AFTER | {"before"}  # fmt: skip
_DENIED = {"no", "not", "never", "without", "nor"}
_COUNTED = re.compile(r"\b\d+ (?:counts?|beats?) (?:of|in|into)\b")
_BARE = 4
"""Words behind a name that still is a heading."""


@dataclass(slots=True)
class _Place:
    """Items of the play that an extra is danced after or before."""

    items: list[int]
    after: bool
    end: int
    """Index after the words that tell it."""


def places_in(given: Sequence[Symbol], play: Play) -> tuple[list[int], int] | None:
    """Return before which items of the play something is danced, as a sentence says, and where it says so at last.

    None: it names no place, or one that the play has not.
    """
    found: list[int] = []
    end = 0
    at = 0
    while at < len(given):
        if given[at].text == "between":
            place = _between(given, at + 1, play)
        elif given[at].text in _AFTER or given[at].text == "before" or _is_end_of(given, at):
            place = _listed(given, at + 1, play, after=given[at].text != "before")
        else:
            at += 1
            continue
        if place is None:
            at += 1
            continue
        found += [item + place.after for item in place.items]
        end = at = max(place.end, at + 1)
    return (sorted(set(found)), end) if found else None


def _is_end_of(given: Sequence[Symbol], at: int) -> bool:
    return given[at].text == "end" and at + 1 < len(given) and given[at + 1].text == "of"


def _listed(given: Sequence[Symbol], at: int, play: Play, *, after: bool) -> _Place | None:
    """Read "the second B and the fourth B", "every B but the last", "the first and third A", "the fifth part"."""
    items: list[int] = []
    numbers: list[int] = []
    each = False
    end = at
    while at < len(given):
        one = given[at]
        if one.text.startswith("#"):
            numbers.append(int(one.text[1:]))
        elif one.text in _LAST:
            numbers.append(-1)
        elif one.text in _EACH:
            each = True
        elif one.part >= 0:
            items += _of_part(play, one.part, numbers, each=each)
            end, numbers = at + 1, []
        elif one.text in ("except", "but") and each:
            left = _listed(given, at + 1, play, after=after)
            named = {int(text.text[1:]) for text in given[at : at + 5] if text.text.startswith("#")}
            if left is None and any(text.text in _LAST for text in given[at : at + 5]):
                items = items[:-1]
            elif left is None:
                items = [item for place, item in enumerate(items, 1) if place not in named]
            else:
                items = [item for item in items if item not in left.items]
            return _Place(items, after, max(end, left.end if left else at))
        elif one.text not in _LEADS and not one.text.isdecimal():
            break
        at += 1
    return _Place(items, after, end) if items else None


def _of_part(play: Play, part: int, numbers: Sequence[int], *, each: bool) -> list[int]:
    """The items that are a part, all of them or those of some numbers."""
    danced = [at for at, item in enumerate(play.items) if item.part == part]
    if each or not numbers:
        return danced
    return [danced[number - 1 if number > 0 else -1] for number in numbers if number <= len(danced) and danced]


def _between(given: Sequence[Symbol], at: int, play: Play) -> _Place | None:
    """Read "the last two B's", "the second and third B", "the second B and the third A"."""
    ahead = given[at : at + 12]
    parts = [index for index, one in enumerate(ahead) if one.part >= 0][:2]
    if not parts:
        return None
    numbers = [int(one.text[1:]) for one in ahead[: parts[0]] if one.text.startswith("#")]
    danced = _of_part(play, ahead[parts[0]].part, [], each=True)
    last = any(one.text in _LAST for one in ahead[: parts[0]])
    two = any(one.text == "2" for one in ahead[: parts[0]])
    if two and len(danced) > 1:
        return _Place([danced[-1] if last else danced[1]], after=False, end=at + parts[0] + 1)
    if len(numbers) == 2 and max(numbers) <= len(danced):
        return _Place([danced[max(numbers) - 1]], after=False, end=at + parts[0] + 1)
    if len(parts) < 2:
        return None
    other = ahead[parts[1]].part
    end = at + parts[1] + 1
    first = _of_part(play, ahead[parts[0]].part, numbers or ([-1] if last else []), each=False)
    return _Place(
        [item for item in first if item + 1 < len(play.items) and play.items[item + 1].part == other], True, end
    )


@dataclass(slots=True)
class Apart:
    """What a sentence apart from the play says of an extra."""

    definition: Definition | None
    sentences: list[Sentence]
    """The sentences that were understood so."""


def placed(group: Sequence[Sentence], at: int, below: Below, play: Play, named: Named) -> Apart | None:
    """Take a sentence that says where an extra is danced: put it into the play if it is not there, find its steps.

    The extra is named in the sentence, or by the heading or the question before it. None: the sentence says no place,
    or one that the play contradicts.
    """
    sentence = group[at]
    given = symbols(sentence.tokens, named)
    told = places_in(given, play)
    if told is None or any(one.text in _DENIED for one in given[: told[1]]):
        return None
    places, end = told
    heading = None
    spoken = next((one for one in given if one.extra is not None), None)
    if spoken is None:
        spoken, heading = _headed(group[at - 1] if at else None, named), group[at - 1]
    if spoken is None or spoken.extra is None:
        return None
    extra = spoken.extra
    danced = [index for index, item in enumerate(play.items) if item.extra == extra]
    inside = any(one.text.isdecimal() for one in given[:end]) and given[end - 1].part >= 0
    if danced and not any(place in danced or place - 1 in danced for place in places):
        return None
    if not danced and inside and _COUNTED.search(text_of(given[:end]).text):
        return None
    definition, taken = _steps_of(sentence, group[at + 1 :], given[end:], below, named, spoken, heading)
    if not danced:
        for place in sorted(places, reverse=True):
            play.items.insert(place, Told(spoken.token, extra=extra))
    asked = definition is not None or (heading is not None and heading.tokens[-1].text == "?")
    understood = [sentence, *group[at + 1 : at + 1 + taken], *([heading] if heading is not None and asked else [])]
    return Apart(definition, understood)


def _headed(before: Sentence | None, named: Named) -> Symbol | None:
    """The extra that the heading or the question before a sentence names."""
    opening = opening_of(before.tokens, named) if before is not None else None
    if opening is None or opening.parts or not (opening.asked or len(opening.given) - opening.end < _BARE):
        return None
    return opening.given[opening.at]


def _steps_of(
    sentence: Sentence,
    more: Sequence[Sentence],
    rest: Sequence[Symbol],
    below: Below,
    named: Named,
    spoken: Symbol,
    heading: Sentence | None,
) -> tuple[Definition | None, int]:
    """Return the steps that stand behind a place, in the next sentences or in the lines below."""
    extra, head = spoken.extra, (spoken.token,)
    assert extra is not None
    counts = counts_in(sentence.tokens, named)
    tokens = [one.token for one in rest]
    if body := body_in(tokens):
        return Definition(extra, head, body, counts_before(sentence.tokens, body, named), sentence.place), 0
    if answer := answer_in(more, below, named):
        return Definition(extra, head, answer[0], counts or answer[1], sentence.place), answer[2]
    line = below(0)
    if line is not None and (is_steps(line) or closes_with_counts(line)):
        return Definition(extra, head, (), counts, (heading or sentence).place), 0
    return None, 0
