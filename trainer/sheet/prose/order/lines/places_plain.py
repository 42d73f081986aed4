"""Places told by a section and a count, in the orders and with the marks of different teachers, told in one way.

"Up to [6a] of block 2", "S2 [2]", "in section 2 after count 2" become "count 2 of section 2"; "one section and two
counts", "8 + 2 counts" become so many counts of the dance. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.lines.rows import HOURS, WALL_WORDS
from trainer.sheet.prose.text.like import number_like, word_like
from trainer.sheet.prose.words import Token

_OPENS = {"(": ")", "[": "]", '"': '"', "'": "'", "{": "}"}
_SECTIONS = {"section", "sec", "s", "block", "set", "part", "phrase", "figure", "group", "eight", "verse"}
_SEVERAL = {"section", "sections", "eight", "eights", "sets", "set", "blocks", "block", "sixes", "six"}
_WITHIN = {"of", "in", "from"}
_COUNTS = {"count", "counts", "beats", "beat", "cts", "ct"}
_SUFFIXES = {"a", "e", "&", "and"}
_LEADS = {"in", "during", "within", "on", "the", ":", ",", "-", "at"}
_JOINS = {"and", "plus", "+", "&"}
_AFTER = {"after", "until", "till", "to", "at", "on"}
_NOT_A_PLACE = {"of", "after", "from", "extra", "with", "repeat"}
_BEFORE = {"after", "to", "dance", "danced", "of", "is", "only", "just", "first", "until", ":", "for"}


def with_places_plain(tokens: Sequence[Token], ends: Sequence[int], phrase: int) -> tuple[Token, ...]:
    """Return a sentence about walls with such places told plainly; `ends` are the counts by each section's end."""
    if not any(token.low in WALL_WORDS for token in tokens):
        return tuple(tokens)
    told = _of_bars(_without_marks(list(tokens)), phrase)
    told = _count_first(told, phrase)
    return tuple(_summed(told, ends))


def _without_marks(tokens: list[Token]) -> list[Token]:
    """Return the tokens without the marks about a count that is one of a section."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        closes = _OPENS.get(tokens[at].text, "")
        last = _past_count(tokens, at + 1) if closes else at
        closed = last > at + 1 and last < len(tokens) and tokens[last].text == closes
        if closed and (_names_section(tokens, last + 1) or _behind_a_section(tokens, at)):
            of = [word_like(tokens[at], "count")] if _behind_a_section(tokens, at) else []
            if done and done[-1].low in _COUNTS:
                of = []
            if of and done[-1].text == ",":
                done.pop()
            done += [
                *of,
                *(replace(one, glued=False) if one is tokens[at + 1] else one for one in tokens[at + 1 : last]),
            ]
            at = last + 1
        else:
            done.append(tokens[at])
            at += 1
    return done


def _of_bars(tokens: list[Token], phrase: int) -> list[Token]:
    """Return the tokens; a count of two bars, "count 4 of bars 9 and 10", is told as that of the dance."""
    bar = phrase // 2
    for at in range(len(tokens) - 5):
        if tokens[at].low not in _COUNTS or tokens[at + 1].kind != "number" or tokens[at + 2].low not in _WITHIN:
            continue
        named = at + 3 + (tokens[at + 3].low == "the")
        if tokens[named].low not in ("bars", "measures"):
            continue
        first, then, _ = number_at(tokens, named + 1)
        joined = then > named + 1 and then + 1 < len(tokens) and tokens[then].low in ("and", "&", "-", "to")
        last, end, _ = number_at(tokens, then + 1) if joined else (0, then, False)
        if not joined or last != first + 1 or len(tokens[at + 1].text) > 2:
            continue
        number = number_like(tokens[at + 1], (first - 1) * bar + int(tokens[at + 1].text))
        return [*tokens[: at + 1], number, *tokens[end:]]
    return tokens


def _past_count(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a count or a range of counts, a half beat behind it included; itself where none stands."""
    if at >= len(tokens) or tokens[at].kind != "number":
        return at
    last = at + 1
    if last + 1 < len(tokens) and tokens[last].text == "-" and tokens[last + 1].kind == "number":
        last += 2
    return last + (last < len(tokens) and tokens[last].low in _SUFFIXES and tokens[last].glued)


