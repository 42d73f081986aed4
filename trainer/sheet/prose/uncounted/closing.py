"""Which counts stretches without any take: the cheapest that closes each section, and the dance where its sum is told.

All ways are tried together: words that fill eight counts and nine are danced on eight where a heading comes next; a
short line is a title where the lines under it fill the section without it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.uncounted.lasting import Lasting
from trainer.sheet.prose.uncounted.stretches import Stretch

_OPEN = 2.0
"""What it costs that a heading, or the end, stands where a section is not full."""
_HALF = 1.0
"""The same, where half of it is."""
_GAP = 0.25
"""What it costs that an empty line stands within a section."""
_ACROSS = 1.5
"""What it costs that words lie across the end of a section."""
_SUM = 2.5
"""What it costs that the dance, or a part, has not as many counts as it is said to have."""
_OTHERWISE = 1.0
"""What it costs that words are not danced on the counts that they are said to take."""
_UNUSUAL = 0.04
"""What it costs that words fill neither a section nor half of one."""
_PASSED = 2.0
"""What it costs that steps are passed over."""
_TITLE = 0.35
"""The same, where they may be a title; or that a title is danced, where steps follow it in its section."""
_ASIDE = 0.2
"""The same, beside lines that are counted."""
_BROKEN = 2.0
"""What it costs that counts do not go on from those before them."""
_MOST = 160
"""Counts of a dance at most."""


@dataclass(frozen=True, slots=True)
class Closed:
    """How the stretches of a sheet are counted, and how badly they close."""

    price: float
    counted: tuple[tuple[Stretch, Lasting, int], ...]
    """The words that are given counts, how, and how many counts stand before them."""
    counts: int


@dataclass(frozen=True, slots=True)
class _State:
    price: float
    counted: tuple[tuple[Stretch, Lasting, int], ...] = ()


def closed(
    stretches: Sequence[Stretch], phrase: int, total: int | None, parts: Mapping[str, int] | None = None
) -> Closed:
    """Return the cheapest way to count the stretches; `total` is the stated sum of the dance, `parts` of its parts.

    Where a part begins is kept beside each way: it is dear that one is longer or shorter than it is said to be.
    """
    states: dict[tuple[int, int], _State] = {(0, 0): _State(0.0)}
    part = ""
    for place, stretch in enumerate(stretches):
        after: dict[tuple[int, int], _State] = {}
        opens = stretch.kind == "head" and stretch.part not in ("", part)
        for (at, start), state in states.items():
            over = _SUM * (opens and _is_amiss(parts, part, at - start))
            for end, price, way in _moves(stretches, place, at, phrase):
                if end > _MOST:
                    continue
                whole = state.price + price + over
                key = (end, at if opens else start)
                if key not in after or whole < after[key].price:
                    counted = (*state.counted, (stretch, way, at)) if way is not None else state.counted
                    after[key] = _State(whole, counted)
        states = after
        part = stretch.part if opens else part
    best = Closed(99.0, (), 0)
    for (at, start), state in states.items():
        price = state.price + (_SUM * (at != total) if total else _short(at, phrase))
        price += _SUM * _is_amiss(parts, part, at - start)
        if price < best.price:
            best = Closed(price, state.counted, at)
    return best


def _is_amiss(parts: Mapping[str, int] | None, part: str, counts: int) -> bool:
    """Whether a part has not as many counts as are told of it."""
    return parts is not None and part in parts and parts[part] != counts


def _moves(
    stretches: Sequence[Stretch], place: int, at: int, phrase: int
) -> Iterator[tuple[int, float, Lasting | None]]:
    """Yield where a stretch may end that begins at a count, at what price, and how it is counted."""
    stretch = stretches[place]
    if stretch.kind == "head":
        yield at, _short(at, phrase), None
    elif stretch.kind == "said":
        yield at, 0.0, None
    elif stretch.kind == "gap":
        yield at, _GAP * bool(at % phrase), None
    elif stretch.kind == "counted":
        yield from _counted(stretch, at, phrase)
    else:
        yield at, _passing(stretches, place), None
        titled = _TITLE * _is_titling(stretches, place)
        for way in () if _heads_counts(stretches, place) else stretch.ways:
            yield at + way.counts, way.price + titled + _misfit(stretch, way, at, phrase), way


def _short(at: int, phrase: int) -> float:
    """Return what it costs that a section ends at a count."""
    left = at % phrase
    return 0.0 if not left else _HALF if left == phrase // 2 else _OPEN


def _counted(stretch: Stretch, at: int, phrase: int) -> Iterator[tuple[int, float, Lasting | None]]:
    """Yield where words with counts end: they go on with those before them, or open the next section."""
    first, last = stretch.first, stretch.last
    if not first or last < first:
        yield at, 0.0, None
        return
    if (first - 1) % phrase == at % phrase:
        yield at + last - first + 1, 0.0, None
        return
    if first <= at % phrase and last <= phrase:
        # They are told once more, in other words.
        yield at - at % phrase + max(last, at % phrase), _ASIDE, None
    start = -(-at // phrase) * phrase
    yield start + (first - 1) % phrase + last - first + 1, _BROKEN, None


def _passing(stretches: Sequence[Stretch], place: int) -> float:
    """Return what it costs that steps without counts are passed over."""
    if _is_titling(stretches, place):
        return 0.0
    near = [stretches[other].kind for other in (place - 1, place + 1) if 0 <= other < len(stretches)]
    if "counted" in near:
        return _ASIDE
    return _TITLE if stretches[place].title else _PASSED


def _is_titling(stretches: Sequence[Stretch], place: int) -> bool:
    """Whether a stretch stands where titles do, and more steps follow below it in its section."""
    stretch = stretches[place]
    below = stretches[place + 1] if place + 1 < len(stretches) else None
    return stretch.named and below is not None and below.kind in ("steps", "counted") and below.index > stretch.index


def _heads_counts(stretches: Sequence[Stretch], place: int) -> bool:
    """Whether a short line, or one behind a label, stands over steps that count from 1: it only names them."""
    stretch = stretches[place]
    below = stretches[place + 1] if place + 1 < len(stretches) else None
    titled = stretch.title or stretch.named
    return titled and below is not None and below.kind == "counted" and below.first == 1


def _misfit(stretch: Stretch, way: Lasting, at: int, phrase: int) -> float:
    """Return what it costs to count words so, by the length told beside them and the section that they lie in."""
    end = at + way.counts
    across = at % phrase + way.counts > phrase and bool(at % phrase or end % phrase)
    told = stretch.told
    fits = not told or way.counts == told or end % phrase == told % phrase
    usual = way.counts % (phrase // 2) == 0 or way.counts == told
    return _ACROSS * across + _OTHERWISE * (not fits) + _UNUSUAL * (not usual)
