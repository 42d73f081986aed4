"""The parts of a phrased dance listed one a line: "1st  A", "2nd  A, then the tag", "Wall 3: B", "B (fourth)".

The rows count on from one, or have no number at all, and each names a part that heads sections elsewhere in the sheet;
they are told as one line: "Sequence: A, A, tag, B, B". Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, ROMAN, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LETTERS = set("ABCDEFGH")
_NAMES = frozenset(SONG_PARTS)
_PLAYS = words_in("wall walls round time pass play no number part turn go the")
"""Words beside the number of a row."""
_PARTING = (":", ")", ".", "-", ",", "=", BREAK, "(", ">", "]", "[")
_ENDINGS = words_in("st nd rd th")
_JOINS = words_in("then the and + , plus with & - a add |")
_AFTER = words_in(", + ( then and plus with & | - tag bridge ending finish")
_LEAST = 3
_MOST = 0.6
"""The share of rows whose part has steps in the sheet; another letter is a mistake of one."""
_LONGEST = 14
"""Tokens of a row."""
_HEAD = 4
"""Tokens of the heading of a list."""

Row = tuple[int, Token, tuple[Token, ...]]
"""The number of a row, 0 for none; its part; what is danced with it."""


def with_listed_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, a list of parts told as one line."""
    at = 0
    while at < len(lines):
        rows = list(_rows(lines, at))
        parts = _parts((*lines[:at], *lines[at + len(rows) :])) if len(rows) >= _LEAST else set()
        last = lines[at + len(rows) - 1] if rows else lines[at]
        below = lines[at + len(rows)] if at + len(rows) < len(lines) else None
        above = lines[at - 1] if at else None
        whole = below is None or below.number > last.tokens[-1].line + 1
        whole = whole and not (above is not None and _goes_on(above, lines[at]))
        known = [part for _, part, _ in rows if part.low in parts]
        if whole and len(parts) > 1 and len(known) >= _MOST * len(rows):
            headed = above is not None and _heads(above, lines[at])
            told = replace(lines[at], tokens=tuple(_told(rows)), source="")
            return (*lines[: at - headed], told, *lines[at + len(rows) :])
        at += max(len(rows), 1)
    return tuple(lines)


def _rows(lines: Sequence[Line], at: int) -> Iterator[Row]:
    """Yield the rows of the list that begins with a line."""
    numbered = False
    for index in range(at, len(lines)):
        line = lines[index]
        row = _row(line.tokens)
        if row is None or (index > at and line.number > lines[index - 1].tokens[-1].line + 1):
            return
        numbered = numbered or (index == at and row[0] == 1)
        if row[0] != (index - at + 1 if numbered else 0):
            return
        yield row


def _row(tokens: Sequence[Token]) -> Row | None:
    """Return the row that a line is, if it is one."""
    if len(tokens) > _LONGEST:
        return None
    number, at = _number(tokens, 0)
    at += at < len(tokens) and tokens[at].low == "part"
    part = tokens[at] if at < len(tokens) else None
    if part is None or not (part.text in _LETTERS or part.low in _NAMES):
        return None
    rest = list(tokens[at + 1 :])
    if rest and rest[0].low not in _AFTER and rest[0].kind != "clock":
        return None
    told = any(token.low in STEP_WORDS for token in rest)
    if told or (rest and rest[0].text == BREAK and (not number or any(token.kind == "number" for token in rest))):
        # Rows of cells that say how much is danced are a table.
        return None
    closing = next((place for place, token in enumerate(rest) if token.text == ")"), -1)
    if not number and rest and rest[0].text == "(" and closing > 0:
        inner, end = _number(rest, 1)
        if inner and end > closing:
            number, rest = inner, rest[closing + 1 :]
    return number, part, tuple(_without_clocks(rest))


def _number(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the number of a row, 0 where there is none, and the index after it and what parts it from its part."""
    start = at
    while at < len(tokens) and tokens[at].low in _PLAYS:
        at += 1
    token = tokens[at] if at < len(tokens) else None
    if token is None:
        return 0, start
    value = int(token.text) if token.kind == "number" and len(token.text) < 3 else 0
    value = value or ORDINALS.get(token.low, 0) or NUMBERS.get(token.low, 0)
    value = value or (ROMAN.get(token.low, 0) if token.text.isupper() and len(tokens) > at + 1 else 0)
    if not value:
        return 0, start
    at += 1
    while at < len(tokens) and (
        tokens[at].low in _ENDINGS or tokens[at].text in _PARTING or tokens[at].low in _PLAYS - {"part"}
    ):
        at += 1
    return value, at


def _without_clocks(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield tokens without where the part begins: "(12:00)"."""
    for at, token in enumerate(tokens):
        around = [tokens[near].kind for near in (at - 1, at + 1) if 0 <= near < len(tokens)]
        if token.kind != "clock" and not (token.text in "()[]@" and "clock" in around):
            yield token


def _parts(lines: Sequence[Line]) -> set[str]:
    """Return the parts that head sections."""
    found = set()
    for line in lines:
        tokens = line.tokens[line.tokens[0].low == "part" :]
        if not tokens or not (tokens[0].text in _LETTERS or tokens[0].low in _NAMES):
            continue
        after = tokens[1] if len(tokens) > 1 else None
        if after is None or after.kind == "number" or after.text in (*_PARTING, "/"):
            found.add(tokens[0].low)
    return found


def _goes_on(above: Line, line: Line) -> bool:
    """Whether a line right above a list is a row of it that names no part: "tag"."""
    return above.tokens[-1].line == line.number - 1 and extra_kind(above.tokens[:_HEAD]) is not None


def _heads(above: Line, line: Line) -> bool:
    """Whether a line is no more than the heading of the list under it."""
    near = above.number >= line.number - 2
    return near and len(above.tokens) <= _HEAD and not any(token.kind == "number" for token in above.tokens)


def _told(rows: Sequence[Row]) -> Iterator[Token]:
    """Yield the order of the parts as one line."""
    first = rows[0][1]
    yield replace(first, kind="word", text="Sequence", low="sequence", glued=False)
    yield replace(first, kind="mark", text=":", low=":", glued=True)
    for place, (_, part, rest) in enumerate(rows):
        if place:
            yield replace(part, kind="mark", text=",", low=",", glued=True)
        yield part
        start = next((at for at, token in enumerate(rest) if token.low not in _JOINS), len(rest))
        end = len(rest) - (bool(rest) and rest[-1].text in (".", ",", ";"))
        if start < end:
            if rest[start].text != "(":
                yield replace(part, kind="mark", text=",", low=",", glued=True)
            yield from rest[start:end]