def _names_section(tokens: Sequence[Token], at: int) -> bool:
    """Whether what follows says of which section it is: "of block 2", "in the second section"."""
    words = [token.low for token in tokens[at : at + 4]]
    return bool(words) and words[0] in _WITHIN and bool(_SECTIONS & set(words[1:]))


def _behind_a_section(tokens: Sequence[Token], at: int) -> bool:
    """Whether a section with its number stands right before: "S2 [2]"; an hour there is a facing."""
    back = at - (tokens[at - 1].text == "," if at else 0)
    hour = tokens[at + 1].text in HOURS and tokens[at + 2 : at + 3] and tokens[at + 2].text in ")]"
    named = back > 1 and tokens[back - 1].kind == "number" and tokens[back - 2].low in _SECTIONS
    return named and not hour


def _count_first(tokens: list[Token], phrase: int) -> list[Token]:
    """Return the tokens; "in section 2 (after count 2)" is "after count 2 of section 2"."""
    for at in range(1, len(tokens) - 3):
        if tokens[at].low not in _SECTIONS or tokens[at + 1].kind != "number" or tokens[at - 1].low not in _LEADS:
            continue
        look = at + 2
        marked = tokens[look].text if tokens[look].text in "(,-:" else ""
        look += bool(marked)
        if look >= len(tokens) or tokens[look].low not in _AFTER:
            continue
        number = look + 1 + (look + 1 < len(tokens) and tokens[look + 1].low in _COUNTS)
        if number >= len(tokens) or tokens[number].kind != "number" or int(tokens[number].text[:4]) > phrase:
            continue
        last = _past_count(tokens, number)
        counted = last < len(tokens) and tokens[last].low in _COUNTS
        last += counted
        told = counted or number > look + 1 or last == len(tokens) or tokens[last].text in (")", ",", ".")
        if not told or (last < len(tokens) and tokens[last].low in _WITHIN):
            continue
        closes = marked == "(" and last < len(tokens) and tokens[last].text == ")"
        start = at - (tokens[at - 1].low in ("in", "during", "within", "on", "at"))
        near = tokens[at]
        ranged = "counts" if any(t.text == "-" for t in tokens[number:last]) else "count"
        place = [
            word_like(near, "after"),
            word_like(near, ranged),
            *(t for t in tokens[number:last] if t.low not in _COUNTS),
        ]
        return [*tokens[:start], *place, word_like(near, "of"), *tokens[at : at + 2], *tokens[last + closes :]]
    return tokens


def _summed(tokens: list[Token], ends: Sequence[int]) -> list[Token]:
    """Return the tokens; sections and counts beyond them, and counts in two numbers, are told as one number."""
    for at in range(len(tokens)):
        many, last = _sections_and(tokens, at, ends)
        if not many:
            continue
        value, end, ordinal = number_at(tokens, last)
        counted = end < len(tokens) and tokens[end].low in _COUNTS
        counted = counted or end == len(tokens) or tokens[end].text in (",", ".", ")", ";")
        if end == last or ordinal or not counted or not 0 < many + value < (ends[-1] if ends else 0):
            continue
        if end + 1 < len(tokens) and tokens[end + 1].low in _NOT_A_PLACE:
            continue
        number = number_like(tokens[at], many + value)
        end += end < len(tokens) and tokens[end].low in _COUNTS
        return [*tokens[:at], number, word_like(tokens[at], "counts"), *tokens[end:]]
    return tokens


def _sections_and(tokens: Sequence[Token], at: int, ends: Sequence[int]) -> tuple[int, int]:
    """Return how many counts sections are that stand before "and two counts", and the index after the joint; else 0."""
    value, last, ordinal = number_at(tokens, at)
    if last > at and last < len(tokens) and tokens[last].low in _SEVERAL and (not ordinal or value == 1):
        counts = ends[value - 1] if 0 < value <= len(ends) else 0
        last += 1
    elif last == at and tokens[at].low in _SECTIONS and tokens[at + 1 : at + 2] and tokens[at + 1].text == "1":
        counts, last = (ends[0] if ends else 0), at + 2
    elif last > at and not ordinal and at and tokens[at - 1].low in _BEFORE and tokens[last : last + 1]:
        counts = value if tokens[last].text == "+" and value in ends else 0
    else:
        return 0, at
    joined = counts and last < len(tokens) and tokens[last].low in _JOINS
    return (counts, last + 1) if joined else (0, at)
