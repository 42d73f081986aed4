"""Sections that a sheet numbers by ordinals alone: "1st R side, ...", "2nd R kick, ...", and then "stop after 3rd".

Where ordinals open the lines of steps in order, one that stands by itself is a section, and the word for it is put in.
If the headings have a word for it, "1st 8", one by itself is a section only after a wall that is named in its line.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES, NUMBERS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 3
_PLACES = ("st", "nd", "rd", "th")
_SECTIONS = {"eight", "8", "section", "set", "block", "part", "figure", "phrase", "six", "6", "sec"}
_NUMBERED = _SECTIONS | {
    "wall", "walls", "w", "time", "times", "count", "counts", "ct", "cts", "beat", "beats", "sections", "eights",
    "sets", "blocks", "parts", "line", "lines", "row", "half", "foot", "tag", "tags", "restart", "bridge", "one",
    "pass", "round", "rotation", "repetition", "go", "bar", "bars", "step", "verse", "chorus", "sixes", "wave",
    "pattern", "of", "group",
}  # fmt: skip
"""What an ordinal before it numbers."""
_JOINS = {"&", "and", ",", "+", "-"}
_MARKS = {":", "-", ".", ")", BREAK}
_BEFORE = {"after", "of", "through", "to", "with", "only", "just", "until", "and", "&", "+", "from"}
_AFTER = {"then", "and", "put", "add", "restart", "only", "go", "start", "tag", "hold", "section"}
_WALLS = {"wall", "walls", "w"}
_ON = {"on", "in", "of"}
_ANY = {"every", "each", "all", "any", "other"}


def with_ordinal_sections(lines: Sequence[Line]) -> list[Line]:
    """Return the lines with the word for a section after each ordinal that stands for one."""
    bare, named = _opening(lines, named=False), _opening(lines, named=True)
    most = max(bare, named)
    if not most:
        return list(lines)
    return [
        replace(line, tokens=_with_words(line.tokens, after[:2], most, after_walls=not bare))
        for line, after in zip(lines, (*(line.tokens for line in lines[1:]), ()), strict=True)
    ]


def _opening(lines: Sequence[Line], *, named: bool) -> int:
    """Return how many lines begin with ordinals in order, by themselves or before what they number; or 0."""
    found = []
    for line in lines:
        value, last = _ordinal(line.tokens, 0)
        if not last or last >= len(line.tokens) or not (named or _tells_steps(line)):
            continue
        word = line.tokens[last].low
        spelled = line.tokens[0].kind == "word"
        bare = not _is_numbered(line.tokens, last) and word not in (",", "&", "+", "and")
        fits = word in _SECTIONS if named else bare
        if fits and (named or not spelled or word in _MARKS or _begins_anew(line)):
            found.append(value)
    in_order = len(found) >= _LEAST and found[0] == 1 and all(b == a + 1 for a, b in pairwise(found))
    return len(found) if in_order else 0


def _begins_anew(line: Line) -> bool:
    """Whether the counts of a line begin with 1 and stand in brackets: "FOURTH comes a kick ball change (1&2)"."""
    marks = [mark for mark in marks_in(line.tokens, 0) if mark.closed]
    many = len(marks) >= _LEAST or (bool(marks) and len(marks[0].places) >= _LEAST)
    return many and marks[0].start.number == 1


def _tells_steps(line: Line) -> bool:
    """Whether a line tells several steps, and is no row of a list of walls: "3rd  back  1 - 24"."""
    return sum(token.low in STEP_WORDS for token in line.tokens) >= _LEAST


def _ordinal(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the number that an ordinal at a token says, and the index after it; 0 and 0 where none stands."""
    if tokens[at].low in EIGHT_PLACES:
        return EIGHT_PLACES[tokens[at].low], at + 1
    if at + 1 >= len(tokens) or tokens[at].kind != "number" or len(tokens[at].text) > 1:
        return 0, 0
    place = tokens[at + 1].low in _PLACES and tokens[at + 1].glued
    return (int(tokens[at].text), at + 2) if place else (0, 0)


