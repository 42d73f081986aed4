"""Counts that signs with blanks about them part: "1 • 2", "3 • & • 4", "5 ~ 6", "& / 7 / 8", "one • and • two".

Told as "1-2" and "3&4" before anything else looks at the signs: between words the same ones may part cells, or steps.
A row of such counts rises one by one and stands at an edge: of its line, of a bracket, behind a wide gap or dots.
Other rows, "1 • 1", "1 • 2" for section and count, rise now and then only. Columns stay true.
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.text.tokens import UNSEEN

_LEAST = 3
"""Fewer rows show nothing."""
_MOSTLY = 0.8
"""The share of rows that rise one by one where they are counts."""
_HALVES = {"&": "&", "+": "&", "and": "&", "a": "a", "e": "e"}
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
_COUNT = rf"(?:\d{{1,2}}|&|\+|and|(?-i:a|e)|{'|'.join(_NUMBERS)})"
_SIGN = r"(?: +(?:[•./~:>_*=+,-]|\.\.|//|->|--) +|, +)"
_ROW = re.compile(rf"(?<![^\s(\[|]){_COUNT}(?:{_SIGN}{_COUNT})+(?![^\s)\]|:,;.])", re.I)
_PARTS = re.compile(rf"({_COUNT})(?: *(\S*?) +|$)", re.I)
_BEFORE = re.compile(r"(?:^[\s>*•-]*|[(\[|:] *|[ .]{3}|\s\s|\b(?:counts?|cts?|beats?) )$", re.I)
_AFTER = re.compile(r"(?: *$| *[)\]|:]|\s\s| [-=>] )")


def with_counts_together(raw: Sequence[str]) -> list[str]:
    """Return the lines, rows of counts with signs and blanks between them written without."""
    rows = [row for line in raw for row in _rows(line)]
    rising = [row for row in rows if _rises(row)]
    if len(rising) < _LEAST or len(rising) < _MOSTLY * len(rows) or not any(map(_is_plain_no_more, rising)):
        return list(raw)
    return [_told(line) for line in raw]


def _rows(line: str) -> list[re.Match[str]]:
    """Return the rows of counts at the edges of a line."""
    return [row for row in _ROW.finditer(line) if _BEFORE.search(line[: row.start()]) or _AFTER.match(line, row.end())]


def _parts(row: re.Match[str]) -> tuple[list[str], set[str]]:
    """Return the counts of a row, and the signs between them."""
    found = [(part[1].lower(), part[2]) for part in _PARTS.finditer(row[0])]
    return [count for count, _ in found], {sign for _, sign in found if sign}


def _rises(row: re.Match[str]) -> bool:
    """Whether the numbers of a row go on one by one, one kind of sign between all of its counts."""
    counts, signs = _parts(row)
    whole = [count for count in counts if count not in _HALVES]
    numbers = [int(count) if count.isdecimal() else _NUMBERS.index(count) + 1 for count in whole]
    halves_apart = all(a not in _HALVES or b not in _HALVES or a == "&" != b for a, b in pairwise(counts))
    return bool(numbers) and len(signs) == 1 and halves_apart and all(b == a + 1 for a, b in pairwise(numbers))


def _is_plain_no_more(row: re.Match[str]) -> bool:
    """Whether a row is more than "1 - 2", "1, 2" or "1 + 2", which are read as they stand."""
    counts, signs = _parts(row)
    return not signs <= {"-", ",", "+"} or any(count in _HALVES for count in counts)


def _told(line: str) -> str:
    """Return a line with its rows of counts written without signs and blanks, as long as before."""
    for row in _rows(line):
        if not _rises(row):
            continue
        counts, _ = _parts(row)
        told = counts[0] if counts[0] not in _HALVES else _HALVES[counts[0]]
        for before, after in pairwise(counts):
            tied = (before in _HALVES or after in _HALVES) and not (before in _NUMBERS or after in _NUMBERS)
            told += ("" if tied else "-") + _HALVES.get(after, after)
        line = line[: row.start()] + told.ljust(len(row[0]), UNSEEN) + line[row.end() :]
    return line
