"""Titles that open the sentences of their section: "4. Half turn. Left forward, half turn left, right back (1-2)".

Where most sections of a page open with a short sentence without which their first counts are filled as well, it is what
the section is called, and dances nothing: "Weave and draw." before its steps would be a step too many.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.heads.headings import Heading, extra_kind
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.page.runs import Run
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Fill, Token

_LONGEST = 9
"""Tokens of a title with the sign that ends it."""
_ENDS = (".", ":", "-", ";", BREAK)
_QUOTES = ('"', "'")
_TWICE = 2
"""A number or ordinal with a sign of its own may stand before the title: "First: walks. Step right ..."."""
_FEW = 2
"""So few sections must all have a title."""
_MOST = 0.66
"""The share of sections that have one, where it is the page's way."""
_NO_WORSE = 0.05
_FEET = {"r", "l", "rf", "lf"}


@dataclass(frozen=True, slots=True)
class _Opening:
    """The words before the first count of a section: of a run, before one of its links, from a token on."""

    run: Run
    link: int
    first: int
    title: int
    """Tokens of the title; 0 where there is none."""
    spare: bool
    """The counts are filled as well without it."""


def part_titles(runs: Sequence[Run], fill: Fill) -> None:
    """Take the titles that open the sentences of their sections out of the words of their first counts."""
    for _ in range(_TWICE):
        _part_one(runs, fill)


def _part_one(runs: Sequence[Run], fill: Fill) -> None:
    openings = [one for run in runs for one in _openings(run, fill)]
    titled = [one for one in openings if one.title and one.spare]
    if len(titled) < (_MOST * len(openings) if len(openings) > _FEW else max(_FEW, len(openings))):
        return
    for one in titled:
        words = one.run.words[one.link]
        title = tuple(words[one.first : one.first + one.title])
        one.run.words[one.link] = words[: one.first] + words[one.first + one.title :]
        if not one.link and not one.run.headings:
            one.run.headings.append(Heading(title[0].line, title))


def _openings(run: Run, fill: Fill) -> Iterator[_Opening]:
    """Yield the openings of a run's sections."""
    if not run.links:
        return
    starts = [(0, 0), *((link, heading.line) for link, heading in run.inner if 0 < link < len(run.links))]
    for link, line in starts:
        words = run.words[link]
        first = next((at for at, token in enumerate(words) if token.line >= line), len(words))
        while first < len(words) and words[first].text in (*_ENDS, ")"):
            first += 1
        opening = words[first:]
        if opening:
            title = _title(opening)
            counts = len(run.links[link].mark.places)
            spare = fill(opening[title:], counts) <= fill(opening, counts) + _NO_WORSE
            yield _Opening(run, link, first, title, spare)


def _title(words: Sequence[Token]) -> int:
    """Return the length of the short sentence that words open with, if more words follow and it is no pointer back."""
    start = _numbered(words)
    quoted = words[start].text in _QUOTES
    ends = _QUOTES if quoted else _ENDS
    start += quoted
    near = range(start, min(len(words), _LONGEST))
    end = next((at for at in near if words[at].text in ends and not _joins(words, at)), 0)
    title = words[start:end]
    plain = all(token.kind in ("word", "amp", "fraction") or token.text in (",", "&", "-") for token in title)
    if not end or end + 1 >= len(words) or not plain or points_back(title) or extra_kind(title) is not None:
        return 0
    if any(token.low in _FEET for token in title):
        return 0
    return end + 1


def _numbered(words: Sequence[Token]) -> int:
    """Return the length of a number before a title: "#1 Walks:"."""
    signed = words[0].text == "#"
    numbered = signed and len(words) > _FEW and words[1].kind == "number"
    return 2 if numbered else 0


def _joins(words: Sequence[Token], at: int) -> bool:
    """Whether a hyphen only joins two words: "kick-ball-change"."""
    after = words[at + 1] if at + 1 < len(words) else None
    return words[at].text == "-" and after is not None and (words[at].glued or after.glued)
