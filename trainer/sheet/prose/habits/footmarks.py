"""Marks that stand once among the steps, at a line's end, before its count or within it: "7-8* rock back", "| (R) |".

Columns are those of the line as typed, from 0, the last exclusive.
"""

import re
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SIGN = r"(?:[*+#†‡§^~!°@¤•¹²³]{1,3}|x{2,3}|X{1,3})"
_INNER = rf"(?:{_SIGN}|[A-Za-z]|\d|see (?:the )?(?:note|below))"
MARK = rf"(?:\( ?{_INNER} ?\)|\[ ?{_INNER} ?\]|\{{ ?{_INNER} ?\}}|<{_INNER}>|{_SIGN})"
"""Any mark."""
_ENDS = re.compile(rf"(?<![A-Za-z0-9])(?P<mark>{MARK})\s*$|(?P<glued>[*+#†‡§^°¹²³]{{1,3}})\s*$")
_ALONE = re.compile(r"^\s*(?:\( ?\w ?\)|\[ ?\w ?\]|\{ ?\w ?\}|<\w>)\s*$")
_PLAIN = r"[*#†‡§¤]"
_OPENED = rf"(?:{_PLAIN}{{1,3}}|[+^~!°@]|[A-Z])"
_WITHIN = re.compile(
    rf"(?<![{_PLAIN[1:-1]}])(?:\( ?{_OPENED} ?\)|\[ ?{_OPENED} ?\]|\{{ ?{_OPENED} ?\}}|<{_OPENED}>|{_PLAIN}{{1,3}})"
    rf"(?![\w{_PLAIN[1:-1]}])"
)
"""A mark that other words of its line may follow; of plain signs only those that mean nothing among steps."""
_TWICE = 2


class Footmark(NamedTuple):
    """Where a mark stands: its line, its columns, and the column up to which the line is danced."""

    number: int
    first: int
    last: int
    upto: int
    """0: the whole line."""


def footmarks(raw: Sequence[str], lines: Sequence[Line]) -> dict[str, Footmark]:
    """Return the marks that stand once in the lines of a text that tell steps, or alone on a line below them."""
    ends = _at_ends(raw, lines)
    found: dict[str, list[Footmark]] = {}
    for line in lines:
        source = raw[line.number - 1]
        if _WITHIN.search(source) and marks_in(line.tokens, 0) and not is_order(line.tokens):
            for mark, place in _within(source, line):
                found.setdefault(mark, []).append(place)
    inner = {mark: places[0] for mark, places in found.items() if len(places) == 1 and mark not in ends}
    return {**inner, **ends}


def _within(source: str, line: Line) -> Iterator[tuple[str, Footmark]]:
    """Yield the marks of a line with words behind them; one that opens it, or follows its first count, is of it all."""
    counts = marks_in(line.tokens, 0)
    opening = line.tokens[counts[0].last - 1] if counts[0].first == 0 else None
    head = opening.column - 1 + len(opening.text) if opening else 0
    for match in _WITHIN.finditer(source):
        first, last = match.span()
        if not source[last:].strip():
            continue
        leads = not source[:first].strip()
        if leads and not _begins_with_a_count([token for token in line.tokens if token.column > last]):
            continue
        upto = 0 if leads or first <= head + 1 else last
        yield match[0].replace(" ", ""), Footmark(line.number, first, last, upto)


def _begins_with_a_count(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and any(mark.first == 0 for mark in marks_in(tokens, 0)[:1])


def _at_ends(raw: Sequence[str], lines: Sequence[Line]) -> dict[str, Footmark]:
    """Return the marks at the ends of lines, or alone on them, that stand so once."""
    found: dict[str, list[tuple[int, int]]] = {}
    clean = {line.number: line for line in lines}
    # "[A]", "[B]" and "[C]" alone on their lines name sections.
    named = sum(bool(_ALONE.match(source)) for source in raw) > 1
    for number, source in enumerate(raw, 1):
        match = None if named and _ALONE.match(source) else _ENDS.search(source)
        if match is None:
            continue
        mark = (match["mark"] or match["glued"]).replace(" ", "")
        column = match.start("mark") if match["mark"] else match.start("glued")
        before = source[:column].strip()
        line = clean.get(number)
        if before.startswith(mark[0]) or (line is not None and before and is_order(line.tokens)):
            continue
        if line is not None and before and mark[1:-1].isalnum() and not marks_in(until(line, column), 0):
            # A letter or number behind a title names its section.
            continue
        found.setdefault(mark, []).append((number, column))
    # Letters that stand so again and again, "[F]", "[B]", are walls.
    often = {mark[0] for mark, places in found.items() if len(places) > 1 and mark[1:-1].isalpha()}
    return {
        mark: Footmark(places[0][0], places[0][1], len(raw[places[0][0] - 1]), 0)
        for mark, places in found.items()
        if len(places) == 1 and not _counts(mark, raw, found) and not (mark[1:-1].isalpha() and mark[0] in often)
    }


def until(line: Line, column: int) -> tuple[Token, ...]:
    """Return the tokens of a line up to a column."""
    kept = tuple(token for token in line.tokens if token.column <= column)
    while kept and kept[-1].text == BREAK:
        kept = kept[:-1]
    return kept


def _counts(mark: str, raw: Sequence[str], found: Collection[str]) -> bool:
    """Whether a number in brackets is one of the sheet's counts: more stand so than as marks and before notes."""
    if not any(sign.isdecimal() for sign in mark):
        return False
    alike = [one for one in found if one[0] == mark[0] and one[1:-1].isdecimal()]
    written = re.compile(rf"\{mark[0]} ?\d")
    return sum(len(written.findall(source)) for source in raw) > _TWICE * len(alike)
