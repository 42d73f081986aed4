"""The search for the counts: which of the possible marks are counts of the dance, by the way counts go.

The cheapest way through all marks in the order of the sheet: a mark is taken at the price of how it goes on from
the one before (0 where it goes on just as counts do), or dropped at the price of its strength; a range is dropped
cheaply where the marks after it give its inner counts (it heads them). Counts that start again, or go on past a
phrase, divide sections.
"""

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.counts.containing import both_end_words, heads_line, may_contain
from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place

_WEAK = 0.6
"""The strength of a number in running words: "[25-32] Two paddle quarters"."""
_SUBS = {"": 0, "e": 1, "&": 2, "a": 3}
"""The order of the parts of a beat."""
_RESUMING = 0.4
"""The price of going on with the main dance after an extra in its middle."""
_FIRSTS = (Place(1, ""), Place(0, "&"), Place(0, "a"))
_REACH = 14
"""So many marks may be dropped in a row."""


@dataclass(frozen=True, slots=True)
class Link:
    """A mark that is taken, and how it goes on."""

    mark: Mark
    restarts: bool
    """Its counts begin again: a new section, or bar, begins with it."""
    broken: bool
    """It leaves a gap or counts something twice."""
    called_from: int = 0
    """How many counts of the wall lie before its block, where an extra carries on the wall's numbers: 36 of 37-40."""
    typed: str = ""
    """The counts as they are written, where others are meant."""
    resumes: bool = False
    """It goes on with the main dance where an extra told in the middle of the page has left it: 25 after 24, 1 to 6."""


def summed_up(marks: Sequence[Mark], phrase: int, fresh: Container[int] = ()) -> list[Mark]:
    """Return the ranges whose counts the marks after them give one by one, in the same line: they only sum up."""
    return [
        mark
        for index, mark in enumerate(marks)
        if ((mark.spread and (mark.closed or _opens_with_it(mark))) or (may_contain(mark) and not mark.spread))
        and _is_container(marks, index, phrase, fresh)
        and marks[index + 1].line == mark.line
    ]


def _opens_with_it(mark: Mark) -> bool:
    """Whether a range heads its line: "Steps 1 to 8. (1) Right to the side."."""
    return mark.first == 0 and bool(mark.ends)


def chain(marks: Sequence[Mark], phrase: int, fresh: Container[int] = ()) -> tuple[Link, ...]:
    """Return the marks that are counts, in order.

    `fresh` are the lines that a block of its own begins on, whatever its counts: an extra under its heading.
    """
    costs: list[float] = []
    origins: list[int | None] = []
    ends: list[Place] = []
    helds: list[int] = []
    drops = [_drop_cost(marks, index, phrase, fresh) for index in range(len(marks))]
    before = [0.0]
    for cost in drops:
        before.append(before[-1] + cost)
    for index, mark in enumerate(marks):
        best, origin = before[index] + _opening_cost(mark) + _take_cost(marks, index, phrase, fresh), None
        for earlier in range(max(0, index - _REACH), index):
            anew = mark.line in fresh and marks[earlier].line < mark.line
            step = 0.2 if anew else _step_cost(marks[earlier], ends[earlier], mark, phrase)
            if not anew and _resumes(helds[earlier], marks[earlier], ends[earlier], mark):
                step = min(step, _RESUMING)
            cost = costs[earlier] + before[index] - before[earlier + 1] + step
            cost += _take_cost(marks, index, phrase, fresh)
            if cost < best:
                best, origin = cost, earlier
        costs.append(best)
        origins.append(origin)
        ends.append(_end(mark, None if origin is None else ends[origin]))
        helds.append(0 if origin is None else _held(helds[origin], marks[origin], ends[origin], mark))
    if not marks:
        return ()
    total = before[-1]
    best_end: int | None = None
    best_cost = total
    for index in range(len(marks)):
        cost = costs[index] + total - before[index + 1]
        if cost <= best_cost:
            best_cost, best_end = cost, index
    taken: list[int] = []
    at = best_end
    while at is not None:
        taken.append(at)
        at = origins[at]
    taken.reverse()
    return tuple(_links(marks, taken, ends, helds, phrase, fresh))


def _links(
    marks: Sequence[Mark],
    taken: Sequence[int],
    ends: Sequence[Place],
    helds: Sequence[int],
    phrase: int,
    fresh: Container[int],
) -> Iterator[Link]:
    """Yield the marks that are taken, each with how it goes on from the one before it."""
    before: int | None = None
    for index in taken:
        mark = marks[index]
        if before is None:
            yield _link(None, mark, phrase)
        elif mark.line in fresh and marks[before].line < mark.line:
            yield _anew(mark)
        else:
            link = _link(ends[before], mark, phrase)
            if link.broken and _resumes(helds[before], marks[before], ends[before], mark):
                link = Link(mark, restarts=True, broken=False, called_from=helds[before], resumes=True)
            yield link
        before = index


