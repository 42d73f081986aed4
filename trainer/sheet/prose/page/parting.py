"""Where words between two counts are parted, as a search: each gap at its punctuation, the cheapest way through all.

One sentence may tell its counts after the words and the next before them: "rock forward on one, recover on two. On
three step back." Only the gaps about counts that their words do not fill are searched; all others stay as the sheet
parts its words.
"""

from collections.abc import Callable, Sequence

from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

Words = tuple[Token, ...]
Joined = Callable[[int, Words, Words], Words]
"""The words before and after the mark with that index as one text."""
Misfit = Callable[[int, Words], float]
"""How badly words fill the counts of the mark with that index."""

_ELSEWHERE = 0.3
"""Price of a gap that is parted otherwise than the sheet parts its words."""
_LOST = 0.4
"""Price of words that belong to no count."""
_BAD = 0.5
"""A mark whose words fill its counts no better is searched for."""
_REACH = 6
"""Marks; so far from a bad one words may move on from count to count."""
_MOST = 6
"""Places that are tried in one gap."""


def searched(
    words: Sequence[Words], usual: Sequence[int], joined: Joined, misfit: Misfit
) -> tuple[tuple[Words, ...], float]:
    """Return the words of each mark, and the whole price.

    `words[i]` stand before mark i, the last after the last mark; `usual` says at which word each gap is parted as a
    rule: words before it go to the mark before, the others to the mark after. Words before the first mark and after
    the last may be lost.
    """

    def text_of(mark: int, start: int, end: int) -> Words:
        return joined(mark, words[mark][start:], words[mark + 1][:end])

    marks = len(words) - 1
    bad = [misfit(mark, text_of(mark, usual[mark], usual[mark + 1])) >= _BAD for mark in range(marks)]
    choices = [_choices(words[gap], usual[gap], *_near(bad, gap)) for gap in range(marks + 1)]
    prices = [_price(words, 0, at, usual) for at in choices[0]]
    origins: list[list[int]] = []
    for mark in range(marks):
        step: list[float] = []
        origin: list[int] = []
        for at in choices[mark + 1]:
            found = [
                price + misfit(mark, text_of(mark, start, at))
                for price, start in zip(prices, choices[mark], strict=True)
            ]
            best = min(range(len(found)), key=found.__getitem__)
            step.append(found[best] + _price(words, mark + 1, at, usual))
            origin.append(best)
        prices, origins = step, [*origins, origin]
    last = min(range(len(prices)), key=prices.__getitem__)
    price, cuts = prices[last], [choices[marks][last]]
    for mark in range(marks - 1, -1, -1):
        last = origins[mark][last]
        cuts.insert(0, choices[mark][last])
    return tuple(text_of(mark, cuts[mark], cuts[mark + 1]) for mark in range(marks)), price


def paragraph_in(words: Words) -> int:
    """Return at which word a paragraph begins in a gap between counts, 0 where none does."""
    return next((at for at in range(1, len(words)) if words[at].line > words[at - 1].line + 1), 0)


def _price(words: Sequence[Words], gap: int, at: int, usual: Sequence[int]) -> float:
    """Return what it costs to part a gap at a word."""
    lost = words[0][:at] if gap == 0 else words[gap][at:] if gap == len(words) - 1 else ()
    said = any(token.kind == "word" for token in lost)
    return _ELSEWHERE * (at != usual[gap]) + _LOST * said


def _near(bad: Sequence[bool], gap: int) -> tuple[bool, bool]:
    """Return whether a gap stands beside a bad mark, and whether one is near."""
    return any(bad[max(gap - 1, 0) : gap + 1]), any(bad[max(gap - _REACH, 0) : gap + _REACH])


def _choices(words: Words, usual: int, beside: bool, near: bool) -> list[int]:
    """Return where a gap may be parted: at its ends, its usual place, and beside a bad mark after its punctuation."""
    if gap := paragraph_in(words):
        return sorted({usual, gap})
    if not beside:
        return sorted({0, len(words), usual}) if near else [usual]
    inner = [
        at
        for at in range(1, len(words))
        if words[at - 1].text in (",", ".", ";", ":", BREAK, "!", "?") or words[at].line > words[at - 1].line
    ]
    if len(inner) > _MOST - 2:
        inner = [*inner[: _MOST // 2 - 1], *inner[-(_MOST // 2 - 1) :]]
    return sorted({0, len(words), usual, *inner})
