"""Counts that are typed wrong: a mark that would go on with its neighbours if its numbers were those that are due.

"1, 2, 2, 4" and "[&4-5]" after a 4 and before a 7 break the run of counts twice, or leave a gap in which a number
stands that fits nothing. Where other numbers of the same shape close the run on both sides, these were meant: the
steps stay where they are written, and the one mark is what is told.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.chain import Link, goes_on
from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place

_SURE = 1.0
"""A mark of that strength may be any count; a weaker one, a number among words, only one that comes twice."""


def with_mistyped(links: Sequence[Link], marks: Sequence[Mark], phrase: int) -> tuple[Link, ...]:
    """Return the links; a mark that breaks their run, or was left out of it, has the counts that are due there."""
    done = list(links)
    at = 0
    while at < len(done):
        if _is_broken(done, at):
            mended = next(_mended(done, at, marks, phrase), None)
            if mended is not None:
                done = mended
        elif _ends_short(done, at, phrase):
            done[at : at + 1] = _with_last(done, at, marks, phrase)
        at += 1
    return tuple(_cut(done, at, phrase) for at in range(len(done)))


def _is_broken(links: Sequence[Link], at: int) -> bool:
    return at > 0 and links[at].broken and not links[at].restarts


def _ends_short(links: Sequence[Link], at: int, phrase: int) -> bool:
    """Whether a run of counts ends in the middle of a bar."""
    ends = at + 1 == len(links) or links[at + 1].restarts
    return ends and not links[at].broken and (links[at].mark.end.number or 0) % (phrase // 2) != 0


def _with_last(links: Sequence[Link], at: int, marks: Sequence[Mark], phrase: int) -> list[Link]:
    """Return a run's last link with the marks of its form that stand after it, if they close it but for one number.

    "13 = ...; 14 = ...; 16 = ...; 16 = ..." ends with 14 for the chain: what is due is 15, and the last 16 goes on.
    """
    here = links[at]
    after = links[at + 1].mark if at + 1 < len(links) else None
    rest = sorted(_left_out(marks, here.mark, after), key=lambda mark: (mark.line, mark.first))
    twin = next((one for one in _before(links, at, marks) if one.places == here.mark.places), None)
    for first, others in ((here.mark, rest), *(((twin, [here.mark, *rest]),) if twin else ())):
        closing = _closing(first, others, phrase)
        if closing:
            return [replace(here, mark=first), *closing]
    return [here]


def _before(links: Sequence[Link], at: int, marks: Sequence[Mark]) -> list[Mark]:
    """Return the marks left out between a link and the one before it in its run."""
    return _left_out(marks, links[at - 1].mark, links[at].mark) if at and not links[at].restarts else []


def _closing(first: Mark, others: Sequence[Mark], phrase: int) -> list[Link]:
    """Return links for marks that go on from the first to a phrase's end, one of them with another number."""
    found: list[Link] = []
    end = first.end
    for mark in others:
        if mark.strength < _SURE or (mark.ends, mark.closed) != (first.ends, first.closed):
            continue
        meant = None if goes_on(end, mark.start) else _due(mark, end)
        link = Link(mark, False, False)
        found.append(link if meant is None else _typed(link, meant))
        end = found[-1].mark.end
        if (end.number or 0) % phrase == 0:
            return found if sum(bool(one.typed) for one in found) == 1 and len(found) > 1 else []
    return []


def _mended(links: list[Link], at: int, marks: Sequence[Mark], phrase: int) -> Iterator[list[Link]]:
    """Yield the links with the break at `at` mended, in each way that closes the run on both sides."""
    before, here = links[at - 1], links[at]
    after = links[at + 1] if at + 1 < len(links) else None
    end = Place(0, "") if before.restarts else links[at - 2].mark.end
    for meant in (_due(before.mark, end), _shortened(before.mark, here.mark)):
        if meant is not None and goes_on(meant.end, here.mark.start):
            yield [*links[: at - 1], _typed(before, meant), replace(here, broken=False), *links[at + 1 :]]
    yield from _parted(links, at, marks, end, phrase)
    meant = _due(here.mark, before.mark.end)
    highest = max(phrase, *(link.mark.end.number or 0 for link in links))
    if meant is not None and _closes(meant, after, phrase) and (meant.end.number or 0) <= highest:
        yield [*links[:at], _typed(here, meant), *_unbroken(links[at + 1 :])]
    for mark in _left_out(marks, before.mark, here.mark):
        meant = _due(mark, before.mark.end)
        twice = mark.end.number in (before.mark.end.number, here.mark.start.number)
        if meant is not None and goes_on(meant.end, here.mark.start) and (twice or mark.strength >= _SURE):
            yield [*links[:at], _typed(Link(mark, False, False), meant), replace(here, broken=False), *links[at + 1 :]]
    yield from _doubles(links, at, marks)


