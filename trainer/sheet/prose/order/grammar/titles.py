"""Sections by the words of their headings, so that "after Lanterns" and "do SKATE and HALF" are places."""

import re
from collections import Counter

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.lexis.vocabulary import FILLERS, NUMBERS, ORDINALS, ROMAN, STEP_WORDS, TEENS
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.grammar.telling import Known

_PLAIN = frozenset({
    "and", "section", "sections", "sec", "part", "parts", "set", "block", "eight", "eights", "verse", "chorus",
    "counts", "count", "bar", "bars", "first", "second", "then", "x", "of", "the", "to", "with", "w", "on", "in", "no",
})  # fmt: skip
"""Words that a heading has though it is not called by them."""


def titles_of(known: Known) -> dict[tuple[str, ...], str]:
    """Return the words that stand for one section only, whole headings and single words of them, to its name."""
    if known.parts:
        return {}
    found: dict[tuple[str, ...], set[int]] = {}
    for place, (_, _, heading) in enumerate(known.sections, 1):
        words = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)*", heading.lower())
        # "The first 8" is called by its number: "the first" of it may be a wall.
        if len(words) > 1 and not (any(map(str.isdigit, heading)) and all(map(_is_plain, words))):
            found.setdefault(tuple(words), set()).add(place)
        for phrase in _phrases(heading):
            found.setdefault(phrase, set()).add(place)
        for word, many in Counter(words).items():
            if many >= 1 and len(word) > 2 and not _is_plain(word):
                found.setdefault((word,), set()).add(place)
    ruler = Ruler(known, "")
    return {
        words: known.sections[min(places) - 1][0]
        for words, places in found.items()
        if len(places) == 1 and not _is_a_step(ruler, words, min(places) - 1)
    }


def _phrases(heading: str) -> set[tuple[str, ...]]:
    """Return the phrases of several words that commas part in a heading: "rock & rock" of "rock & rock, sailor"."""
    parted = re.split(r"[,;:/]| - ", heading.lower())
    words = [tuple(re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)*|&", phrase)) for phrase in parted]
    several = len(words) > 1
    return {one for one in words if several and len(one) > 1 and not all(map(_is_plain, one))}


def _is_plain(word: str) -> bool:
    """Whether a heading is not called by a word that it has."""
    return word in _PLAIN or word in FILLERS or word in NUMBERS or word in ORDINALS


def _is_a_step(ruler: Ruler, words: tuple[str, ...], place: int) -> bool:
    """Whether a word of a heading is the name of one single step: the kick of "walks and a kick"."""
    runs = ruler.danced(words) if len(words) == 1 and words[0] in STEP_WORDS else []
    return len(runs) == 1 and runs[0][1] == runs[0][0] + 1 and ruler.told_more(place, words)


_LETTERS = tuple("abcdefgh")
_SERIES = (_LETTERS, tuple(ROMAN), TEENS[1:], tuple(ORDINALS))
"""Labels that number the sections of a sheet in words: A, B, C; I, II, III; ONE, TWO, THREE; FIRST, SECOND alone."""
_KINDS = ("part", "block", "group", "set", "phrase", "figure", "sec", "eight", "box", "bit", "six")
"""Words for a section before its letter."""


def labels_of(known: Known) -> dict[str, str]:
    """Return the labels with which the headings number their sections, in capitals, to the sections' names.

    Labels that the sheet would go on with are there too: "after SIX" of a dance in four sections is a fault.
    """
    if known.parts or len(known.sections) < 2:
        return {}
    words = [re.sub(r"[^\w\s]", " ", heading).split() for _, _, heading in known.sections]
    heads = [named[named[:1] == ["section"] :][:1] for named in words]
    lettered = [named[1:2] if head and head[0] in _KINDS else head for head, named in zip(heads, words, strict=True)]
    if any(head and head[0] in _LETTERS for head in lettered):
        heads = lettered
    for series in _SERIES:
        if series is _LETTERS and {head[0] for head in heads if head} <= set(ROMAN):
            continue
        if series[0] in ORDINALS and any(len(named) > 1 for named in words):
            # "First eight" is found by its number.
            continue
        places = [series.index(head[0]) if head and head[0] in series else None for head in heads]
        told = [place for place in places if place is not None]
        if len(told) < 2 or len(told) < len(heads) - 1 or told != sorted(set(told)):
            continue
        if places[0] is None and places[1:2] == [1]:
            places[0] = 0
        found = {
            series[place].upper(): name
            for place, (name, _, _) in zip(places, known.sections, strict=True)
            if place is not None
        }
        return found | {label.upper(): "" for label in series[told[-1] + 1 :]}
    return {}


def names_of(known: Known) -> Names:
    """Return the names of parts and sections for the lexer."""
    sections = {name.lower(): place for place, (name, _, _) in enumerate(known.sections, 1)}
    bar = 3 if known.phrase % 3 == 0 else 4
    return Names(
        {name.lower(): name for name, _ in known.parts},
        sections,
        titles_of(known),
        labels_of(known),
        bar,
        _braces_of(known),
        frozenset(phrase for _, _, heading in known.sections for phrase in _phrases(heading)),
    )


def _braces_of(known: Known) -> str:
    """Return the mark in which the headings put the number of their section; empty where not all do."""
    heads = [re.match(r"([{\[<])\s*(\d+)\s*[}\]>]", heading) for _, _, heading in known.sections]
    told = [(head[1], int(head[2])) for head in heads if head]
    alike = told == [(told[0][0], number) for number in range(1, len(heads) + 1)] if told else False
    return told[0][0] if alike and len(told) > 1 else ""