def _held(held: int, last: Mark, end: Place, mark: Mark) -> int:
    """Return the count with which the main dance was left for what is told in its middle; 0 where none is left."""
    if _resumes(held, last, end, mark) and not goes_on(end, mark.start):
        return 0
    return max(held, end.number or 0) if mark.start in _FIRSTS and not goes_on(end, mark.start) else held


def _resumes(held: int, last: Mark, end: Place, mark: Mark) -> bool:
    """Whether a mark on a later line carries on the numbers of the main dance after those of an extra."""
    told = held and end.number is not None and end.number > 1
    return bool(told) and mark.start == Place(held + 1, "") and mark.line > last.line and mark.strength > _WEAK


def _drop_cost(marks: Sequence[Mark], index: int, phrase: int, fresh: Container[int]) -> float:
    mark = marks[index]
    if may_contain(mark) and _is_container(marks, index, phrase, fresh):
        return 0.05
    if _is_inner(marks, index, phrase, fresh):
        return min(mark.strength, 0.2)
    if _speaks_of_the_last(marks, index, phrase):
        return min(mark.strength, 0.9)
    return mark.strength


def _speaks_of_the_last(marks: Sequence[Mark], index: int, phrase: int) -> bool:
    """Whether a mark among words only names the count before it again: "people square up on 8: don't"."""
    mark = marks[index]
    before = marks[index - 1] if index else None
    after = marks[index + 1] if index + 1 < len(marks) else None
    if before is None or not mark.first or len(mark.places) > 1 or mark.start.number != before.end.number:
        return False
    return after is None or _step_cost(before, before.end, after, phrase) == 0


def _take_cost(marks: Sequence[Mark], index: int, phrase: int, fresh: Container[int]) -> float:
    if may_contain(marks[index]) and _is_container(marks, index, phrase, fresh):
        return 0.5
    return 0.5 if _is_inner(marks, index, phrase, fresh) else 0.0


def _is_inner(marks: Sequence[Mark], index: int, phrase: int, fresh: Container[int]) -> bool:
    """Whether a mark only points into the counts of one just before it: "5-8 jazz box, the quarter turn on 7"."""
    mark = marks[index]
    if points_ahead(marks, index):
        return True
    for outer in reversed(marks[max(0, index - 4) : index]):
        # "... for 5 to 8. Sway four times for 1 to 4, then step and pivot for 5 and 6": the counts began again.
        anew = outer.start == Place(1, "") and len(outer.places) > 2 and mark.start not in outer.places
        if outer.line != mark.line or anew:
            return False
        if len(outer.places) <= len(mark.other or mark.places):
            continue
        wanted = {place for place in mark.other or mark.places if place.number is not None}
        halves = [place.sub for place in mark.places if place.number is None]
        if halves and not wanted:
            following = marks[index + 1] if index + 1 < len(marks) else None
            return _is_half_of(outer, halves[0], following) and not _is_container(
                marks, marks.index(outer), phrase, fresh
            )
        if wanted <= set(outer.places):
            return not _is_container(marks, marks.index(outer), phrase, fresh)
    return False


def points_ahead(marks: Sequence[Mark], index: int) -> bool:
    """Whether a mark points into counts behind its words: "vine left, quarter left on the third (count 7) 5 6 7 8"."""
    mark, before = marks[index], marks[index - 1] if index else None
    after = marks[index + 1] if index + 1 < len(marks) else None
    if before is None or after is None or after.line != mark.line or len(after.places) <= max(2, len(mark.places)):
        return False
    inside = set(mark.places) <= set(after.places) and mark.start != after.start
    return inside and before.line < mark.line and goes_on(before.end, after.start)


def _is_half_of(outer: Mark, half: str, following: Mark | None) -> bool:
    """Whether a half told by itself is one that the counts before it hold: "&7-8 close (&), cross (7), hold (8)"."""
    if half not in (place.sub for place in outer.places):
        return False
    return outer.end.sub == half or (following is not None and following.start in outer.places)


