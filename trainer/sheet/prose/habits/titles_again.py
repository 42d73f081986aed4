"""Sections that only a title heads, told again by it: "WALKS AGAIN", "Repeat the vines", "The first section once more".

Where such a line stands among titled sections and counts nothing, the sections are numbered through, and it is told as
one that repeats another by its number (`sections_again.py` does the rest).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.habits.sections_again import series
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_LONGEST = 9
"""Tokens of a title."""
_AGAIN = {"repeat", "repeats", "repeated", "again", "same", "ditto", "more", "reprise"}
"""One of these is in every line that tells a section again."""
_REPEAT = {"repeat", "repeats", "repeated"}
_WHOLE = {"and", "dance", "the", "from", "start", "beginning", "top", "again"}
"""Beside "repeat" these say no more than that it begins again."""
_AROUND = {
    "once", "as", "the", "of", "all", "do", "dance", "over", "just", "section", "sections", "eight", "8", "bit", "set",
    "a", "second", "time", "exactly", "in", "step", "steps", "is", "are", "then", "and", "part", "whole", "counts",
    "this", "that", "it", "like", "last", "previous",
}  # fmt: skip
_MIRROR = {"on", "with", "to", "other", "opposite", "foot", "feet", "side", "way", "left", "mirrored", "leading"}
"""Words by which the other foot dances it."""


@dataclass(frozen=True, slots=True)
class _Again:
    """A line that tells a section again: the number of that section, and the words on the foot that begins."""

    section: int
    mirror: tuple[Token, ...]


def with_titles_again(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, titled sections numbered where one of them is told again by its title."""
    if not any(_AGAIN & {token.low for token in line.tokens} for line in lines) or len(series(lines)) > 1:
        return tuple(lines)
    marks = [[mark for mark in marks_in(line.tokens, 0) if mark.strength >= _SURE] for line in lines]
    titles: list[set[str]] = []
    told: dict[int, _Again | None] = {}
    for at, line in enumerate(lines):
        if marks[at] or len(line.tokens) > _LONGEST or extra_kind(line.tokens) or is_order(line.tokens):
            continue
        if _heads_counts(lines, marks, at):
            titles.append({_plain(token.low) for token in line.tokens if token.kind == "word"})
            told[at] = None
        elif titles and not _begins_again(lines, marks, at) and (again := _again(line, titles)) is not None:
            titles.append(set())
            told[at] = again
    if not any(told.values()):
        return tuple(lines)
    numbers = {at: number for number, at in enumerate(told, 1)}
    return tuple(
        replace(line, tokens=_numbered(line, numbers[at], told[at]), source="") if at in told else line
        for at, line in enumerate(lines)
    )


def _heads_counts(lines: Sequence[Line], marks: Sequence[Sequence[Mark]], at: int) -> bool:
    """Whether a line stands right over one that begins with the first count."""
    if at + 1 >= len(lines) or lines[at + 1].number != lines[at].number + 1 or not marks[at + 1]:
        return False
    first = marks[at + 1][0]
    return first.first == 0 and first.start.number == 1 and not first.start.sub


def _begins_again(lines: Sequence[Line], marks: Sequence[Sequence[Mark]], at: int) -> bool:
    """Whether a line has the whole dance begin again: "REPEAT" by itself, with no section below it."""
    words = {token.low for token in lines[at].tokens if token.kind in ("word", "number")}
    sections = (
        _heads_counts(lines, marks, after) and not extra_kind(lines[after].tokens) for after in range(at, len(lines))
    )
    return bool(words & _REPEAT) and words <= _REPEAT | _WHOLE and not any(sections)


def _again(line: Line, titles: Sequence[set[str]]) -> _Again | None:
    """Return which section a line tells again, None where it says something else."""
    words = [token for token in line.tokens if token.kind in ("word", "number")]
    if not {token.low for token in words} & _AGAIN:
        return None
    left = [token for token in words if token.low not in _AGAIN and token.low not in _AROUND]
    mirror = tuple(token for token in left if token.low in _MIRROR)
    named = {_plain(token.low) for token in left} - {_plain(token.low) for token in mirror}
    numbers = [ORDINALS[word] for word in named if word in ORDINALS]
    if numbers and len(named) == 1:
        fitting = numbers if numbers[0] <= len(titles) else []
    elif named:
        fitting = [number for number, title in enumerate(titles, 1) if named <= title]
    else:
        fitting = [len(titles)]
    return _Again(fitting[0], mirror) if len(fitting) == 1 else None


def _plain(word: str) -> str:
    """Return a word without the ending of several."""
    return word.removesuffix("s")


def _numbered(line: Line, number: int, again: _Again | None) -> tuple[Token, ...]:
    """Return a title with its section's number, and what it repeats."""
    place = line.tokens[0]
    name = (_word("section", place), _word(str(number), place, "number"), _word(":", place, "mark"))
    if again is None:
        return (*name, *line.tokens)
    return (
        *name,
        *(_word(word, place) for word in ("repeat", "section")),
        _word(str(again.section), place, "number"),
        *again.mirror,
    )


def _word(text: str, place: Token, kind: str = "word") -> Token:
    return replace(place, kind=kind, text=text, low=text, glued=False, value=None)  # type: ignore[arg-type]
