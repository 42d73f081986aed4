"""Sections told by another one: "C. REPEAT A", "Part 2: the same again", "V. As II on the left", "G) A and B again".

The labels of a sheet's sections rise in a series of one make. Where words after a label only point to a section before
it, and nothing counts under it, they are told with the counts of the section and those that it repeats.
"""

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, ROMAN, STEP_WORDS
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_NOUNS = (
    "section", "sec", "set", "part", "block", "phrase", "figure", "eight", "line", "group", "bit", "pattern", "verse",
    "tur", "del", "teil", "deel", "sektion", "seksjon", "six",
)  # fmt: skip
_NOUN = rf"(?:(?:{'|'.join(_NOUNS)}|no|nr|number) ?(?:\.|#)? ?|# ?)"
_NAME = (
    rf"(?:the )?{_NOUN}?(\d{{1,2}}|[a-h]|[ivx]+|{'|'.join(list(NUMBERS)[1:17])}|(?:{'|'.join(list(ORDINALS)[:16])}|"
    rf"last|previous)(?: {_NOUN})?)(?![\w'])"
)
_AND = r"(?: ?(?:and|&|,|\+|-|to|then) ?)"
_LEADS = (
    r"(?:repeats?|repeated|same(?: again| steps| thing)?|like|as|ditto|idem|redo|=|do|dance|mirror|copy|identical|see|"
    r"back)(?: (?:of|as|in|for|to|with|from|all|whole|just|again))*"
)
_NAMED = re.compile(
    rf"(?:just |exactly |the |all |{_LEADS} )*(?:\b|(?==)){_LEADS} {_NAME}(?:{_AND}{_NAME})?(?: again| once more)?"
    rf"(?! ?\d)|"
    rf"^{_NAME}(?:{_AND}{_NAME})? (?:again|once more|once again|repeated|over again|a second time|one more time)\b"
)
_LAST = re.compile(
    r"^(?:(?:just|exactly|do|dance|all|of|the|that|this|it|very|a|and) )*"
    r"(?:same(?: again| thing| steps)*|repeat(?:ed)?(?: (?:it|that|this|all))*|again|ditto|idem|once more|once again|"
    r"one more time|mirror(?:ed| image)?)\b(?! as)"
)
_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_ENDS = {".", ")", ":", "-", "]", BREAK, "/", "=", ">"}
_BEFORE = {"(", "[", "-", ":", "=", BREAK, "is", "are", ","}
"""What parts a title from the words that point back."""
_NAMED_BY = 4
"""Tokens in which the name of an extra stands at a line's start."""
_TITLE = 7
_TAIL = 10
"""Tokens after the section's name: the foot that begins, what is changed, the facing."""
_REACH = 24
"""So many counts are told at once at most."""