def _is_numbered(tokens: Sequence[Token], at: int) -> bool:
    """Whether what an ordinal numbers stands at a token, other ordinals before it: "3rd and 6th walls"."""
    while at < len(tokens) and tokens[at].low in _JOINS:
        _, last = _ordinal(tokens, at + 1) if at + 1 < len(tokens) else (0, 0)
        if not last:
            return False
        at = last
    return at < len(tokens) and tokens[at].low in _NUMBERED


def _with_words(tokens: Sequence[Token], below: Sequence[Token], most: int, *, after_walls: bool) -> tuple[Token, ...]:
    """Return a line's tokens with the words put in; `below` begins the next line, `most` is the number of sections."""
    whole = (*tokens, *below)
    done: list[Token] = []
    at = 0
    walls = not after_walls
    while at < len(tokens):
        value, last = _ordinal(tokens, at)
        walls = walls or (tokens[at].low in _WALLS and at + 1 < len(tokens) and not _is_any(tokens, at))
        if not value:
            done.append(tokens[at])
            at += 1
            continue
        done += tokens[at:last]
        if walls and value <= most and _stands_alone(whole, at, last) and not _more_walls(tokens, at):
            done.append(replace(tokens[last - 1], text="section", low="section", glued=False))
            if not at and last < len(tokens) and tokens[last].kind == "word":
                done.append(replace(tokens[last - 1], kind="mark", text=":", low=":"))
        at = last
    return tuple(done)


def _is_any(tokens: Sequence[Token], at: int) -> bool:
    """Whether no wall is meant by itself: "every wall but the fourth", "the first three walls"."""
    before = [token.low for token in tokens[max(at - 2, 0) : at]]
    return bool(_ANY & set(before)) or (tokens[at].low == "walls" and any(word in NUMBERS for word in before))


def _more_walls(tokens: Sequence[Token], at: int) -> bool:
    """Whether an ordinal is one more of the walls that were named: "after the third wall and again after the sixth"."""
    near = [token.low for token in tokens[max(at - _NEAR, 0) : at]]
    named = any(
        token.low in _WALLS and place and (tokens[place - 1].low in EIGHT_PLACES or tokens[place - 1].low in _PLACES)
        for place, token in enumerate(tokens[:at])
    )
    return named and "and" in near and not {"wall", "walls"} & set(near[near.index("and") :])


_NEAR = 5


def _of_walls(tokens: Sequence[Token], at: int) -> bool:
    """Whether an ordinal tells a wall, as those before it did: "the first wall is whole, so is the second"."""
    by_place = any(
        token.low in _WALLS and place and tokens[place - 1].low in EIGHT_PLACES
        for place, token in enumerate(tokens[:at])
    )
    led = [token.low for token in tokens[max(at - 3, 0) : at]]
    opens = led[-2:] == ["is", "the"] or (led[-2:] in (["in", "the"], ["on", "the"]) and led[0] in (".", "!", ";"))
    return by_place and opens


def _stands_alone(tokens: Sequence[Token], at: int, last: int) -> bool:
    """Whether an ordinal numbers nothing that is named; one in words is often no place at all: "first step right"."""
    if _is_numbered(tokens, last) or _of_walls(tokens, at):
        return False
    if tokens[at].kind == "number":
        return True
    after = tokens[last] if last < len(tokens) else None
    if not at:
        return after is not None and after.low in _MARKS
    # "After SECOND on walls 2 and 4".
    on_walls = [token.low in words for token, words in zip(tokens[last : last + 2], (_ON, _WALLS), strict=False)]
    ends = after is None or after.kind == "mark" or after.low in _AFTER or on_walls == [True, True]
    return tokens[at - 1].low in _BEFORE | {"the"} and ends