def _parted(links: list[Link], at: int, marks: Sequence[Mark], end: Place, phrase: int) -> Iterator[list[Link]]:
    """Yield the links where the mark before the break is the first part of one in a word: "5&7" for "5&6"."""
    before, here = links[at - 1], links[at]
    after = links[at + 1] if at + 1 < len(links) else None
    for mark in (here.mark, *_left_out(marks, before.mark, here.mark)):
        if mark.line != before.mark.line or mark.first != before.mark.last or not before.mark.end.sub:
            continue
        whole = replace(before.mark, places=before.mark.places + mark.places, last=mark.last)
        meant = _due(whole, end)
        told = None if meant is None else _typed(replace(before, mark=whole), meant)
        if meant is None or told is None:
            continue
        if mark is here.mark and _closes(meant, after, phrase):
            yield [*links[: at - 1], told, *_unbroken(links[at + 1 :])]
        elif mark is not here.mark and goes_on(meant.end, here.mark.start):
            yield [*links[: at - 1], told, *_unbroken(links[at:])]


def _unbroken(links: list[Link]) -> list[Link]:
    """Return links of which the first goes on with the one before."""
    if not links or links[0].restarts:
        return links
    return [replace(links[0], broken=False), *links[1:]]


def _doubles(links: list[Link], at: int, marks: Sequence[Mark]) -> Iterator[list[Link]]:
    """Yield the links where of two marks alike the other one of them is the one that was meant to be another count."""
    before, here = links[at - 1], links[at]
    if at > 1:
        for mark in _left_out(marks, links[at - 2].mark, before.mark):
            meant = _due(before.mark, mark.end)
            if mark.places == before.mark.places and meant is not None and goes_on(meant.end, here.mark.start):
                told = [replace(before, mark=mark), _typed(replace(before, restarts=False), meant)]
                yield [*links[: at - 1], *told, replace(here, broken=False), *links[at + 1 :]]
    after = links[at + 1].mark if at + 1 < len(links) else None
    for mark in _left_out(marks, here.mark, after):
        meant = _due(here.mark, before.mark.end)
        if mark.places == here.mark.places and meant is not None and goes_on(meant.end, mark.start):
            told = [_typed(here, meant), replace(here, mark=mark, broken=False)]
            yield [*links[:at], *told, *links[at + 1 :]]


def _left_out(marks: Sequence[Mark], first: Mark, last: Mark | None) -> list[Mark]:
    """Return the marks between two that are taken, of those left out: the strongest first."""
    places = [(mark.line, mark.first) for mark in marks]
    low = places.index((first.line, first.first)) + 1
    high = len(marks) if last is None else places.index((last.line, last.first))
    return sorted(marks[low:high], key=lambda mark: -mark.strength)


def _due(mark: Mark, end: Place) -> Mark | None:
    """Return a mark with counts of the same shape that go on from `end`; None where they are what it has."""
    if end.number is None or mark.start.number is None:
        return None
    number = end.number
    places: list[Place] = []
    last: int | None = mark.start.number if mark.start.sub else None
    for place in mark.places:
        if not place.sub or place.number not in (last, None):
            number += 1
        last = place.number
        places.append(Place(number, place.sub))
    meant = replace(mark, places=tuple(places), other=())
    return None if meant.places == mark.places else meant


def _shortened(mark: Mark, after: Mark) -> Mark | None:
    """Return a range that runs into the counts after it with those only that are left to it."""
    if not mark.spread or any(place.sub for place in mark.places):
        return None
    places = tuple(place for place in mark.places if (place.number or 0) < (after.start.number or 0))
    return replace(mark, places=places, other=()) if len(places) > 1 else None


def _closes(meant: Mark, after: Link | None, phrase: int) -> bool:
    """Whether the counts that are due lead on to the next mark, or to the end of a phrase where a new one begins."""
    if after is None or after.restarts:
        return (meant.end.number or 0) % (phrase // 2) == 0
    return goes_on(meant.end, after.mark.start)


def _typed(link: Link, meant: Mark) -> Link:
    typed = " ".join(f"{place.number or ''}" if not place.sub else place.sub for place in link.mark.places)
    return replace(link, mark=meant, broken=False, typed=typed)


def _cut(links: Sequence[Link], at: int, phrase: int) -> Link:
    """Return a link; a range that runs one past the end of a phrase, before a new one begins, without that count."""
    mark = links[at].mark
    ends = at + 1 == len(links) or links[at + 1].restarts
    over = mark.spread and mark.end == Place(phrase + 1, "") and len(mark.places) > 2
    if not over or not ends or any(place.sub for place in mark.places):
        return links[at]
    return _typed(links[at], replace(mark, places=mark.places[:-1]))
