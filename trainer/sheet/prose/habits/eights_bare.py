"""Eights without counts of their own: under a range alone, "[9-16]", or so many lines as make up the stated length.

"32 counts" above four lines each of which fills an eight well (a six in a waltz), and no line that counts: they are
told with all their counts. Where steps stand under a range that is a line of its own, they are its words.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Fill = Callable[[Sequence[Token], int], float]

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FITS = 1.0
_STEPS = 4
"""Words of steps of an eight at least."""
_TITLE = 5
"""Tokens of a title before a colon."""
_FEET = {"r", "l", "rf", "lf"}


def with_bare_eights(lines: Sequence[Line], fill: Fill) -> tuple[Line, ...]:
    """Return the lines, steps that only stand for an eight told with its counts."""
    marked = [any(mark.strength >= _SURE for mark in marks_in(line.tokens, 0)) for line in lines]
    phrase = phrase_of(lines)
    ranged = [at for at, line in enumerate(lines) if _is_a_range(line, phrase)]
    if ranged and all(marked[at] == (at in ranged) for at in range(ranged[0], ranged[-1] + 1)):
        return _under_ranges(lines, ranged, marked, fill, phrase)
    if any(marked):
        return tuple(lines)
    total = header_facts([line.tokens for line in lines[:8]]).counts
    eights = {at: first for at, line in enumerate(lines) if (first := _whole(line, fill, phrase)) is not None}
    if total is None or len(eights) < 2 or len(eights) * phrase != total:
        return tuple(lines)
    done: list[Line] = []
    for at, line in enumerate(lines):
        if at not in eights:
            titles = at > min(eights) and at + 1 in eights and len(line.tokens) <= _TITLE
            done.append(replace(line, heads=True) if titles else line)
            continue
        first = eights[at]
        done += [replace(line, tokens=line.tokens[:first], source="")] if first else []
        steps = line.tokens[first:]
        done.append(replace(line, tokens=(*_range(steps[0], phrase), *steps), source=""))
    return tuple(done)


def _is_a_range(line: Line, phrase: int) -> bool:
    """Whether a line is nothing but the counts of an eight."""
    marks = marks_in(line.tokens, 0)
    whole = len(marks) == 1 and marks[0].first == 0 and marks[0].last == len(line.tokens)
    return whole and marks[0].spread and len(marks[0].places) == phrase


def _under_ranges(
    lines: Sequence[Line], ranged: Sequence[int], marked: Sequence[bool], fill: Fill, phrase: int
) -> tuple[Line, ...]:
    """Return the lines, each range joined with the steps under it, where all of them tell steps without counts."""
    under: dict[int, int] = {}
    for at in ranged:
        end = at + 1
        while end < len(lines) and not marked[end] and lines[end].number == lines[end - 1].tokens[-1].line + 1:
            end += 1
        steps = [token for line in lines[at + 1 : end] for token in line.tokens]
        if not steps or fill(steps, phrase) >= _FITS:
            return tuple(lines)
        under[at] = end
    done: list[Line] = []
    at = 0
    while at < len(lines):
        end = under.get(at, at + 1)
        tokens = tuple(token for line in lines[at:end] for token in line.tokens)
        done.append(replace(lines[at], tokens=tokens, source="") if at in under else lines[at])
        at = end
    return tuple(done)


def _whole(line: Line, fill: Fill, phrase: int) -> int | None:
    """Return where the steps of an eight begin in a line, None where it tells none."""
    celled = any(token.text == BREAK for token in line.tokens)
    if celled or extra_kind(line.tokens[:_TITLE]) or is_order(line.tokens):
        return None
    colon = next((at + 1 for at, token in enumerate(line.tokens[:_TITLE]) if token.text == ":"), 0)
    for first in {0, colon}:
        steps = line.tokens[first:]
        told = sum(token.low in STEP_WORDS or token.low in _FEET for token in steps)
        if told >= _STEPS and fill(steps, phrase) < _FITS:
            return first
    return None


def _range(place: Token, phrase: int) -> tuple[Token, Token, Token]:
    first = replace(place, kind="number", text="1", low="1", glued=False, value=None)
    dash = replace(first, kind="mark", text="-", low="-")
    return first, dash, replace(first, text=str(phrase), low=str(phrase))
