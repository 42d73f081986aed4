"""Labelled eights of which only the half beats are counted: "1st 8: rock fwd right, recover, shuffle back (3&4), ...".

Where the labels rise in a series, no section counts from 1, and the words of each fill an eight well (a six in a
waltz), they are told with all its counts. Counts in brackets that only mark a shuffle, "(3&4)", go: the steps fill the
eight without them. Sheets without any counts are read by `uncounted`.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.habits.sections_again import Head, series
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.heads.referring_words import names_a_section, points_back
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Fill = Callable[[Sequence[Token], int], float]

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FITS = 1.0
_STEPS = 3
"""Words of steps of a section at least."""
_FEET = {"r", "l", "rf", "lf"}


@dataclass(frozen=True, slots=True)
class _Eight:
    """A section without counts: its lines, the words of its steps, and how many of the label's line stay as title."""

    at: int
    until: int
    steps: tuple[Token, ...]
    """Empty where it only points to another."""
    title: int


def with_eights_untold(lines: Sequence[Line], fill: Fill) -> tuple[Line, ...]:
    """Return the lines, each section's steps behind all its counts where the sheet tells none."""
    heads = series(lines)
    if len(heads) < 2 or not any(_marks_halves(line) for line in lines):
        return tuple(lines)
    phrase = phrase_of(lines)
    places = [*heads, len(lines)]
    eights = []
    for at, until in pairwise(places):
        eight = _eight(lines, heads[at], at, until, phrase, fill)
        if eight is None:
            return tuple(lines)
        eights.append(eight)
    if not any(eight.steps for eight in eights):
        return tuple(lines)
    done = list(lines[: places[0]])
    for eight, after in zip(eights, places[1:], strict=True):
        done += _told(lines, eight, phrase) if eight.steps else lines[eight.at : eight.until]
        done += lines[eight.until : after]
    return tuple(done)


def _eight(lines: Sequence[Line], head: Head, at: int, until: int, phrase: int, fill: Fill) -> _Eight | None:
    """Return a section that tells no counts, None where it does or its words are no whole eight."""
    end = next((index for index in range(at + 1, until) if _ends(lines, index)), until)
    below = [token for line in lines[at + 1 : end] for token in line.tokens]
    beside = list(lines[at].tokens[head.end :])
    if points_back(beside or below) and (names_a_section(beside or below) or len(beside or below) < phrase):
        return _Eight(at, end, (), 0)
    for words, title in ((beside + below, head.end), (below, len(lines[at].tokens))):
        if words is below and _speak(beside):
            # Steps beside the label are no title.
            break
        steps = _without_counts(words)
        celled = sum(token.text == BREAK for token in words) > 1
        if steps is not None and not celled and _speak(steps) and fill(steps, phrase) < _FITS:
            return _Eight(at, end, steps, title)
    return None


def _ends(lines: Sequence[Line], index: int) -> bool:
    """Whether a line does not belong to the section above it: after an empty line, an extra, a word of the order."""
    line = lines[index]
    apart = line.number > lines[index - 1].tokens[-1].line + 1
    return apart or extra_kind(line.tokens[:4]) is not None or is_order(line.tokens)


def _speak(words: Sequence[Token]) -> bool:
    return sum(token.low in STEP_WORDS or token.low in _FEET for token in words) >= _STEPS


def _without_counts(words: Sequence[Token]) -> tuple[Token, ...] | None:
    """Return words without the counts of shuffles in brackets; None where they tell their counts from 1 on."""
    done = list(words)
    for mark in reversed([mark for mark in marks_in(tuple(words), 0) if mark.strength >= _SURE]):
        if not mark.closed or mark.start.number == 1 or not _halved(mark):
            return None
        del done[mark.first : mark.last]
    return tuple(done)


def _marks_halves(line: Line) -> bool:
    return any(mark.closed and mark.strength >= _SURE and _halved(mark) for mark in marks_in(line.tokens, 0))


def _halved(mark: Mark) -> bool:
    return any(place.sub for place in mark.places)


def _told(lines: Sequence[Line], eight: _Eight, phrase: int) -> list[Line]:
    """Return the lines of a section: its label and title, and its steps in one line with their counts."""
    head = lines[eight.at]
    first = eight.steps[0]
    number = replace(first, kind="number", text="1", low="1", glued=False, value=None)
    dash = replace(number, kind="mark", text="-", low="-")
    last = replace(number, text=str(phrase), low=str(phrase))
    label = replace(head, tokens=head.tokens[: eight.title], source="")
    return [label, replace(head, number=first.line, tokens=(number, dash, last, *eight.steps), source="")]
