"""Sections called by their counts in the dance, and halves of them that are changed, told as sections and counts.

"Counts 5-8 of 9-16 become" is of section 2, "replace the second half of section 2 with" is of its counts 5-8;
"repeat sections 3 and 4" are so many counts of the dance.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.words import Token

_WITHIN = {"of", "in", "from", "during", "within"}
_SHARES = {"half", "part", "end", "middle", "start", "beginning", "quarter", "counts", "count", "four", "two"}
_JOINS = {"and", "&", "to", "-"}
_OPENS = {",", ":", ".", "(", "-"}
_HALVES = {"first": 0, "1st": 0, "second": 1, "2nd": 1, "last": 1, "other": 1}
_CHANGES = {
    "replace", "replaces", "replaced", "replacing", "instead", "become", "becomes", "change", "changes", "changed",
    "is", "are", "swap", "place",
}  # fmt: skip
_RANGE = 3
"""Tokens of a range."""


def with_sections_ranged(tokens: Sequence[Token], ends: Sequence[int]) -> tuple[Token, ...]:
    """Return a sentence with such sections and halves told so; `ends` are the counts by the end of each section."""
    called = _again_counted(_called_by_number(tokens, ends), ends)
    return _halves_counted(called, ends) if any(token.low in _CHANGES for token in called) else called


def _called_by_number(tokens: Sequence[Token], ends: Sequence[int]) -> tuple[Token, ...]:
    starts = {(before + 1, end): place for place, (before, end) in enumerate(pairwise((0, *ends)), 1)}
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        first, last = _range(tokens, at)
        place = starts.get((first, last), 0) if first and _is_placed(tokens, at) else 0
        if place:
            done += _section(tokens[at], place)
            at += _RANGE
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _again_counted(tokens: Sequence[Token], ends: Sequence[int]) -> tuple[Token, ...]:
    """Return a sentence with sections that are danced again, one behind the other, told by their counts."""
    lows = [token.low for token in tokens]
    for at in range(len(tokens) - 3):
        numbers = [tokens[at + 1], tokens[at + 3]]
        joined = lows[at] == "sections" and lows[at + 2] in _JOINS and all(one.text.isdecimal() for one in numbers)
        first, last = (int(one.text) for one in numbers) if joined else (0, 0)
        if not 0 < first < last <= len(ends) or (lows[at + 2] in ("and", "&") and last > first + 1):
            continue
        again = bool({"repeat", "repeats"} & set(lows[max(at - 2, 0) : at])) or lows[at + 4 : at + 5] == ["again"]
        if again or lows[at + 4 : at + 6] == ["once", "more"]:
            return (*tokens[:at], *_counts(tokens[at], (0, *ends)[first - 1] + 1, ends[last - 1]), *tokens[at + 4 :])
    return tuple(tokens)


def _range(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the first and last count of a range at a token; twice 0 where none stands there."""
    said = tokens[at : at + _RANGE]
    ranged = len(said) == _RANGE and said[1].text == "-" and all(one.kind == "number" for one in (said[0], said[2]))
    return (int(said[0].text), int(said[2].text)) if ranged else (0, 0)


def _is_placed(tokens: Sequence[Token], at: int) -> bool:
    """Whether a range stands where a section does: "the end of 9-16", "in 9-16, ..."."""
    if not at or tokens[at - 1].low not in _WITHIN:
        return False
    before = tokens[at - 2] if at > 1 else None
    opens = before is None or before.text in _OPENS
    shared = before is not None and (before.low in _SHARES or before.kind == "number")
    return shared or (opens and tokens[at - 1].low != "of")


def _section(place: Token, number: int) -> tuple[Token, Token]:
    word = replace(place, kind="word", text="section", low="section", value=None)
    return word, replace(word, kind="number", text=str(number), low=str(number), glued=False)


def _halves_counted(tokens: Sequence[Token], ends: Sequence[int]) -> tuple[Token, ...]:
    """Return a sentence about changed steps with half a section told by its counts."""
    lows = [token.low for token in tokens]
    for at in range(len(tokens) - 4):
        number = tokens[at + 4] if lows[at + 1 : at + 4] == ["half", "of", "section"] else None
        if (
            lows[at] not in _HALVES
            or number is None
            or not number.text.isdecimal()
            or not 0 < int(number.text) <= len(ends)
        ):
            continue
        place = int(number.text)
        length = ends[place - 1] - (0, *ends)[place - 1]
        if length % 2:
            continue
        first = 1 + _HALVES[lows[at]] * length // 2
        start = at - (at > 0 and lows[at - 1] == "the")
        return (
            *tokens[:start],
            *_counts(tokens[at], first, first + length // 2 - 1),
            *tokens[at + 2 : at + 5],
            *tokens[_after_its_counts(tokens, at + 5) :],
        )
    return tuple(tokens)


def _counts(place: Token, first: int, last: int) -> tuple[Token, ...]:
    word = replace(place, kind="word", text="counts", low="counts", value=None)
    number = replace(word, kind="number", glued=False)
    dash = replace(word, kind="mark", text="-", low="-", glued=True)
    return (
        word,
        replace(number, text=str(first), low=str(first)),
        dash,
        replace(number, text=str(last), low=str(last), glued=True),
    )


def _after_its_counts(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a bracket that only tells the counts of a half: "(its counts 5-8)"."""
    if at >= len(tokens) or tokens[at].text != "(":
        return at
    closing = next((end for end in range(at, len(tokens)) if tokens[end].text == ")"), at - 1)
    inside = tokens[at + 1 : closing]
    only = all(
        one.kind == "number" or one.text == "-" or one.low in ("its", "counts", "count", "that", "is") for one in inside
    )
    return closing + 1 if only else at
