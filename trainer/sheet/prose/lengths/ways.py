"""What the numbers of a sheet in one dress mean: how long the words before or after them last, or the count reached.

"vine R, touch L (4) + vine L, touch R (4)", "4 b.  walk up R L R, kick L", "walk back, touch ..... 8". Each meaning is
tried on all the numbers in a dress; the words must fill the counts that it gives them.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from trainer.sheet.prose.items.phrases import Gloss
from trainer.sheet.prose.lengths.filling import FITS, Filling, filling
from trainer.sheet.prose.lengths.numbers import Numeral, numerals_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Meaning = Literal["before", "after", "reached"]
"""A length before its words, a length after them, the last count of the words before it."""

_LEAST = 3
"""So many numbers whose words fill them make a way of telling."""
_SHARE = 0.7
_LONGEST = 48
"""Tokens of the words of one number."""
_EDGES = (":", ".", ";", BREAK, ")", "]", "-", "=", "+")
_TRIED = 8
"""Places where the words of a number may begin or end."""
_LOOSE = {",", ".", ";", ":", "+", "-", "=", ">", BREAK, "and", "then", "&", "(", "/"}


@dataclass(frozen=True, slots=True)
class Told:
    """A number with the counts that its words take by one meaning."""

    numeral: Numeral
    base: int
    """The count reached before its words; for a length, which tells none, -1."""
    filling: Filling

    @property
    def fits(self) -> bool:
        """Whether the words fill the counts."""
        return self.filling.price < FITS


@dataclass(frozen=True, slots=True)
class Way:
    """The numbers of one dress by one meaning."""

    meaning: Meaning
    told: tuple[Told, ...]

    @property
    def fitting(self) -> int:
        """How many numbers have words that fill them."""
        return sum(one.fits for one in self.told)


def best_way(lines: Sequence[Line], told_in: Collection[int], phrase: int, gloss: Gloss) -> Way | None:
    """Return what the numbers of a sheet in one dress tell of lengths; None where no dress tells any.

    `told_in` are the indexes of the lines that may tell steps.
    """
    ways: list[Way] = []
    for opening in (True, False):
        dresses: dict[tuple[str, ...], list[Numeral]] = {}
        for numeral in numerals_of(lines, opening=opening):
            if numeral.index in told_in:
                dresses.setdefault(numeral.dress, []).append(numeral)
        for alike in dresses.values():
            if len(alike) >= _LEAST:
                ways += _ways(lines, alike, phrase, gloss, opening=opening)
    return max(ways, key=lambda way: way.fitting, default=None)


def _ways(
    lines: Sequence[Line], alike: Sequence[Numeral], phrase: int, gloss: Gloss, *, opening: bool
) -> Iterator[Way]:
    values = [numeral.value for numeral in alike]
    if _count_on(values, phrase):
        return
    meanings: tuple[Meaning, ...] = ("before",) if opening else ("after", "reached")
    for meaning in meanings:
        if meaning == "reached" and not _reach_on(values):
            continue
        told = _within([_told(lines, alike, place, meaning, gloss) for place in range(len(alike))])
        way = Way(meaning, tuple(told))
        if way.fitting >= _LEAST and way.fitting >= _SHARE * len(told):
            yield way


def _within(told: Sequence[Told]) -> list[Told]:
    """Return what stands from the first number whose words fill it to the last."""
    fits = [place for place, one in enumerate(told) if one.fits]
    return list(told[fits[0] : fits[-1] + 1]) if fits else []


def _count_on(values: Sequence[int], phrase: int) -> bool:
    """Whether numbers are counts one by one: 1 2 3 4 5 6 7 8 1 2 ..."""
    ends = phrase // 2
    on = sum(b == a + 1 or (b == 1 and a % ends == 0) for a, b in pairwise(values))
    return on >= _SHARE * (len(values) - 1)


def _reach_on(values: Sequence[int]) -> bool:
    """Whether numbers rise nearly always, as counts reached do."""
    pairs = list(pairwise(values))
    rising = sum(b > a or (a % 4 == 0 or a % 6 == 0) for a, b in pairs)
    return rising >= _SHARE * len(pairs) and any(b > a for a, b in pairs)


def _told(lines: Sequence[Line], alike: Sequence[Numeral], place: int, meaning: Meaning, gloss: Gloss) -> Told:
    numeral = alike[place]
    base = -1
    counts = numeral.value
    if meaning == "reached":
        before = alike[place - 1].value if place else 0
        base = before if before < numeral.value else 0
        counts = numeral.value - base
    if meaning == "before":
        words = _after(lines, numeral, alike[place + 1] if place + 1 < len(alike) else None)
    else:
        words = _before(lines, numeral, alike[place - 1] if place else None)
    tried = [part for part in dict.fromkeys(_candidates(words, back=meaning == "before")) if part][:_TRIED]
    return Told(numeral, base, filling(tried, counts, gloss))


def _before(lines: Sequence[Line], numeral: Numeral, last: Numeral | None) -> tuple[Token, ...]:
    """Return the words between a number and the one before it, no empty line among them."""
    words = list(lines[numeral.index].tokens[: numeral.first])
    if last is not None and last.index == numeral.index:
        return tuple(words[last.last :])
    index = numeral.index - 1
    while index >= 0 and len(words) < _LONGEST and lines[index].tokens[-1].line == lines[index + 1].number - 1:
        own = last is not None and last.index == index
        words = [*lines[index].tokens[last.last if own and last is not None else 0 :], *words]
        if own:
            break
        index -= 1
    return tuple(words)


def _after(lines: Sequence[Line], numeral: Numeral, following: Numeral | None) -> tuple[Token, ...]:
    """Return the words between a number and the one after it, no empty line among them."""
    words = list(lines[numeral.index].tokens[numeral.last :])
    if following is not None and following.index == numeral.index:
        return tuple(words[: following.first - numeral.last])
    index = numeral.index + 1
    while index < len(lines) and len(words) < _LONGEST and lines[index].number == lines[index - 1].tokens[-1].line + 1:
        own = following is not None and following.index == index
        words += lines[index].tokens[: following.first if own and following is not None else None]
        if own:
            break
        index += 1
    return tuple(words)


def _candidates(words: tuple[Token, ...], *, back: bool) -> Iterator[tuple[Token, ...]]:
    """Yield words, and what is left of them where a heading stands before them, or another line or remark after."""
    yield _trimmed(words)
    lines = [at for at in range(1, len(words)) if words[at].line > words[at - 1].line]
    if back:
        edges = [at for at in range(1, len(words)) if words[at].text in ("(", "[", BREAK)]
        for at in sorted({*lines, *edges}):
            yield _trimmed(words[:at])
        return
    for at in sorted({*lines, *(at + 1 for at, token in enumerate(words[:-1]) if token.text in _EDGES)}):
        yield _trimmed(words[at:])


def _trimmed(words: Sequence[Token]) -> tuple[Token, ...]:
    """Return words without the facing and the signs at their edges."""
    first, last = 0, len(words)
    while first < last and (words[first].low in _LOOSE or words[first].kind == "facing"):
        first += 1
    while last > first and words[last - 1].low in _LOOSE:
        last -= 1
    return tuple(words[first:last])
