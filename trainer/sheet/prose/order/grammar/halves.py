"""The middle of a section as a place: "half way through the third eight", "to the middle of set 4, after count 28".

Also some counts more than so many sections: "three eights and the first four counts of the fourth".
"""

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


def _numbers(s: Letters, match: re.Match[str], group: str) -> list[int]:
    """Return the numbers of the sections that a group of a pattern names: "the second eight" is the second."""
    kinds = "o" if "o" in match[group] else "nx"
    return [s.number(at) for at in range(*match.span(group)) if s.letters[at] in kinds]


def section_and_on(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Sections and then some counts of the next one: "section 1, then count 1 of section 2"; None of other sections."""
    numbers, then = _numbers(s, match, "done"), _numbers(s, match, "sec")
    if not numbers or not then or then[-1] != numbers[-1] + 1:
        return None
    spec = makers.joined_spec(s, match)
    if spec is None or spec.count is None or (spec.first or 1) != 1:
        return None
    place = Atom("place", match.start(), match.end(), spec=replace(spec, before=False, on=False))
    return [place, Atom("only", match.start(), match.end())]


def sections_and_more(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """So many sections and some counts, or half, of the one after them: "two eights and four counts of the next"."""
    many, then, counted = s.number(match.start("many")), match["then"] or "", match["more"]
    if not then and not set("&>") & set(match["lead"]):
        # "Section two, count four".
        return None
    numbers = [s.number(at) for at in range(match.start("then"), match.end("then")) if s.letters[at] in "on"]
    if then and not numbers and s.words(*match.span("then")).lower().split()[0] not in ("next", "following"):
        return None
    if numbers and numbers[0] != many + 1:
        return None
    opens = s.letters[match.start("more")]
    inside = [at for at in range(*match.span("more")) if s.letters[at] in "nx"]
    spec = Spec(s.span(match.start("many"), match.end()), s.words(match.start("many"), match.end()), section=many + 1)
    if "h" in counted:
        if opens == "o" and s.number(match.start("more")) >= _SECOND:
            return None
        spec = replace(spec, share=Fraction(1, 2))
    else:
        at = inside[-1]
        spec = replace(spec, count=s.number(at), count_span=s.span(at, at + 1), suffix=s.lexemes[at].suffix)
    return [Atom("place", match.start(), match.end(), spec=spec), Atom("only", match.start(), match.end())]
