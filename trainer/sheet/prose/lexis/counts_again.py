"""Counts of the dance that an extra is, as one word: "again_last_4" for the last four counts of the dance.

`habits/extras_again` writes such a word, so that its numbers are taken for no counts; it is read here once the sections
are known.
"""

import re
from collections.abc import Sequence

_WORD = re.compile(r"again_(?P<what>last|counts|inside|section)_(?P<one>\d+)(?:_(?P<two>\d+)_(?P<of>\d+))?")


def danced_in(words: str, ends: Sequence[int]) -> tuple[int, int] | None:
    """Return the first and last count of the dance that such a word stands for; `ends` are where sections end."""
    told = _WORD.fullmatch(words)
    if told is None or not ends:
        return None
    one, two, of = int(told["one"]), int(told["two"] or 0), int(told["of"] or 0)
    starts = [0, *ends[:-1]]
    if told["what"] == "last":
        first, last = ends[-1] - one + 1, ends[-1]
    elif told["what"] == "counts":
        first, last = one, two
    else:
        place = one if told["what"] == "section" else of
        if not 0 < place <= len(ends):
            return None
        first, last = (1, ends[place - 1] - starts[place - 1]) if told["what"] == "section" else (one, two)
        first, last = first + starts[place - 1], last + starts[place - 1]
    return (first, last) if 0 < first <= last <= ends[-1] else None
