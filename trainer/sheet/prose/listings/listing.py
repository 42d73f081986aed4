"""Lists of walls told in plain sentences: "Wall 3: restart after 16 counts", "Wall 4: full, then tag".

Teachers list the walls with strokes, tabs or blanks, by numbers, ordinals or facings, or one after the other in a line;
with sections ticked, counted in eights or told in words; with extras by kind, by a name of their own or a mark that is
told below. A list is told anew only if its rows are understood; else it stays as it stands. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.listings.legends import Legend, Name, legend_of, names_below
from trainer.sheet.prose.listings.roles import roles_of
from trainer.sheet.prose.listings.row_words import RowWords
from trainer.sheet.prose.listings.settling import settled
from trainer.sheet.prose.listings.sources import Listed, listed_from
from trainer.sheet.prose.listings.starting import with_starts, without_ends
from trainer.sheet.prose.listings.telling import Telling
from trainer.sheet.prose.listings.told_row import ToldRow
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEAD = 8
"""Lines of a sheet's head."""
_SHORT = 16
"""Counts of the shortest dance."""
_LISTS = words_in("wall walls list order sequence rounds overview")
_STEPS = words_in("l r left right tag bridge ending restart section part")
_APART = 2
"""Lines from a heading to the list, at most."""
_RAW = 4
"""One row of so many may be left as it stands."""
_LETTERS = set("ABCDEFGH")
_MEANS = words_in("means = is :")


def with_listed_walls(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those of a list of walls and of what its rows name told in plain sentences."""
    for at in range(len(lines)):
        for listed in listed_from(lines, at):
            if told := _told(lines, listed):
                return told
    return tuple(lines)


def _told(lines: Sequence[Line], listed: Listed) -> tuple[Line, ...]:
    """Return the lines with the list told anew; none where it was not understood."""
    own = [row.line for row in listed.rows]
    if _plays_parts(own):
        return ()
    above = lines[listed.first - 1] if listed.first else None
    roles, heads = ([], 0) if listed.flowing else roles_of(above, own)
    heads = heads or _only_heads(above, own[0])
    if not roles and not listed.flowing:
        listed = replace(listed, rows=without_ends(with_starts(listed.rows)))
    below = names_below(lines, listed.last)
    rows = _rows(listed, RowWords(below, roles[1:], _said_of(listed)))
    if not rows or _names_parts(rows, lines):
        return ()
    known = names_below(lines, 0)
    called = {put.key for row in rows for put in row.puts if put.key in known}
    legends: dict[Name, Legend] = {key: legend_of(lines, known[key]) for key in called}
    if not settled(rows, legends, _stated(lines)):
        return ()
    telling = Telling(rows, legends, lines)
    told = list(telling.rows())
    if listed.flowing:
        told = telling.as_one(told)
        if listed.rest:
            told.append(replace(own[-1], number=listed.rest[0].line, tokens=listed.rest))
    return (
        *lines[: listed.first - heads], *told, *telling.below(lines, listed.last), *telling.steps(lines),
    )  # fmt: skip


def _plays_parts(own: Sequence[Line]) -> bool:
    """Whether rows are an order of play with the length of each part: "A (32 counts), B (16 counts), A (32 counts)"."""
    tokens = {id(line): line.tokens for line in own}.values()
    parts = [
        one.text
        for line in tokens
        for one, opened, number in zip(line, line[1:], line[2:], strict=False)
        if one.text in _LETTERS and opened.text == "(" and number.kind == "number"
    ]
    return len(parts) > _SHORTEST and len(set(parts)) > 1


_SHORTEST = 3


def _names_parts(rows: Sequence[ToldRow], lines: Sequence[Line]) -> bool:
    """Whether rows tell which part is danced: a letter that is named there as an extra heads sections, as others do."""
    heads = [line.tokens[:2] for line in lines if len(line.tokens) > 1]
    parts = {one.text for one, after in heads if one.text in _LETTERS and after.kind == "number"}
    named = {"".join(put.key).upper() for row in rows for put in row.puts}
    return len(parts) > 1 and bool(parts & named)


def _rows(listed: Listed, words: RowWords) -> list[ToldRow]:
    """Return the rows as they are understood; none where too little is."""
    rows: list[ToldRow] = []
    for source in listed.rows:
        row = ToldRow(number=len(rows) + 1, line=source.line, words=words.raw(source.tokens), facing=source.facing)
        if words.read(row, source.tokens):
            if listed.unnamed and rows and _ends_the_last(row):
                # "32, tag, 32": the extra ends the wall before it, as the end does: "32, 8, ending".
                rows[-1].puts += row.puts
                rows[-1].leave = row.leave or rows[-1].leave
                continue
            if listed.unnamed and not row.tells:
                return []
            rows.append(row)
        elif source.worded and source.tokens:
            rows.append(replace(row, raw=row.words, whole=True, puts=[], leave=""))
        elif source.facing is not None:
            rows.append(replace(row, whole=True))
        else:
            return []
    raw = sum(bool(row.raw) for row in rows)
    surely = all(source.facing is not None for source in listed.rows)
    return [] if (2 if surely else _RAW) * raw > len(rows) else rows


def _ends_the_last(row: ToldRow) -> bool:
    """Whether a row between walls without names tells no wall, but what comes after one."""
    return not row.tells and bool(row.leave or row.puts)


def _said_of(listed: Listed) -> dict[str, tuple[Token, ...]]:
    """Return what a word of a list in a line stands for, told after it: "Short means 16 counts and restart"."""
    said: dict[str, tuple[Token, ...]] = {}
    start = 0
    for at in range(len(listed.rest) + 1):
        if at == len(listed.rest) or listed.rest[at].text == ".":
            part = listed.rest[start:at]
            if len(part) > 2 and part[0].kind == "word" and part[1].low in _MEANS:
                said[part[0].low] = part[2:]
            start = at + 1
    return said


def _only_heads(line: Line | None, row: Line) -> int:
    """Whether the line over a list only says that one comes: "The walls, one by one:", "Crib sheet:"."""
    if line is None or line.number < row.number - _APART or any(token.kind == "number" for token in line.tokens):
        return 0
    lows = {token.low for token in line.tokens}
    named = line.tokens[-1].text == ":" or (len(line.tokens) < _HEAD and bool(lows & _LISTS))
    return int(named and not lows & _STEPS)


def _stated(lines: Sequence[Line]) -> int:
    """Return the length of the dance as the sheet's head states it; 0 where it does not."""
    for line in lines[:_HEAD]:
        for number, word in pairwise(line.tokens):
            if (
                number.kind == "number"
                and word.low in ("count", "counts", "ct", "cts", "beat", "beats")
                and int(number.text[:3]) >= _SHORT
            ):
                return int(number.text[:3])
    return 0
