"""Titles with counts over the lines that spell them out: "STEP, TOGETHER, SHUFFLE   1,2,3&4" over its steps.

The title only sums up where the steps below fill its counts by themselves; then they are told with these counts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Fewer counts need no title."""
_SURE = 1.0
"""The strength of a mark that is no number among words."""
_MOSTLY = 0.7
"""So many lines with counts are titles, where it is the sheet's way."""
_CLEARLY = 0.3
"""Steps may fill four counts worse than the title by so much."""
_POOR = 0.8
"""Steps that fill their counts so badly are no spelling out."""
_HALVES = ("&", "a", "e", "and")
_BETWEEN = (",", ";", "-", BREAK, ".", ":")


@dataclass(frozen=True, slots=True)
class _Title:
    """A line of a name and its counts, and the lines of steps under it."""

    at: int
    counts: tuple[Token, ...]
    name: tuple[Token, ...]
    places: int
    halves: bool
    steps: tuple[Token, ...]
    last: int
    """The index of the last line of steps."""


def with_titles_spelled_out(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, titles over their steps gone and their counts before the steps."""
    titles = [title for at in range(len(lines)) if (title := _title(lines, at)) is not None]
    covered = {at for title in titles for at in range(title.at, title.last + 1)}
    others = sum(_is_counted(line) for at, line in enumerate(lines) if at not in covered)
    if len(titles) < 2 or len(titles) < _MOSTLY * (len(titles) + others):
        return tuple(lines)
    spelled = {title.at: title for title in titles if _spells_out(title)}
    if len(spelled) < _MOSTLY * len(titles):
        return tuple(lines)
    gone = {at for title in spelled.values() for at in range(title.at + 1, title.last + 1)}
    return tuple(
        replace(line, tokens=(*spelled[at].counts, *spelled[at].steps), source="") if at in spelled else line
        for at, line in enumerate(lines)
        if at not in gone
    )


def _title(lines: Sequence[Line], at: int) -> _Title | None:
    """Return the title that a line is, with the steps under it."""
    line = lines[at]
    marks = marks_in(line.tokens, at)
    cluster = _cluster(line.tokens, marks)
    places = [place for mark in cluster for place in mark.other or mark.places]
    if len(places) < _LEAST or extra_kind(line.tokens) is not None:
        return None
    first, last = cluster[0].first, cluster[-1].last
    name = _trimmed((*line.tokens[:first], *line.tokens[last:]))
    if not any(token.kind == "word" for token in name):
        return None
    halves = any(place.sub for place in places)
    steps: list[Token] = []
    below = at
    while below + 1 < len(lines) and _goes_on(lines[below], lines[below + 1]):
        below += 1
        steps += _without_halves(lines[below].tokens) if halves else lines[below].tokens
    return _Title(at, line.tokens[first:last], name, len(places), halves, tuple(steps), below) if steps else None


def _cluster(tokens: Sequence[Token], marks: Sequence[Mark]) -> list[Mark]:
    """Return the counts that a line opens or closes with, if it has no others."""
    for leading in (True, False):
        found: list[Mark] = []
        edge = 0 if leading else len(tokens)
        for mark in marks if leading else reversed(marks):
            between = tokens[edge : mark.first] if leading else tokens[mark.last : edge]
            if not all(token.text in _BETWEEN for token in between):
                break
            found.append(mark)
            edge = mark.last if leading else mark.first
        rest = [mark for mark in marks if mark not in found and mark.strength >= _SURE]
        if found and not rest:
            return sorted(found, key=lambda mark: mark.first)
    return []


def _trimmed(tokens: Sequence[Token]) -> tuple[Token, ...]:
    return tuple(token for token in tokens if token.text != BREAK)


def _goes_on(above: Line, line: Line) -> bool:
    """Whether a line stands right under another and has no counts of its own but halves in brackets."""
    return line.number == above.tokens[-1].line + 1 and not _is_counted(line) and extra_kind(line.tokens) is None


def _is_counted(line: Line) -> bool:
    tokens = _without_halves(line.tokens)
    return any(mark.strength >= _SURE for mark in marks_in(tokens, 0))


def _without_halves(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return tokens without half beats in brackets, which the counts of the title have: "step right to side (&)"."""
    gone: set[int] = set()
    for at in range(len(tokens) - 2):
        opened, half, closed = tokens[at : at + 3]
        if opened.text == "(" and half.low in _HALVES and closed.text == ")":
            gone |= {at, at + 1, at + 2}
    return tuple(token for at, token in enumerate(tokens) if at not in gone)


def _spells_out(title: _Title) -> bool:
    """Whether the steps fill the counts of a title as well as its own words do."""
    cost = fills(title.steps, title.places)
    return cost < _POOR and cost <= fills(title.name, title.places) + _CLEARLY * max(1.0, title.places / 4)
