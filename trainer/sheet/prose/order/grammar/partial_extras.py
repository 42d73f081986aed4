"""Extras of which a sentence calls for some counts only: "the first half of the tag", "only counts 1-4 of the tag"."""

import re
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.places import Spec

_HALF = Fraction(1, 2)
_SECOND = 2
_EXTRA = r"S?(?P<act>[TG])(?:#?(?P<num>n)(?!-?[ctn]))?"
_RANGE, _RUN = r"cn[-U&]n|n-n-?c|n-n", r"[oL]n-?c"
BEFORE = (
    rf"(?P<without>K)?[Du]*(?:(?:(?P<half>[oL]?h)|(?P<range>{_RANGE})|(?P<run>{_RUN})|(?<=u)(?P<few>n-?c))u?I|(?P<plain>[oL]?h))"
    rf"{_EXTRA}u?"
)
"""Of an extra that is named behind its counts."""
BEHIND = (
    rf"{_EXTRA}(?:[,(:>-]{{0,3}}u(?:(?P<half>[oL]?h)|(?P<range>{_RANGE})|(?P<run>{_RUN}))(?:I\?)?\)?|"
    rf"[,(:-]?(?:(?P<half1>[oL]?h)|(?P<range1>{_RANGE})|(?P<run1>{_RUN}))u\)?|\((?P<plain>[oL]h)\)|"
    r"[,(]?u?U(?P<upto>cn|n-?c)u?\)?)"
)
"""Of an extra that is named before its counts."""
_GROUPS = ("half", "half1", "plain", "range", "range1", "run", "run1", "few", "upto")


def share_of_extra(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The extra, and which of its counts are danced; None where the words are no share of it."""
    groups = match.groupdict()
    group = next(name for name in _GROUPS if groups.get(name))
    share = _share(s, group, *match.span(group))
    if share is not None and groups.get("without"):
        share = _without(share)
    if share is None:
        return None
    number = s.number(match.start("num")) if match["num"] else 0
    return [Atom("act", match.start(), match.end(), act=match["act"], number=number, share=share)]


def _share(s: Letters, group: str, first: int, last: int) -> Spec | None:
    span, words = s.span(first, last), s.words(first, last)
    numbers = [s.number(at) for at in range(first, last) if s.letters[at] in "no"]
    ends = s.letters[first] == "L"
    if group in ("half", "half1", "plain"):
        # "Halfway through the tag", "in the middle of the tag" are places in it.
        is_half = words.lower().split()[-1] == "half" and all(one <= _SECOND for one in numbers)
        return Spec(span, words, share=_HALF, from_end=ends or numbers[:1] == [_SECOND]) if is_half else None
    if group in ("range", "range1"):
        return Spec(span, words, count=numbers[-1], first=numbers[0]) if numbers[0] < numbers[-1] else None
    if group in ("run", "run1") and not ends:
        first_of_run = (numbers[0] - 1) * numbers[-1] + 1
        return Spec(span, words, count=first_of_run + numbers[-1] - 1, first=first_of_run)
    told = f"up to {words}" if group == "upto" else words
    return Spec(span, told, count=numbers[-1], from_end=ends)


def _without(share: Spec) -> Spec | None:
    """What is danced where the last counts of an extra are left out; None of others."""
    if not share.from_end:
        return None
    if share.share is not None:
        return replace(share, text="first half", from_end=False)
    return replace(share, text=f"without {share.text}", from_end=False, before=True)
