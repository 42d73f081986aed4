"""The middle of a section as a place: "half way through the third eight", "to the middle of set 4, after count 28"."""

import re
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.order.grammar import makers
from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.places import Spec

_SECOND = 2
_HALF = ("1/2", "½")


def half_of_section(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The half of a section, or the count that is told with it; a second half is no place."""
    ordinal = match.start("half")
    if s.letters[ordinal] == "o" and s.number(ordinal) >= _SECOND:
        return None
    section = makers.section_in(makers.section_spec(s, match), title=(), before=False)
    counted = makers.count_spec(s, match) if match["cnt"] else None
    spec = replace(section, share=Fraction(1, 2))
    if counted is not None:
        spec = replace(section, count=counted.count, count_span=counted.span, suffix=counted.suffix)
    place = Atom("place", match.start(), match.end(), spec=spec)
    return [place, Atom("only", match.start(), match.end())] if set("Du") & set(match["pre"]) else [place]


def sections_and_a_half(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """So many sections and half of the next: "two and a half eights", "2 1/2 eights"."""
    at = match.start("many")
    if s.letters[at + 1] == "m" and s.words(at + 1, at + 2) not in _HALF:
        return None
    spec = Spec(s.span(at, at + 1), s.words(at, match.end()), section=s.number(at) + 1, share=Fraction(1, 2))
    place = Atom("place", match.start(), match.end(), spec=spec)
    return [place, Atom("only", match.start(), match.end())] if set("Du") & set(match.group()) else [place]
