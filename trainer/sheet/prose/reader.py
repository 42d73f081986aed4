"""A teacher's sheet to a routine: its page in several views, of which the one that leaves the least wrong is kept."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

from trainer.dance.proof import proofread
from trainer.problems import Problem, in_order, loud
from trainer.routine import Routine
from trainer.sheet.prose.extras.told_above import in_place, told_below
from trainer.sheet.prose.habits.nicknames import with_nicknames
from trainer.sheet.prose.habits.written_alike import written_alike
from trainer.sheet.prose.lexis.part_pieces import is_piece
from trainer.sheet.prose.one_view import ViewRead, read_view
from trainer.sheet.prose.order.claims.passes import BEYOND_THE_PLAY
from trainer.sheet.prose.placed_back import placed_back
from trainer.sheet.prose.plays.ends_amid import ends_amid, with_endings_put_in
from trainer.sheet.prose.plays.pieces import not_understood, with_pieces
from trainer.sheet.prose.plays.rewriting import with_play
from trainer.sheet.prose.plays.told_items import dances_a_tag
from trainer.sheet.prose.plays.unheard import unheard
from trainer.sheet.prose.remarks_kept import with_remarks_kept
from trainer.sheet.prose.text.capitals import with_capitals
from trainer.sheet.prose.text.laid_out import LaidOut, is_close, laid_out, without_wraps
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.plus_signs import with_ands_for_plus
from trainer.sheet.prose.views.page_views import doubtful_views, filled_view, plain_views

_WORTH = 1.5
"""So much less must be wrong in another view: one fault of the sheet is no reason to read it anew."""

_MISREAD = 3.0
"""So much is wrong with no sheet that is read as it is meant: any view that leaves less wrong is better."""
_LESS = 0.5
_APART = 2
"""Lines from the first thing wrong to the last, in a sheet that has more than one fault."""
_MOST_TOKENS = 4_000
"""So many tokens are read in all views of a sheet together, about a second's work; then no further one is tried."""


@dataclass(slots=True)
class _Views:
    """What reads the views of one sheet, and how many tokens it has read."""

    keys: Sequence[Line]
    """The lines that explain the sheet's short forms."""
    tokens: int = 0

    def read(self, view: Sequence[Line]) -> ViewRead:
        """Read one view."""
        self.tokens += sum(len(line.tokens) for line in view)
        return read_view(view, self.keys)

    @property
    def spent(self) -> bool:
        """Whether enough was read: a sheet that reads badly in many views must not keep a dancer waiting."""
        return self.tokens > _MOST_TOKENS