@dataclass(frozen=True, slots=True)
class Head:
    """The label of a section: its make, its place in the series, and the token after it."""

    make: tuple[str, str]
    value: int
    end: int


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The counts of a section, from the first of the dance on."""

    first: int
    last: int
    section: int
    """Its place in the series."""
    counted: bool
    """Whether its counts are told."""


def with_sections_again(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, sections that only point to another told with its counts."""
    heads = series(lines)
    if len(heads) < 2:
        return tuple(lines)
    phrase = phrase_of(lines)
    places = [*heads, len(lines)]
    told: dict[int, _Stretch] = {}
    done = list(lines)
    danced = counted = 0
    for at, until in pairwise(places):
        head = heads[at]
        length = _counts_in(lines, at, until, head.end)
        words = _pointing(lines, at, until, head.end)
        found = _found(words, head, told) if not length else None
        if found is not None:
            source, tail = found
            length = source.last - source.first + 1
            if length <= _REACH and length % (phrase // 2) == 0:
                bare = not any(stretch.counted for stretch in told.values())
                words_instead = _as_section(lines[at], head, source) if bare else _as_counts(lines[at], head, source)
                done[at] = replace(lines[at], tokens=(*words_instead, *tail), source="")
                for index in range(at + 1, at + 1 + len({token.line for token in words} - {lines[at].number})):
                    done[index] = replace(lines[index], tokens=())
        counted += found is None and bool(length or _steps(lines[at].tokens[head.end :]) >= phrase // 2)
        told[head.value] = _Stretch(danced + 1, danced + (length or phrase), head.value, counted=bool(length))
        danced += length or phrase
    return tuple(line for line in done if line.tokens) if 2 * counted >= len(heads) else tuple(lines)


def series(lines: Sequence[Line]) -> dict[int, Head]:
    """Return the labels of the longest series that rises from the first, by the index of their lines."""
    opened: dict[tuple[str, str], dict[int, Head]] = defaultdict(dict)
    for at, line in enumerate(lines):
        for head in _labels(line.tokens):
            following = len(opened[head.make]) + 1
            if head.value == following or (head.value == _LAST_ONE and following > 1):
                opened[head.make][at] = replace(head, value=following)
    return max(opened.values(), key=len, default={})


def _labels(tokens: Sequence[Token]) -> list[Head]:
    """Return the labels that may open a line."""
    at = next((at for at, token in enumerate(tokens[:3]) if token.kind != "mark" and token.low != "the"), len(tokens))
    if at >= len(tokens):
        return []
    word = tokens[at].low
    place, last = _ordinal(tokens, at)
    if (
        (place or word in ("last", "final"))
        and last < len(tokens)
        and (tokens[last].low in _NOUNS or tokens[last].text in _EIGHTS)
    ):
        return [Head((tokens[last].low, "ordinal"), place, _past_signs(tokens, last + 1))]
    glued = word == "s" and at + 1 < len(tokens) and tokens[at + 1].kind == "number" and tokens[at + 1].glued
    noun = word if word in _NOUNS or glued else "#" if at and tokens[at - 1].text in _NUMBER_SIGNS else ""
    at += bool(noun) and noun != "#"
    while noun and at < len(tokens) and tokens[at].text in (".", "#", "no"):
        at += 1
    if at >= len(tokens):
        return []
    end = _past_signs(tokens, at + 1)
    if not noun and end == at + 1:
        return []
    return [Head((noun, how), value, end) for how, value in _values(tokens[at].low)]


def _ordinal(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the place that an ordinal tells, and the token after it: "third", "3rd"; 0 where none stands."""
    token = tokens[at]
    glued = at + 1 < len(tokens) and tokens[at + 1].glued and tokens[at + 1].low in ("st", "nd", "rd", "th")
    if token.kind == "number" and glued:
        return int(token.text), at + 2
    return ORDINALS.get(token.low, 0), at + 1


_EIGHTS = {"8", "6"}
_LAST_ONE = 0
"""The place of "the last eight", which is the next one."""
_NUMBER_SIGNS = {"#", "§"}


def _past_signs(tokens: Sequence[Token], at: int) -> int:
    first = at
    while at < len(tokens) and tokens[at].text in _ENDS and not (at > first and tokens[at].text == "="):
        at += 1
    return at


def _values(word: str) -> list[tuple[str, int]]:
    """Return the places in a series that a word may be, each with the way it is written."""
    found = [(how, table[word]) for how, table in (("roman", ROMAN), ("word", NUMBERS)) if word in table]
    if len(word) == 1 and "a" <= word <= "h":
        found.append(("letter", ord(word) - ord("a") + 1))
    if word.isdecimal() and len(word) < 3:
        found.append(("number", int(word)))
    return found


def _counts_in(lines: Sequence[Line], at: int, until: int, first: int) -> int:
    """Return how many counts a section tells, 0 where it tells none: of the last up to an empty line or an extra."""
    low, high = 0, 0
    for index in range(at, until):
        line = lines[index]
        if index > at and (
            extra_kind(line.tokens[:4]) or (high and line.number > lines[index - 1].tokens[-1].line + 2)
        ):
            break
        for mark in marks_in(line.tokens[first:] if index == at else line.tokens, 0):
            numbers = [place.number for place in mark.places if place.number]
            if mark.strength >= _SURE and numbers:
                low, high = low or numbers[0], max(high, numbers[-1])
    return high - low + 1 if high else 0


def _pointing(lines: Sequence[Line], at: int, until: int, first: int) -> tuple[Token, ...]:
    """Return the words of a section without counts: after its label, else those of the line under it."""
    words = lines[at].tokens[first:]
    near = at + 1 < until and lines[at + 1].number == lines[at].number + 1
    return words if words or not near else lines[at + 1].tokens


def _found(
    words: Sequence[Token], head: Head, told: Mapping[int, _Stretch]
) -> tuple[_Stretch, tuple[Token, ...]] | None:
    """Return the counts that words point to, and the words after that; None where they do not only point."""
    text = " ".join(token.low for token in words)
    match = _NAMED.search(text)
    names = [name for name in match.groups() if name] if match else []
    values = [_value(name, head) for name in names]
    if match is None:
        match, values = _LAST.match(text), [head.value - 1]
    if match is None or None in values:
        return None
    sources = [told.get(value) for value in values if value is not None]
    start, end = text[: match.start()].count(" "), text[: match.end()].count(" ") + 1
    titled = start and (start > _TITLE or words[start - 1].low not in _BEFORE)
    tail = tuple(words[end:])
    first, last = sources[0], sources[-1]
    if first is None or last is None or titled or len(tail) > _TAIL or first.first > last.first:
        return None
    if start and words[start - 1].text in ("(", "[") and tail and tail[0].text in (")", "]"):
        tail = tail[1:]
    return replace(first, last=last.last), tail


def _value(name: str, head: Head) -> int | None:
    """Return the place of a named section in the series, None where it is no name of its make."""
    word = name.split()[0]
    if word in ("last", "previous"):
        return head.value - 1
    if word in ORDINALS:
        return ORDINALS[word]
    how = head.make[1]
    return next((value for kind, value in _values(word) if kind == how or {kind, how} <= {"number", "word"}), None) or (
        next((value for kind, value in _values(word) if how == "ordinal" and kind != "letter"), None)
    )


def _steps(tokens: Sequence[Token]) -> int:
    """Return how many words of a line speak of steps."""
    return sum(token.low in STEP_WORDS for token in tokens)


def _label(line: Line, head: Head) -> tuple[Token, ...]:
    """Return a section's label as it may stand before counts: no number that might be one."""
    if head.make[1] in ("letter", "roman") and not head.make[0]:
        return line.tokens[: head.end]
    place = line.tokens[0]
    return _word("section", place), _number(head.value, place), _sign(":", place)


def _as_counts(line: Line, head: Head, source: _Stretch) -> tuple[Token, ...]:
    """Return a section's label with its counts and those that it repeats."""
    place = line.tokens[0]
    again = (_word("repeat", place), _word("counts", place), *_range(source.first, source.last, place))
    return (*_label(line, head), *_range(1, source.last - source.first + 1, place), *again)


def _as_section(line: Line, head: Head, source: _Stretch) -> tuple[Token, ...]:
    """Return a section, of a sheet that counts none, as one that repeats another."""
    place = line.tokens[0]
    own = (_word("section", place), _number(head.value, place), _sign(":", place))
    return (*own, _word("repeat", place), _word("section", place), _number(source.section, place))


def _range(first: int, last: int, place: Token) -> tuple[Token, Token, Token]:
    return _number(first, place), _sign("-", place), _number(last, place)


def _word(text: str, place: Token) -> Token:
    return replace(place, kind="word", text=text, low=text, glued=False, value=None)


def _number(number: int, place: Token) -> Token:
    return replace(place, kind="number", text=str(number), low=str(number), glued=False, value=None)


def _sign(text: str, place: Token) -> Token:
    return replace(place, kind="mark", text=text, low=text, glued=False, value=None)
