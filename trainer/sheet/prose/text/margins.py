"""Lines that were broken at the page's margin, as one line each.

A page is known for one so broken where lines go on in the next just where its first word would not have fitted: a break
that the margin explains. Lines that a teacher ended before are as they were written.
"""

import re
from collections.abc import Sequence
from functools import reduce
from itertools import pairwise

from trainer.sheet.prose.text.rows import Row

_CELLS = re.compile(r"\S {3,}\S|\||\S\t|\.{4}")
_NARROWEST = 34
_WIDEST = 100
_LEAST = 2
"""Breaks that the margin explains, at least."""
_MANY = 4
"""So many are no chance, where"""
_ENDED = 1.5
"""no more lines, for each that the margin broke, seem to go on before it."""
_SENTENCES = re.compile(r'[a-z0-9)][.!?] [A-Z("]')
_MOST = 4
"""Rows of an item that is no paragraph."""
_FLOWING = 3
"""Lines of a paragraph of flowing prose, at least,"""
_MOSTLY = 0.6
"""and how many of them go on in the next."""
_SHORTEST = 45
"""Letters of such a line, but for the last."""
_HALF = re.compile(r"[a-z]-\s*$")
_STOPS = (".", ":", ";", "!", "?")
_NEVER_LAST = re.compile(
    r"(?:,|\b(?:the|an?|of|and|or|with|to|is|are|in|on|onto|your|for|its|by|from|this|that|at|as|then|both|after|counts?|"
    r"walls?|sections?|beats?|parts?|facing))$",
    re.IGNORECASE,
)
_COUNTS_LEFT = re.compile(r"\s*[\d&+,\- ]*\d[\d&+,\- ]*(?:[\[({<].{1,8}[\])}>])?\s*$")
"""Counts that stand in a line by themselves belong to the steps over them."""
_GOES_ON = re.compile(r"\s*(?:[a-z]|\d/\d|[¼½¾⅛⅜⅝⅞]|[(\[{][\d&+,\- ]+[)\]}](?:\W*$|[,;]))")
_OPENS = re.compile(r"\s*(?:[-*•>#~|]|\(?\d|[a-z][.)]\s|[ivx]+[.)]\s|[(\[{<][\d&])")


def unbroken(rows: Sequence[Row], *, paragraphs: bool = False) -> list[Row]:
    """Return the rows with each that the margin broke joined to what it goes on with; of paragraphs only if asked."""
    width = max((len(row.text) for row in rows if not _CELLS.search(row.text)), default=0)
    pairs = [_goes_on(one, other) for one, other in pairwise(rows)]
    full = [_met_margin(one, other, width) for one, other in pairwise(rows)]
    broken = sum(goes and met for goes, met in zip(pairs, full, strict=True))
    before = sum(goes and not met for goes, met in zip(pairs, full, strict=True))
    if not _NARROWEST <= width <= _WIDEST or broken < _LEAST or before > _ENDED * broken or (before and broken < _MANY):
        return list(rows)
    items = [[rows[0]]]
    for row, above, goes, met in zip(rows[1:], rows, pairs, full, strict=False):
        indent = _indent(items[-1][0])
        hangs = _indent(row) > indent + 1 and _indent(row) >= _indent(above) and bool(above.text.strip())
        if met and (goes or (hangs and not _OPENS.match(row.text))):
            items[-1].append(row)
        else:
            items.append([row])
    if paragraphs:
        return [row for item in items for row in (item if _halved(item) else [reduce(Row.joined, item)])]
    several = [item for item in items if len(item) > 1]
    if 2 * sum(_is_paragraph(item) for item in several) > len(several):
        # A page of paragraphs: their sentences are sought where it is viewed.
        return list(rows)
    return [row for item in items for row in (item if _is_paragraph(item) else [reduce(Row.joined, item)])]


def flowing(rows: Sequence[Row]) -> list[Row]:
    """Return the rows of a page written in paragraphs, each as one line: most of their lines go on in the next.

    Their margin is ragged: the break says nothing, what is said does.
    """
    pairs = [_goes_on(one, other) for one, other in pairwise(rows)]
    groups: list[list[int]] = [[]]
    for at, row in enumerate(rows):
        if not row.text.strip() or _OPENS.match(row.text) or _CELLS.search(row.text) or _halved([row, row]):
            groups += [[at], []]
        else:
            groups[-1].append(at)
    prose = {group[0] for group in groups if _flows([rows[at] for at in group], [pairs[at] for at in group[:-1]])}
    if len(prose) < _LEAST:
        return list(rows)
    done: list[Row] = []
    for group in filter(None, groups):
        said = [rows[at] for at in group]
        done += [reduce(Row.joined, said)] if group[0] in prose else said
    return done


def _flows(group: Sequence[Row], goes_on: Sequence[bool]) -> bool:
    """Whether lines are a paragraph of prose: long, going on in the next, with sentences that end within them."""
    if len(group) < _FLOWING or sum(goes_on) < _MOSTLY * len(goes_on):
        return False
    lengths = [len(row.text) for row in group[:-1]]
    return min(lengths) >= _SHORTEST and bool(_SENTENCES.search(reduce(Row.joined, group).text))


def _is_paragraph(item: Sequence[Row]) -> bool:
    """Whether rows that go on are more than one thing that is told, or words are halved between them."""
    return len(item) > _MOST or _halved(item) or bool(_SENTENCES.search(reduce(Row.joined, item).text))


def _halved(item: Sequence[Row]) -> bool:
    """Whether a word is parted by a hyphen between two rows."""
    return any(_HALF.search(row.text) for row in item[:-1])


def _indent(row: Row) -> int:
    return len(row.text) - len(row.text.lstrip())


def _met_margin(row: Row, below: Row, width: int) -> bool:
    """Whether the first word of the line below would not have fitted at the end of a line."""
    words = below.text.split(maxsplit=1)
    if not words or not row.text.strip() or _CELLS.search(row.text) or _CELLS.search(below.text):
        return False
    return len(row.text.rstrip()) + 1 + len(words[0]) > width


def _goes_on(row: Row, below: Row) -> bool:
    """Whether what a line says goes on in the line below it."""
    said = row.text.rstrip()
    if not said or not below.text.strip() or said.endswith(_STOPS):
        return False
    return bool(_GOES_ON.match(below.text) or _COUNTS_LEFT.match(below.text) or _NEVER_LAST.search(said)) or _open(said)


def _open(said: str) -> bool:
    """Whether a line opens brackets that it does not close."""
    return said.count("(") > said.count(")") or said.count("[") > said.count("]")
