"""Sections that a sheet numbers, called by their number alone: "leave out number 4", "lines 1) and 2) only".

Where lines of steps open with 1, 2, 3 and so on, those numbers behind a word for a thing that is numbered are sections,
and the marks that the sheet writes around them go.
"""

import statistics
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BARE = {"number", "numbers", "no", "nos", "nr", "point", "points", "item", "items", "para", "paras", "bullet", "#"}
"""What says of a number only that it is one, or stands in a list."""
_NOUNS = {
    "section", "sections", "line", "lines", "set", "sets", "block", "blocks", "figure", "figures", "phrase", "phrases",
    "row", "rows", "eight", "eights", "paragraph", "paragraphs",
}  # fmt: skip
"""Words for a section that the order is told in."""
_COUNTED = {
    "wall", "walls", "count", "counts", "beat", "beats", "tag", "tags", "bridge", "bridges", "restart", "time", "bar",
    "bars", "part", "parts", "page", "round", "repetition", "rotation", "track", "song", "phone", "option",
}  # fmt: skip
"""Behind these a number is that of something else."""
_CLOSES = {")": "(", "]": "[", ".": "", ":": ""}
_JOINS = {"and", "&", "to", "-", "or", "then", ",", "till", "until", "through"}
_LEAST = 3
_NAME = 6
"""Tokens in which a line says that it tells of the order."""
_HIGHEST = 12
_BAR = 4
"""Counts of a bar at most."""


def with_sections_by_number(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the sheet's numbers for its sections told as such in what tells the order."""
    numbers = [number for line in lines if (number := _head(line.tokens))]
    if len(numbers) < _LEAST or numbers != list(range(1, len(numbers) + 1)) or _are_bars(lines):
        return tuple(lines)
    return tuple(line if _head(line.tokens) else _told(line, len(numbers)) for line in lines)


def _are_bars(lines: Sequence[Line]) -> bool:
    """Whether most lines that are numbered count no further than a bar: then two of them or more make a section."""
    rows = [line.tokens[2:] for line in lines if _head(line.tokens)]
    counts = [[place.number or 0 for mark in marks_in(row, 0) for place in mark.places] for row in rows]
    reach = [max(row) for row in counts if row]
    return bool(reach) and statistics.median_low(reach) <= _BAR


def _head(tokens: Sequence[Token]) -> int:
    """Return the number that opens a line of steps, a mark behind it: "2. Cross rock", "(2) Cross rock"; 0 if none."""
    at = tokens[0].text in ("(", "[", "#")
    marked = len(tokens) > at + 2 and tokens[at].kind == "number" and tokens[at + 1].text in _CLOSES
    if not marked or len(tokens[at].text) > 2 or not any(token.low in STEP_WORDS for token in tokens[at + 2 :]):
        return 0
    return int(tokens[at].text) if not is_order(tokens[at + 2 : at + 2 + _NAME]) else 0


def _told(line: Line, most: int) -> Line:
    done: list[Token] = []
    at = 0
    while at < len(line.tokens):
        listed = _list(line.tokens, at, most)
        done += listed[0] if listed else (line.tokens[at],)
        at = listed[1] if listed else at + 1
    told = tuple(done)
    return replace(line, tokens=told) if told != line.tokens and is_order(told) else line


def _list(tokens: Sequence[Token], at: int, most: int) -> tuple[list[Token], int] | None:
    """Return "number 4" or "lines 1) and 2)" as sections, with the index after it; None where none stands here."""
    noun = tokens[at].low
    before = tokens[at - 1].low if at else ""
    if noun not in _BARE | _NOUNS or before in _COUNTED or (noun == "no" and not before):
        return None
    first = _numbered(tokens, at + 1 + (noun in _BARE and _stops(tokens, at + 1)), most)
    if first is None or (noun in _NOUNS and not first[2]):
        return None
    told = [first[0]]
    end = first[1]
    while end < len(tokens) and tokens[end].low in _JOINS and (more := _numbered(tokens, end + 1, most)) is not None:
        if noun in _NOUNS and not more[2]:
            break
        told += [tokens[end], more[0]]
        end = more[1]
    word = "section" if len(told) == 1 else "sections"
    return [replace(tokens[at], kind="word", text=word, low=word), *told], end


def _stops(tokens: Sequence[Token], at: int) -> bool:
    """Whether the full stop of a short form stands here: "no. 2"."""
    return at < len(tokens) and tokens[at].text == "." and tokens[at].glued


def _numbered(tokens: Sequence[Token], at: int, most: int) -> tuple[Token, int, bool] | None:
    """Return the number of a section without its marks, the index after it, and whether it had marks."""
    opens = at < len(tokens) and tokens[at].text in ("(", "[")
    place = at + opens
    if place >= len(tokens) or tokens[place].kind != "number" or not tokens[place].text.isdecimal():
        return None
    number = replace(tokens[place], glued=False)
    after = tokens[place + 1].text if place + 1 < len(tokens) else ""
    closed = after in (")", "]") and (_CLOSES[after] == tokens[at].text if opens else not _is_open(tokens[:place]))
    if not 1 <= int(number.text) <= min(most, _HIGHEST) or (opens and not closed):
        return None
    return number, place + 1 + closed, closed


def _is_open(tokens: Sequence[Token]) -> bool:
    """Whether a bracket stands open, which the mark behind a number closes: "(after line 2)"."""
    return sum(token.text in ("(", "[") for token in tokens) > sum(token.text in (")", "]") for token in tokens)
