"""Sentences of a story in plainer words: "two complete renditions of part A" is "two complete A"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.sung import SONG_NAMES, forms_of
from trainer.sheet.prose.plays.symbols import Symbol

_PASSES = {
    "rendition", "performance", "run", "repetition", "repeat", "round", "pass", "go", "helping", "dose", "lot",
    "version", "showing", "airing", "time", "outing", "statement", "playing", "portion", "serving", "turn",
}  # fmt: skip
"""What stands for once through a part."""
_ARTICLES = {"the", "a", "an", "part", "parts", "our", "your", "that", "this", "same"}
_FEW = 4
"""So many of a part are told without a word for its passes: "then one of part B"."""
_DESCRIBES = {"full", "whole", "last", "more", "complete", "further"}
_ACTS = {"has", "is", "gets", "comes", "takes", "brings", "by", "with", "stops", "only", "ends", "again", "had"}
_ONLY = {"only", "just", "by", "has", "gets", "with", "but"}
_CLOSES = {".", ",", ";", "!", "and", ")", "of", "again", "after", "behind"}
_SAYS = {"that's", "thats", "which's"}
_IS = {"is", "was", "makes", "will"}
_OWN = {"your", "our", "the", "my", "its"}


def plainer(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Return a sentence without the words for passes of a part, and without what only says that steps are an ending."""
    return _without_names_behind(_filled(_counted(_without_passes(told_once(_behind_a_mistake(given))))))


def told_once(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Take off what a part in brackets is danced to: "the first two verses (part A)"."""
    done: list[Symbol] = []
    at = 0
    while at < len(given):
        opened = given[at].part < 0 and given[at + 1 : at + 2] and given[at + 1].text == "("
        part = _part_behind(given, at + 2) if opened and _singular(given[at]) in SONG_NAMES else 0
        if part and given[part + 1 : part + 2] and given[part + 1].text == ")":
            done.append(given[part])
            at = part + 2
            continue
        done.append(given[at])
        at += 1
    return tuple(done)


def _behind_a_mistake(given: Sequence[Symbol]) -> Sequence[Symbol]:
    """Leave out what was told wrongly: "last week I told you that A comes after this; I was wrong, it is B again"."""
    at = next((at for at in range(1, len(given)) if _is_mistaken(given, at)), 0)
    return given[at + 1 :] if at else given


def _is_mistaken(given: Sequence[Symbol], at: int) -> bool:
    led = {one.text for one in given[max(at - 4, 0) : at]}
    return given[at].text in ("wrong", "mistaken", "mistake") and bool(led & {"was", "had", "got", "is", "am", "my"})


def _counted(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Tell what so many are as so many of it: "the next two dances are Bs", "two are A"."""
    done: list[Symbol] = []
    at = 0
    while at < len(given):
        one = given[at]
        verb = next((on for on in range(at + 1, min(at + 3, len(given))) if given[on].text in ("are", "were")), 0)
        part = _part_behind(given, verb + 1) if verb and one.text.isdecimal() and 1 < int(one.text) <= _FEW else 0
        if part and given[at + 1].part < 0 and not _is_more(given, part):
            done += [one, given[part]]
            at = part + 1
            continue
        done.append(one)
        at += 1
    return tuple(done)


def _is_more(given: Sequence[Symbol], at: int) -> bool:
    """Whether another part is named beside one: "the first three are A, B and B"."""
    after = given[at + 1 : at + 3]
    return any(one.part >= 0 for one in after) or (bool(after) and after[0].text in ("and", "&"))


def _singular(one: Symbol) -> str:
    return min(forms_of(one.text), key=len)


def _filled(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Name the part that a number alone tells of: "the third A is followed by two Bs, and the fourth has only one"."""
    done: list[Symbol] = []
    numbered: Symbol | None = None
    counted: Symbol | None = None
    filled = False
    for at, one in enumerate(given):
        done.append(one)
        if one.part >= 0:
            led = [each.text for each in given[max(at - 3, 0) : at] if each.text not in _DESCRIBES]
            numbered = one if led and led[-1].startswith("#") else numbered
            counted = one if led and led[-1].isdecimal() else counted
        after = given[at + 1].text if at + 1 < len(given) else "."
        led_by = given[at - 1].text if at else ""
        if numbered is not None and one.text.startswith("#") and led_by == "the" and after in _ACTS:
            done.append(replace(numbered, token=one.token, after=one.after))
            filled = True
        elif filled and counted is not None and one.text.isdecimal() and led_by in _ONLY and after in _CLOSES:
            done.append(replace(counted, token=one.token, after=one.after))
    return tuple(done)


def _without_passes(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    done: list[Symbol] = []
    at = 0
    while at < len(given):
        of = at + 1 if _is_pass(given[at]) else at
        part = _part_behind(given, of + 1) if given[of : of + 1] and given[of].text == "of" else 0
        led = done[-1].text if done else ""
        bare = of == at and led.isdecimal() and int(led) <= _FEW and not _is_ordinal(done[-2:-1])
        if part and (of > at or bare):
            at = part
            continue
        done.append(given[at])
        at += 1
    return tuple(done)


def _is_pass(one: Symbol) -> bool:
    low = one.text
    return low in _PASSES or low.removesuffix("s") in _PASSES or low.removesuffix("es") in _PASSES


def _is_ordinal(before: Sequence[Symbol]) -> bool:
    return bool(before) and (before[0].text.startswith("#") or before[0].text in ("last", "final"))


def _part_behind(given: Sequence[Symbol], at: int) -> int:
    """Return the index of the part that follows, nothing but articles between; 0: none does."""
    while at < len(given) and given[at].text in _ARTICLES:
        at += 1
    paired = [one.text for one in given[at + 1 : at + 2]] in (["and"], ["&"], ["+"]) and _part_behind(given, at + 2)
    return at if at < len(given) and given[at].part >= 0 and not paired else 0


def _without_names_behind(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Take the words off that only name the steps before them: "step R forward and freeze, that's your ending"."""
    at = next((at for at, one in enumerate(given) if one.extra is not None and one.extra.kind == "ending"), 0)
    if not at or any(one.part >= 0 for one in given) or any(one.token.kind == "word" for one in given[at + 1 :]):
        return tuple(given)
    first = at - (given[at - 1].text in _OWN)
    said = first > 1 and (given[first - 1].text in _SAYS or given[first - 1].text in _IS)
    first -= 1 + (given[first - 1].text in _IS)
    told = [one for one in given[:first] if speaks_of_steps(one.token)]
    if not said or len(told) < 2:
        return tuple(given)
    while first and given[first - 1].token.kind == "mark":
        first -= 1
    return tuple(given[:first])
