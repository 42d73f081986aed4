"""The views of a whole page, each a guess at what its lines are; the reader takes the one that leaves the least wrong.

First the lines as they stand and their sentences (`views.py`). Where those read badly: numbers as lengths, and the
head without counts, since a number of the head may begin a run that was meant to begin below it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from trainer.sheet.prose.counts.chain import goes_on
from trainer.sheet.prose.counts.joined_marks import with_joined_marks
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.facing.margin_clocks import with_margin_clocks, with_rows_alike
from trainer.sheet.prose.habits.nicknames import with_nicknames
from trainer.sheet.prose.lengths.writing import with_lengths
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.uncounted.writing import with_counts_filled
from trainer.sheet.prose.views.columns import with_columns
from trainer.sheet.prose.views.section_words import with_section_words
from trainer.sheet.prose.views.set_apart import with_counts_in_words, with_counts_set_apart
from trainer.sheet.prose.views.titled import with_titles_spelled_out
from trainer.sheet.prose.views.views import views_of

_HEAD = 14
"""Lines at most above the first count."""
_HEADS = 3
"""So many places where the head may end are tried."""


def plain_views(clean: Sequence[Line], keys: Sequence[Line]) -> Iterator[tuple[Line, ...]]:
    """Yield the views of a sheet: first that of one without any counts, or without titles that are spelled out."""
    plain = tuple(clean)
    lines = _lines_of(plain)
    if (filled := with_counts_filled(lines, keys, is_order, bare=True)) != lines:
        yield filled
    for page in dict.fromkeys((with_titles_spelled_out(plain), plain)):
        yield from views_of(_lines_of(page), is_order)


def filled_view(clean: Sequence[Line], keys: Sequence[Line]) -> tuple[Line, ...] | None:
    """Return the lines with counts for those steps that have none; None where all have some."""
    lines = _lines_of(tuple(clean))
    filled = with_counts_filled(lines, keys, is_order)
    return filled if filled != lines else None


def doubtful_views(clean: Sequence[Line], keys: Sequence[Line]) -> Iterator[tuple[Line, ...]]:
    """Yield the views that are tried where the plain ones read badly."""
    lines = _lines_of(tuple(clean))
    if (counted := with_counts_in_words(lines)) != lines:
        yield from views_of(counted, is_order)
    measured = with_lengths(lines, keys, is_order)
    if measured != lines:
        yield from views_of(measured, is_order)
    for muted in _muted_heads(lines):
        yield from views_of(muted, is_order)


def _muted_heads(lines: Sequence[Line]) -> Iterator[tuple[Line, ...]]:
    """Yield the lines, the numbers above one that has the count 1 counting nothing: the head may be longer."""
    counted = [at for at, line in enumerate(lines[:_HEAD]) if marks_in(line.tokens, at)]
    opening = [at for at in counted[1:] if any(mark.start.number == 1 for mark in marks_in(lines[at].tokens, at))]
    for head in opening[:_HEADS]:
        if _go_on(lines[:head]):
            return
        yield tuple(replace(line, mute=at < head) for at, line in enumerate(lines))


def _go_on(lines: Sequence[Line]) -> bool:
    """Whether counts open some line or go on from one to the next: then steps are told there, and no head."""
    marks = [mark for at, line in enumerate(lines) for mark in marks_in(line.tokens, at)]
    if any(mark.first == 0 and len(mark.places) > 1 for mark in marks):
        return True
    return any(goes_on(before.end, after.start) for before, after in pairwise(marks))


@lru_cache(maxsize=4)
def _lines_of(clean: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return the lines of a sheet, tables told as lines and the sheet's own words as those of the trade."""
    clocked = with_margin_clocks(clean)
    faced = with_facings(with_rows_alike(clocked, with_columns(clocked)))
    return with_nicknames(with_section_words(with_joined_marks(with_counts_set_apart(faced))))
