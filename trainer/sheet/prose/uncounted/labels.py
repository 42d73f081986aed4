"""The labels of sections that open lines: "1)", "A -", "#2", "II.", "Second eight:", "Block 3", alone or before steps.

A number or letter by itself is a label where a series of them opens lines, from the first on; a name is one anywhere.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.heads.heads_parted import head_of
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, ROMAN
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.uncounted.lasting import are_told_steps
from trainer.sheet.prose.uncounted.lengths_told import told_length
from trainer.sheet.prose.words import Token

_OPENING = {"#", "(", "[", "<", "*", "{"}
_CLOSING = {")", "]", ">", ".", ":", "-", "/", "=", BREAK, "}", ",", "*"}
_LETTERS = "abcdefgh"
_FEWEST = 2
_NAME = 7
"""Tokens of a line that only names its section, at most, where steps stand in it."""
_BARS = {"bar", "bars", "measure", "measures"}
_JOINS = {"-", "&", "and", "to", "+"}


@dataclass(frozen=True, slots=True)
class Label:
    """What opens a line and is none of its steps."""

    last: int
    """The token after it."""
    name: tuple[Token, ...]
    """The name of the section that it begins; empty for bars, which begin none."""
    bars: int = 0


@dataclass(frozen=True, slots=True)
class _Place:
    make: str
    value: int
    last: int


def labels_of(lines: Sequence[Line], told_in: Sequence[int]) -> dict[int, Label]:
    """Return the labels of the lines that may tell steps, by the index of their line."""
    series: dict[str, dict[int, _Place]] = defaultdict(dict)
    told_in = [index for index in told_in if not _opens_counted(lines[index].tokens)]
    for index in told_in:
        for place in _places(lines[index].tokens):
            series[place.make].setdefault(index, place)
    found: dict[int, Label] = {}
    for index in told_in:
        label = _bars(lines[index].tokens) or _named(lines[index].tokens)
        if label is not None:
            found[index] = label
    for places in series.values():
        values = [place.value for place in places.values()]
        if len(values) >= _FEWEST and values == list(range(1, len(values) + 1)) and not set(places) & set(found):
            for index, place in places.items():
                found[index] = Label(place.last, _section(lines[index].tokens[0], place.value))
    return found


def _opens_counted(tokens: Sequence[Token]) -> bool:
    """Whether a line begins with several counts at once: "1-4 vine right"."""
    opening = next(iter(marks_in(tokens, 0)), None)
    return opening is not None and opening.first == 0 and len(opening.places) > 1


def _places(tokens: Sequence[Token]) -> list[_Place]:
    """Return the places in series that may open a line, with the signs about them."""
    at = 0
    while at < len(tokens) - 1 and tokens[at].text in _OPENING:
        at += 1
    last = at + 1
    while last < len(tokens) and tokens[last].text in _CLOSING:
        last += 1
    signed = last > at + 1 or at > 0 or last == len(tokens)
    token = tokens[at]
    if token.kind == "number" and token.text.isdecimal():
        return [_Place("number", int(token.text), last)]
    if not signed or token.kind != "word":
        return []
    tables = (("roman", ROMAN), ("word", NUMBERS), ("ordinal", ORDINALS))
    found = [_Place(make, table[token.low], last) for make, table in tables if token.low in table]
    if len(token.text) == 1 and token.low in _LETTERS:
        found.append(_Place("letter", _LETTERS.index(token.low) + 1, last))
    return found


def _bars(tokens: Sequence[Token]) -> Label | None:
    """Return the bars that a line says it tells: "bar 3:", "Bars 1-2:"."""
    if tokens[0].low not in _BARS or len(tokens) < _FEWEST or tokens[1].kind != "number":
        return None
    first, last, at = int(tokens[1].text), int(tokens[1].text), 2
    if at + 1 < len(tokens) and tokens[at].low in _JOINS and tokens[at + 1].kind == "number":
        last, at = int(tokens[at + 1].text), at + 2
    while at < len(tokens) and tokens[at].text in _CLOSING:
        at += 1
    return Label(at, (), last - first + 1) if last >= first else None


def _named(tokens: Sequence[Token]) -> Label | None:
    """Return the name of a section that opens a line, or is the line."""
    if extra_kind(tokens[:_NAME]) is not None or _opens_with_a_length(tokens):
        return None
    head, rest = head_of(list(tokens))
    if not any(token.kind == "word" for token in head):
        # A number that no series makes a label may be a count, or a length.
        head, rest = [], list(tokens)
    if head and not rest:
        return Label(len(tokens), tuple(tokens))
    if head and is_section_name(head) and not points_back(head):
        return Label(len(head), tuple(head))
    short = len(tokens) <= _NAME and is_section_name(tokens)
    if short and not points_back(tokens) and not (are_told_steps(tokens) and any(one.text == "," for one in tokens)):
        return Label(len(tokens), tuple(tokens))
    return None


def _opens_with_a_length(tokens: Sequence[Token]) -> bool:
    """Whether a line opens with how long its words last: "(4) toe struts", "8 counts: vine right"."""
    length, rest = told_length(tokens)
    return length > 0 and bool(rest) and rest[-1] is tokens[-1]


def _section(place: Token, number: int) -> tuple[Token, ...]:
    word = replace(place, kind="word", text="Section", low="section", glued=False, value=None)
    colon = replace(word, kind="mark", text=":", low=":", glued=True)
    return word, replace(word, kind="number", text=str(number), low=str(number)), colon
