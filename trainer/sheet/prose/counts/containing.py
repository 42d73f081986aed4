"""Counts that may sum up others: a range over its inner counts, the counts of a section before its words."""

from trainer.sheet.prose.counts.marks import Mark

_FEW = 5
"""Words before the counts of a section in its heading."""


def may_contain(mark: Mark) -> bool:
    """Whether a mark may sum up marks after it: a range, "three and four" in words, 7&8 among words, (1 2)."""
    # A section told without counts stands for all of its own.
    told = mark.first < mark.last
    return told and (mark.spread or (len(mark.places) > 1 and (mark.spelled or mark.first > 0 or mark.closed)))


def heads_line(mark: Mark) -> bool:
    """Whether counts open a line, or a few words and a colon do: "Second bars, 9-16: ..."."""
    return not mark.first or (mark.ends == ":" and mark.spread and mark.first <= _FEW)


def both_end_words(outer: Mark, inner: Mark) -> bool:
    """Whether counts in brackets stand behind the words of as many steps, and those of the next line behind theirs."""
    return outer.closed and not outer.spread and inner.closed and inner.first > 0 and outer.first > len(outer.places)