def _is_container(marks: Sequence[Mark], index: int, phrase: int, fresh: Container[int]) -> bool:
    """Whether the marks just after a range give its counts one by one, from its first on."""
    outer = marks[index]
    first, last = outer.start.number or 0, outer.end.number or 0
    heads = outer.spread or outer.spelled or outer.first > 0
    before = marks[index - 1] if index else None
    # "Counts 1 to 8: step ... Counts 9 to 16: rock ..." goes on in its line, and heads nothing below.
    inside = before is not None and before.line == outer.line and goes_on(before.end, outer.start)
    for inner in marks[index + 1 : index + 5]:
        number = inner.start.number
        if number is None or (inner.line == outer.line and inner.strength < _WEAK):
            continue
        apart = inner.line > outer.line + 1 or inner.number > outer.number + 2
        if not heads and not (inner.line == outer.line and inner.closed):
            # "(1 2) heel grind: onto the heel (1), step back (2)".
            return False
        if apart or (inner.line != outer.line and (inner.line in fresh or both_end_words(outer, inner))):
            return False
        # A sheet may head a section by its counts in the whole dance and count it from 1.
        begins = number == 1 or (number == 0 and bool(inner.start.sub))
        anew = (inner.line != outer.line and not inside) or (
            heads_line(outer) and inner.closed and (outer.spread or not outer.closed)
        )
        relative = begins and first % phrase == 1 and first > 1 and anew
        opens = number == first or (bool(inner.start.sub) and number == first - 1)
        if not (opens or relative) or inner.places == outer.places:
            return False
        return relative or ((inner.end.number or 0) <= last and _goes_on_inside(marks, marks.index(inner), last))
    return False


def _goes_on_inside(marks: Sequence[Mark], index: int, last: int) -> bool:
    """Whether a mark that begins a range goes on to fill it, alone or with the mark after it."""
    inner = marks[index]
    if inner.end.number == last:
        return True
    following = marks[index + 1] if index + 1 < len(marks) else None
    if len(inner.places) > 1:
        # "The end: ... [1-3]" below "The bridge: ... [1-4]" is the last of the sheet, and fills nothing.
        return following is not None or inner.line == marks[index - 1].line
    return following is not None and (following.start.number is None or goes_on(inner.end, following.start))


def _opening_cost(mark: Mark) -> float:
    if mark.start == Place(1, "") or mark.start == Place(0, "&") or mark.start == Place(0, "a"):
        return 0.0
    return 2.5


def _end(mark: Mark, before: Place | None) -> Place:
    """Return the last count of a mark; an & or a that stands alone goes with the number before it."""
    end = mark.end
    return Place(before.number, end.sub) if end.number is None and before is not None else end


def _step_cost(last: Mark, end: Place, mark: Mark, phrase: int) -> float:
    start = mark.start
    if start.number is None:
        return 0.0 if _SUBS[start.sub] > _SUBS[end.sub] else 1.2
    if goes_on(end, start) or _crosses(end, start, phrase):
        return 0.0
    if end.number is None:
        return 0.0 if start.sub == "" else 0.3
    if start in (Place(1, ""), Place(0, "&"), Place(0, "a")):
        if end.number % phrase == 0:
            # "(and 1 is the long side step again)" after the last count of all.
            return 0.5 if mark.strength < _WEAK and mark.line == last.line else 0.0
        if end.number == 3 and phrase == 6:
            return 0.2
        if end.number % 4 == 0:
            return 0.3
        if len(last.places) == 1:
            return 2.2
        return 0.8 if mark.first == 0 else 1.6
    return 1.2 if start.number > end.number - 3 else 2.0


def goes_on(end: Place, start: Place) -> bool:
    """Return whether a count is the next after another."""
    if end.number is None:
        return False
    if start.sub:
        return start.number == end.number and _SUBS[start.sub] > _SUBS[end.sub]
    return start.number == end.number + 1


def _crosses(end: Place, start: Place, phrase: int) -> bool:
    """Whether counts go on after a mark that ran over the edge: 8&1, then 2."""
    return end.number == phrase + 1 and goes_on(Place(1, end.sub), start)


def _anew(mark: Mark) -> Link:
    """Return the first mark of a block of its own, counted from 1 or carrying on the numbers of its wall."""
    number = mark.start.number
    if number is None:
        return Link(mark, restarts=True, broken=False)
    return Link(mark, restarts=True, broken=False, called_from=max(number if mark.start.sub else number - 1, 0))


def _link(end: Place | None, mark: Mark, phrase: int) -> Link:
    start = mark.start
    opens = start in (Place(1, ""), Place(0, "&"), Place(0, "a"))
    if end is None:
        return Link(mark, restarts=True, broken=not opens)
    if start.number is None or goes_on(end, start) or _crosses(end, start, phrase) or end.number is None:
        return Link(mark, restarts=False, broken=False)
    return Link(mark, restarts=opens, broken=not opens)
