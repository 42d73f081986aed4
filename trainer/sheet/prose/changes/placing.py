"""Where in the wall a change lies: all places are weighed by what is told of them, and by how well the steps fit there.

What is told are the section, its counts, the steps that are not danced, the edge of a section, the row beside it. The
steps must fill the counts, begin with the foot that is free there, and leave the weight as the dance goes on with it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.counts import label_of
from trainer.routine import Event
from trainer.sheet.prose.changes.dance import Dance
from trainer.sheet.prose.changes.otherwise import Otherwise
from trainer.sheet.prose.changes.references import Run, follow, runs_of, turning
from trainer.sheet.prose.changes.steps_read import WRONG_FOOT, Steps, StepsRead
from trainer.sheet.prose.changes.told_steps import only_turns
from trainer.sheet.prose.changes.wording import words_of
from trainer.sheet.prose.reading_state import Reader
from trainer.sheet.prose.words import Token
from trainer.terms import Weight

_OUTSIDE = 3.0
_MISSED = 2.0
_TRIED = 10
"""So many places are tried with the steps."""
_AMOUNTS = (
    (" 3 quarters", Fraction(3, 4)),
    (" 3/4", Fraction(3, 4)),
    (" half", Fraction(1, 2)),
    (" 1/2", Fraction(1, 2)),
    (" quarter", Fraction(1, 4)),
    (" 1/4", Fraction(1, 4)),
)
"""Words for the amount of a turn."""
_MAY_FIT = 0.4
_MOST = 1.4
"""More must not be wrong with a place."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A change at its place."""

    first: int
    last: int
    events: tuple[Event, ...]
    """Beats count from the first count replaced."""
    counts: int
    """Counts that the events take."""
    leaves: bool = False
    holds: int = 0
    tag: tuple[Event, ...] = ()
    tag_counts: int = 0
    price: float = 0.0
    line: int = 0
    ends: bool = False
    """The dance ends with it."""
    faces: Fraction | None = None
    """The facing that is told with the end of the wall."""
    told: tuple[Token, ...] = ()
    """Its words."""