def read_prose(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    """Read a teacher's sheet; return the routine as far as it could be read, and what is wrong in its words and counts.

    The page is read as its lines stand; where more than one thing is wrong so, it is read in its other views too,
    and what leaves the least wrong is kept. The laws of the dance are not proofread here (`dance.proof` does that on
    the routine), but for what the cheapest path had to mend: a line with swapped feet, a stated facing that was
    believed against the turns. Lines that nothing was read from are kept as remarks.
    """
    wrapped = without_wraps(text)
    read = _read_lines(wrapped.text)
    if wrapped.text != text and read.price > 0 and not read.views.spent:
        # Lines may have been joined that say a thing each; then the page reads better as it stands.
        other = _read_lines(text, read.views.tokens)
        if other.price < read.price:
            return other.routine, other.problems
    return placed_back(read.routine, read.problems, wrapped)


def _read_lines(text: str, tokens: int = 0) -> "_PageRead":
    """Read a text in the lines that it has, its places told as they stand in it."""
    text = with_ands_for_plus(text)
    # Nothing tells where a line or a sentence begins, or a part's letter, in a text without capitals, or of them only.
    cased = with_capitals(text)
    page, read = _best_layout(cased, tokens)
    typed = text if cased != text else ""
    if cased != text and read.price > 0 and not read.views.spent:
        other_page, other = _best_layout(text, read.views.tokens)
        if other.price < read.price:
            page, read, typed = other_page, other, ""
    return _PageRead(*placed_back(read.routine, read.problems, page, typed=typed), read.price, read.views)


@dataclass(frozen=True, slots=True)
class _PageRead:
    """What one layout of a page gives, how much is wrong with it, and what it cost to read."""

    routine: Routine
    problems: tuple[Problem, ...]
    price: float
    views: _Views


def _best_layout(text: str, tokens: int = 0) -> tuple[LaidOut, _PageRead]:
    """Read a text as its lines stand, one that is set close also with empty lines; return what reads better."""
    page, read = _in_its_layout(text, tokens)
    if read.price == 0 or read.views.spent or not is_close(text):
        return page, read
    # Nothing tells where the head or a paragraph ends in a page that is set close.
    apart, whole = laid_out(text, apart=True), laid_out(text, apart=True, paragraphs=True)
    other_page = whole if whole.flowing else apart
    other = _read(other_page, read.views.tokens)
    better = 2 * other.price <= read.price
    return (other_page, other) if better else (page, read)


def _in_its_layout(text: str, tokens: int = 0) -> tuple[LaidOut, _PageRead]:
    """Read a text as its lines stand, or in sentences that the margin broke, and return what reads better."""
    page, whole = laid_out(text), laid_out(text, paragraphs=True)
    first, second = (whole, page) if whole.flowing else (page, whole)
    read = _read(first, tokens)
    if read.price > 0 and not read.views.spent and second.text != first.text:
        # Its sentences were not found where the margin broke them, or lines were joined that say a thing each.
        other = _read(second, read.views.tokens)
        if other.price < _LESS or other.price <= read.price - (0 if whole.flowing else _MISREAD):
            return second, other
    return first, read


def _read(page: LaidOut, tokens: int = 0) -> _PageRead:
    """Read the plain text of a page, of a sheet of which so many tokens were read before."""
    text = page.text
    keyed = written_alike(text)
    lines = keyed.lines
    below = told_below(lines)
    views = _Views(keyed.keys, tokens)
    best = _with_play(below, _best_of(below, views), views) if below is not None else None
    if best is None or best.price > 0:
        # What stands above the dance may be told there as it is below it; else it is read where it stands.
        plain = _with_play(lines, _best_of(lines, views, doubtful=True), views)
        best = plain if best is None or plain.price <= best.price else best
    if ends_amid(best.routine) and (put_in := with_endings_put_in(with_nicknames(lines), best.routine)) is not None:
        again = _with_play(put_in, _best_of(put_in, views), views)
        best = again if again.price <= best.price else best
    routine, problems = in_place(best.routine, best.problems)
    pieces = any(is_piece(part.name) for part in routine.parts)
    told = (with_pieces(lines, routine) if pieces else None) or lines
    missed = unheard(told, routine)
    missed = missed or not_understood(told, routine)
    kept = with_remarks_kept(routine, in_order([*problems, *missed]), text, keyed.keys, page)
    return _PageRead(*kept, best.price + len(missed), views)


def _with_play(lines: Sequence[Line], plain: ViewRead, views: _Views) -> ViewRead:
    """Return the better reading of a phrased dance, with its play as it stands or told as one line.

    A pass that is spoken of and not danced is no less missed where what speaks of it was told with the play.
    """
    lines, plain = _pieces_told(lines, plain, views)
    told = _play_told(lines, plain, views)
    missed = [one for one in loud(plain.problems) if BEYOND_THE_PLAY in one.message and one not in told.problems]
    if not missed or _parts_played(told.routine) != _parts_played(plain.routine):
        return told
    return replace(told, problems=in_order([*told.problems, *missed]), price=told.price + len(missed))


def _pieces_told(lines: Sequence[Line], plain: ViewRead, views: _Views) -> tuple[Sequence[Line], ViewRead]:
    """Return the lines of a phrased dance and their reading, parts that are danced only partly told plainly in them."""
    anew = with_pieces(lines, plain.routine)
    if anew is None:
        return lines, plain
    told = _best_of(anew, views)
    whole = {part.name: part.counts for part in told.routine.parts if not is_piece(part.name)}
    same = whole == {part.name: part.counts for part in plain.routine.parts}
    return (anew, told) if same else (lines, plain)


def _parts_played(routine: Routine) -> list[str]:
    return [item.name for item in routine.play if item.kind == "part"]


def _play_told(lines: Sequence[Line], plain: ViewRead, views: _Views) -> ViewRead:
    """Read the lines of a phrased dance once more with its play told as one, and return the better reading.

    Where the play is the one that was read already, the lines as they stand are believed unless they read worse.
    """
    anew = with_play(lines, plain.routine)
    named = with_nicknames(lines)
    if (other := with_play(named, plain.routine)) is not None and (anew is None or other.items > anew.items):
        # An extra that goes by a name of its own is an item only where it is known for one.
        anew, lines = other, named
    if anew is None or (plain.price == 0 and not anew.differs):
        return plain
    most = plain.price + _MISREAD
    told = _best_of(anew.lines, views, most=most)
    if [part.counts for part in told.routine.parts] != [part.counts for part in plain.routine.parts]:
        # What tells the play was taken for steps of a part.
        told = _best_of((with_play(lines, told.routine) or anew).lines, views, most=most)
    # A thing or two wrong about a play whose parts are told alike are faults of the sheet, not of the reading.
    at_fault = anew.same_parts and plain.price <= 2 and any(one.kind == "order" for one in loud(plain.problems))
    less = 0 if anew.differs and not at_fault else _WORTH
    if all(one.line in anew.explained for one in loud(plain.problems)):
        # What was not understood there was only said of the play once more.
        less = min(less, _LESS)
    if anew.extends and plain.price >= _MISREAD:
        # The page reads badly anyhow, and a view more may be all that it lacks: the play goes on behind what was read.
        less = -1
    if len(plain.routine.parts) > 1 and len(told.routine.parts) < 2 and not plain.short:
        # What tells how long the parts are was taken for their play, and they are lost.
        return plain
    if 2 * _steps_read(told.routine) < _steps_read(plain.routine):
        # Rows of a table of steps, a part's letter before each, were taken for its play.
        return plain
    if anew.beyond and told.price <= plain.price + 1:
        return told
    as_long = anew.same_parts or len(plain.routine.play) >= anew.items
    if told.price == plain.price and as_long and dances_a_tag(plain.routine) and not dances_a_tag(told.routine):
        # A tag that is placed apart from the play must not be lost in it.
        return plain
    return told if told.price <= plain.price - less else plain


def _best_of(clean: Sequence[Line], views: _Views, *, doubtful: bool = False, most: float = inf) -> ViewRead:
    """Read some clean lines in each of their views, and return what leaves the least wrong.

    The doubtful views are many: they are read once a sheet, and only where more than one thing is wrong. Where the
    first view leaves more than `most` wrong, no other is tried.
    """
    best: ViewRead | None = None
    for view in plain_views(clean, views.keys):
        reading = views.read(view)
        if best is None or reading.price <= best.price - (_WORTH if best.price < _MISREAD else _LESS):
            best = reading
        if best.price < _WORTH or best.price > most or views.spent:
            break
    assert best is not None
    if best.short:
        best = _with_counts_filled(clean, best, views)
    for view in doubtful_views(clean, views.keys) if doubtful and _is_doubtful(best) else ():
        if views.spent:
            break
        reading = views.read(view)
        if reading.price <= best.price - _LESS and _steps_read(reading.routine) >= _steps_read(best.routine):
            best = reading
    return _with_counts_filled(clean, best, views)


def _with_counts_filled(clean: Sequence[Line], best: ViewRead, views: _Views) -> ViewRead:
    """Return the reading with counts for the steps that have none, where it has more of them and little is wrong."""
    # A fault or two of a sheet whose counts come to what is told must not be explained away.
    short = _sums_wrong(best) or best.short or not best.routine.parts
    if not (best.price > _MISREAD or short) or views.spent:
        return best
    filled = filled_view(clean, views.keys)
    reading = views.read(filled) if filled is not None else best
    more = _steps_read(reading.routine) > _steps_read(best.routine)
    sound = reading.price < _WORTH and not _sums_wrong(reading) and not reading.short
    return reading if more and (sound or not best.routine.parts) else best


def _sums_wrong(reading: ViewRead) -> bool:
    """Whether the dance has fewer counts than it is said to have: some may be told without."""
    parts = reading.routine.parts
    return len(parts) == 1 and (reading.routine.counts or 0) > parts[0].counts


def _is_doubtful(reading: ViewRead) -> bool:
    """Whether much is wrong, or things far apart: what one fault brings with it nearby is no sign of a misread page.

    So it is where parts are shorter than the head says: their eights are told in a way that was not read.
    """
    if reading.short and reading.price >= _WORTH:
        return True
    if not _WORTH <= reading.price <= _MISREAD:
        return reading.price > _MISREAD
    found = (*loud(reading.problems), *loud(proofread(reading.routine)))
    lines = [one.line for one in found if one.line]
    return max(lines, default=0) - min(lines, default=0) >= _APART


def _steps_read(routine: Routine) -> int:
    """Return how many steps of the dance were read: a view must not read better by leaving some out."""
    sections = (section for part in routine.parts for section in part.sections)
    return sum(event.status != "unread" for section in sections for event in section.events)