class Placer:
    """Places the changes of a dance."""

    def __init__(self, dance: Dance, reader: Reader) -> None:
        self._dance = dance
        self._reader = reader
        self._steps = StepsRead(dance, reader)
        self.before: list[Placed] = []
        """The changes of the wall that are placed already."""
        self.more = False
        """More is told of the wall: what follows may begin with another foot."""

    def _runs(self, told: Otherwise, tokens: tuple[Token, ...]) -> list[Run]:
        within = self._section(told)
        return runs_of(self._dance, tokens, self._reader.gloss, within)

    def _section(self, told: Otherwise) -> Run | None:
        if told.rows and told.section > 0 and (line := self._dance.line(told.section)) is not None:
            return line
        return self._dance.section(told.section) if told.section else None

    def _weight_before(self, first: int) -> Weight:
        """Return the weight with which a change begins, after another that ends there."""
        for placed in self.before:
            if placed.last == first - 1 and placed.first <= placed.last and placed.events:
                return next((event.weight for event in reversed(placed.events) if event.weight), "B")
        return self._dance.weight_after(first - 1)

    def place(self, told: Otherwise, row: tuple[int, int, int] | None) -> Placed | None:
        """Return a change at the place where it fits best; None where it fits nowhere."""
        if told.carried and told.section and told.instead:
            within = self._section(told)
            named = [run for one in told.instead for run in runs_of(self._dance, one, self._reader.gloss)]
            if within and not any(within[0] <= run[0] and run[1] <= within[1] for run in named):
                told = replace(told, section=0, past=False)
        if self._nowhere(told, row):
            return None
        if told.likewise:
            return self._likewise(told)
        if told.again:
            return self._again(told)
        if told.steps and only_turns(told.steps) and (turned := self._turned(told, row)) is not None:
            return turned
        if told.steps and told.past and not (told.instead or told.counts or told.edge):
            return None
        if told.steps:
            return self._inserted(told) or self._of_steps(told, row)
        if told.holds:
            return self._held(told)
        return None

    def _turned(self, told: Otherwise, row: tuple[int, int, int] | None) -> Placed | None:
        """Return a step that is danced with another amount of turn: "the half pivot is only a quarter"."""
        words = words_of(told.steps).text
        amount = next((share for said, share in _AMOUNTS if said in f" {words}"), None)
        first, last = next(iter(self._ranges(told, row)), (1, self._dance.counts))
        named = [run for one in told.instead for run in self._runs(told, one)]
        counts = [
            count for count in turning(self._dance, first, last) if not named or any(a <= count <= b for a, b in named)
        ]
        if amount is None or len(counts) != 1 or not (named or told.section or row):
            return None
        count = counts[0]
        events = tuple(
            event.but(
                beat=beat - (count - 1), turn=amount if event.turn > 0 else -amount, then=Fraction(0), facing=None
            )
            if event.turn
            else event.but(beat=beat - (count - 1), facing=None)
            for beat, event in self._dance.within(count, count)
        )
        return Placed(count, count, events, 1, told.leaves, told.holds, line=told.line, told=told.steps)

    def _nowhere(self, told: Otherwise, row: tuple[int, int, int] | None) -> bool:
        """Whether a section or counts are spoken of that the dance does not have: that is a fault of the sheet."""
        if told.section and self._section(told) is None:
            return True
        return told.counts is not None and not self._ranges(told, row)

    def _likewise(self, told: Otherwise) -> Placed | None:
        """Return what was told before, danced with the other foot."""
        ranges = self._ranges(told, None)
        if not self.before or len(ranges) != 1:
            return None
        before, (first, last) = self.before[-1], ranges[0]
        if last - first != before.last - before.first:
            return None
        events = tuple(_mirrored(event) for event in before.events)
        return replace(before, first=first, last=last, events=events, line=told.line)

    def _again(self, told: Otherwise) -> Placed | None:
        """Return counts that are danced twice."""
        ranges = self._ranges(told, None)
        if len(ranges) != 1:
            return None
        first, last = ranges[0]
        events = tuple(
            event.but(
                beat=beat - (first - 1),
                facing=None,
                label=label_of(int(beat) - first + 2) if event.label.isdecimal() else event.label,
            )
            for beat, event in self._dance.within(first, last)
        )
        return Placed(last + 1, last, (), 0, tag=events, tag_counts=last - first + 1, line=told.line)

    def _held(self, told: Otherwise) -> Placed | None:
        """Return counts that are held after a place, and nothing else."""
        section = self._section(told)
        after = told.upto or (section[1] if section is not None else self._dance.counts)
        return Placed(after + 1, after, (), 0, told.leaves, told.holds, line=told.line)

    def _inserted(self, told: Otherwise) -> Placed | None:
        """Return steps that are danced after the last count, and for no others."""
        steps = self._steps.told(told.steps)
        total = self._dance.counts
        after = self._after(told) if told.upto else []
        if len(after) != 1 or told.instead or (steps.counted and steps.first != 1):
            return None
        place = after[0][1]
        # "After count 15 sway right on 1" is counted by itself; "after count 12 stomp (5)" carries on the wall.
        if place != total and (not steps.counted or place in self._dance.ends):
            return None
        tag = self._steps.followed(steps, self._weight_before(place + 1), self._dance.needs_after(place))
        if tag is None:
            return None
        events, counts, price = tag
        return Placed(place + 1, place, (), 0, place == total, told.holds, events, counts, price, told.line)

    def left_out(self, told: Otherwise, row: tuple[int, int, int] | None) -> Placed | None:
        """Return counts that are left out."""
        if self._nowhere(told, row):
            return None
        runs = follow(sorted(run for one in told.instead for run in self._runs(told, one)))
        ranges = self._ranges(told, row)
        if told.counts is not None and told.counts[1] and ranges:
            runs = ranges
        elif ranges and told.section:
            inside = [run for run in runs if any(first <= run[0] and run[1] <= last for first, last in ranges)]
            runs = inside or ([] if told.instead and runs else ranges)
        elif row is not None and not runs:
            runs = [row[:2]]
        if len(runs) != 1:
            return None
        first, last = runs[0]
        return Placed(first, last, (), 0, leaves=told.leaves, holds=told.holds, line=told.line)

    def unturned(self, told: Otherwise, row: tuple[int, int, int] | None) -> list[Placed]:
        """Return the steps that are danced without their turn."""
        dance = self._dance
        if self._nowhere(told, row):
            return []
        first, last = (row[:2] if row is not None else None) or next(iter(self._ranges(told, None)), (1, dance.counts))
        found = [count for count in turning(dance, first, last)]
        named = [run for one in told.instead for run in self._runs(told, one)]
        within = [count for count in found if any(a <= count <= b for a, b in named)]
        counts = within or found
        done = []
        for count in dict.fromkeys(counts):
            events = tuple(_straight(event.but(beat=beat - (count - 1))) for beat, event in dance.within(count, count))
            done.append(Placed(count, count, events, 1, leaves=told.leaves and count == counts[-1], line=told.line))
        return done

    def _ranges(self, told: Otherwise, row: tuple[int, int, int] | None) -> list[Run]:
        """Return the counts that are spoken of, each way in which they may be meant."""
        dance = self._dance
        section = self._section(told)
        base = section or (row[:2] if row is not None else (1, dance.counts))
        if told.counts is not None:
            first, last = told.counts
            last = last or base[1]
            bases = (
                [base[0] - 1] if section else sorted({dance.section_of(row[0])[0] - 1} if row else set(dance.ends[:-1]))
            )
            ways = [(start + first, start + last) for start in bases if last <= 8 or start == 0]
            ways += [(first, last)]
            inside = [way for way in ways if base[0] <= way[0] <= way[1] <= base[1]]
            return list(dict.fromkeys(inside or [way for way in ways if 0 < way[0] <= way[1] <= dance.counts]))
        if told.edge and told.many:
            if told.edge == "last":
                return [(base[1] - told.many + 1, base[1])]
            return [(base[0], base[0] + told.many - 1)]
        return [base] if section or row else []

    def _of_steps(self, told: Otherwise, row: tuple[int, int, int] | None) -> Placed | None:
        steps = self._steps.told(told.steps)
        runs = [self._runs(told, one) for one in told.instead]
        after = self._after(told)
        ranges = self._ranges(told, row)
        edge = told.edge and (told.many or ranges or any(runs))
        numbered = steps.counted and steps.first > 1
        if not (ranges or (after and (told.leaves or told.instead)) or edge or row or any(runs) or numbered):
            return None
        tried: list[tuple[float, int, int, int]] = []
        for first, last, counts in self._spans(told, steps, ranges):
            price = self._said(told, steps, (first, last), (ranges, runs, after), row)
            tried.append((price, first, last, counts))
        best: Placed | None = None
        for price, first, last, counts in sorted(tried)[:_TRIED]:
            if price > sorted(tried)[0][0] + 1.0:
                break
            placed = self._read(told, steps, (first, last, counts), price)
            if placed is not None and (best is None or placed.price < best.price - 0.01):
                best = placed
        return best if best is not None and best.price <= _MOST else None

    def _after(self, told: Otherwise) -> list[Run]:
        """Return the counts straight after which steps are danced."""
        if told.upto:
            section = self._section(told)
            within = section is not None and told.upto <= section[1] - section[0] + 1
            upto = told.upto + section[0] - 1 if within and section is not None else told.upto
            return [(upto, upto)]
        if not told.after:
            return []
        said = {token.low for token in told.after if token.kind == "word"}
        for placed in self.before:
            if said and said <= {token.low for token in placed.told}:
                return [(placed.first, placed.last)]
        return self._runs(told, told.after)

    def _spans(self, told: Otherwise, steps: Steps, ranges: Sequence[Run]) -> Iterator[tuple[int, int, int]]:
        """Yield the counts that may be replaced, and how many the steps take."""
        total = self._dance.counts
        if told.length:
            for first, last in ranges:
                yield first, last, told.length
            lengths = [told.length]
        else:
            lengths = [steps.counts] if steps.counted else self._steps.lengths(steps)
            exact = (told.counts is not None and told.counts[0] < told.counts[1]) or (told.edge and told.many)
            if exact and ranges:
                longest = max(last - first + 1 for first, last in ranges)
                lengths = [longest] if not steps.counted or steps.counts < longest else lengths
        for counts in lengths:
            for first in range(1, total - counts + 2):
                yield first, first + counts - 1, counts

    def _said(
        self,
        told: Otherwise,
        steps: Steps,
        span: Run,
        places: tuple[list[Run], list[list[Run]], list[Run]],
        row: tuple[int, int, int] | None,
    ) -> float:
        """Return how far a place is from what is told of it."""
        first, last = span
        ranges, runs, after = places
        section = self._dance.section_of(first)
        price = 0.0
        if told.counts is not None and ranges:
            inside = any(a <= first and last <= b for a, b in ranges)
            begins = any(a == first for a, _ in ranges)
            open_ended = not told.counts[1] or told.counts[0] == told.counts[1]
            price += (
                0.0
                if span in ranges or (not told.counts[1] and begins)
                else 0.6
                if inside or (begins and open_ended)
                else _OUTSIDE
            )
        elif ranges:
            price += min(0.0 if a <= first and last <= b else _OUTSIDE for a, b in ranges)
            if told.section and not any(runs) and not steps.first and not told.edge and not after:
                a, b = ranges[0]
                price += 0.0 if (first, last) == (a, b) else 0.2 if first == a else 0.5
        if told.edge == "last":
            end = ranges[0][1] if ranges else self._dance.counts
            price += 0.0 if last == end else 1.0
        for found in runs:
            if found:
                price += min(
                    _over(span, run, 0.06 if steps.counted else 0.03 if told.section else 0.2) for run in found
                )
        if after:
            price += 0.0 if any(run[1] == first - 1 for run in after) else _MISSED
        if row is not None:
            price += 0.0 if row[0] <= first and last <= row[1] else _OUTSIDE
            if row[2] and not told.counts and not any(runs):
                price += 0.0 if last == row[2] else 0.8
        if steps.counted and steps.first:
            here = {first, first - section[0] + 1}
            price += 0.0 if steps.first in here else (_OUTSIDE if steps.first > 1 else 0.3)
        if last > section[1] and first > section[0]:
            price += 0.3
        return price

    def _read(self, told: Otherwise, steps: Steps, span: tuple[int, int, int], price: float) -> Placed | None:
        """Return a change as it is read at a place, and what is wrong with it there."""
        first, last, counts = span
        start = self._weight_before(first)
        after = (
            None
            if told.tag or told.ends
            else self._dance.routine.starts
            if told.leaves
            else self._dance.needs_after(last)
        )
        path = self._steps.read(steps, counts, start, after)
        if path is None:
            return None
        weight = path.end.weight
        price += path.cost[0] + 0.3 * path.cost[1]
        if after is not None and weight not in (after, "B"):
            price += _MAY_FIT if self.more else WRONG_FOOT
        events = self._steps.called(path, first, counts)
        tag: tuple[tuple[Event, ...], int, float] | None = ((), 0, 0.0)
        if told.tag:
            tag = self._steps.followed(self._steps.told(told.tag), weight, self._dance.routine.starts)
        if tag is None:
            return None
        placed = Placed(first, last, events, counts, told.leaves, told.holds, tag[0], tag[1], price + tag[2], told.line)
        return replace(placed, ends=told.ends, told=told.steps, faces=told.faces)


def _over(span: Run, run: Run, dear: float) -> float:
    """Return how far a place is from steps that are not danced there."""
    first, last = max(span[0], run[0]), min(span[1], run[1])
    if first > last:
        return _MISSED
    missed = (run[1] - run[0]) - (last - first)
    more = (span[1] - span[0]) - (last - first)
    return 0.25 * missed + dear * more


def _straight(event: Event) -> Event:
    """Return a step without its turn."""
    return event.but(turn=Fraction(0), then=Fraction(0), facing=None, stated=None)


_OTHER: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}


def _mirrored(event: Event) -> Event:
    """Return a step danced with the other foot, to the other side."""
    return event.but(
        foot=event.foot.mirrored if event.foot else None,
        weight=_OTHER[event.weight] if event.weight else None,
        turn=-event.turn,
        then=-event.then,
        direction=event.direction.mirrored if event.direction else None,
    )
