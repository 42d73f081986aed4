"""The events of a block as rows of a card.

A row holds a figure; or counts that an &, an e or an a ties together (2a3); or two plain counts (in a waltz three). It
ends where the styling changes. Holds in a row are one.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from trainer.cards.model import CardRow, CardStep
from trainer.cards.words import plain, turned, without_turning
from trainer.dance.figures import figures, moves, weight_after
from trainer.dance.timeline import Row
from trainer.routine import Event, Gesture
from trainer.sheet.fair_clauses import figure_clause
from trainer.sheet.fair_lines import labels_told
from trainer.terms import Direction, Foot, Move, Weight

_MOST = 8
"""Events of a row at all: a figure of more is told in several."""
_LONGEST_STEP = 160
_MOST_TIED = 4
"""Events of a row in a chain of tied counts, before it may end with a pair of counts."""


@dataclass(frozen=True, slots=True)
class _Run:
    """Consecutive events of one figure, one event of none, or holds."""

    rows: tuple[Row, ...]
    before: Weight | None
    """The weight before it; None where it is not known."""

    @property
    def events(self) -> tuple[Event, ...]:
        return tuple(row.event for row in self.rows)

    @property
    def whole(self) -> bool:
        """Whether it begins on a whole count."""
        return self.rows[0].event.label.isdigit()

    @property
    def single(self) -> bool:
        return len(self.rows) == 1


def card_rows(rows: Sequence[Row], starts: Fraction, before: Weight | None, phrase: int) -> tuple[CardRow, ...]:
    """Return the rows of a block; `starts` is the facing that `Row.turned` counts from, `before` the weight."""
    told: list[CardRow] = []
    line = 0
    for group in _groups(list(_runs(rows, before)), 3 if phrase == 6 else 2):
        row, span = _row(group, starts), group[0].events[0].span
        # The styling of a line of the sheet is said once.
        told.append(replace(row, styling="") if told and span is not None and span.line == line else row)
        line = span.line if span is not None else 0
    return tuple(told)


def _runs(rows: Sequence[Row], before: Weight | None) -> Iterator[_Run]:
    for _, found in groupby(_keyed(rows), key=lambda one: one[0]):
        run = tuple(row for _, row in found)
        yield _Run(run, before)
        before = run[-1].event.weight


def _keyed(rows: Sequence[Row]) -> Iterator[tuple[object, Row]]:
    """Yield each row with a key that the events of one run share."""
    told: Counter[int] = Counter()
    for index, row in enumerate(rows):
        event = row.event
        if event.figure is not None:
            yield ("figure", event.figure.id, told[event.figure.id] // _MOST), row
            told[event.figure.id] += 1
        elif event.move is Move.HOLD and not event.also and event.label.isdigit():
            yield ("hold", event.styling), row
        else:
            yield index, row


def _groups(runs: Sequence[_Run], unit: int) -> Iterator[list[_Run]]:
    group: list[_Run] = []
    for index, run in enumerate(runs):
        following = runs[index + 1] if index + 1 < len(runs) else None
        if group and not _joins(group, run, following, unit):
            yield group
            group = []
        group.append(run)
    if group:
        yield group


def _joins(group: Sequence[_Run], run: _Run, following: _Run | None, unit: int) -> bool:
    """Whether a run goes on with the row of those before it."""
    first, last = group[0], group[-1]
    size = sum(len(one.rows) for one in group)
    if run.events[0].styling != last.events[-1].styling or size + len(run.rows) > _MOST:
        return False
    if not run.whole:
        return last.single or not last.whole
    gap = run.rows[0].beat - last.rows[-1].beat
    if gap < 1:
        if not any(one.whole for one in group):
            return True
        if not (run.single and last.single):
            return False
        return size < _MOST_TIED or not _opens(run, unit)
    tied = following is not None and not following.whole and following.rows[0].beat - run.rows[-1].beat < 1
    pair = all(one.single and one.whole for one in (*group, run)) and not _opens(run, unit) and _opens(first, unit)
    return pair and gap == 1 and not tied


def _opens(run: _Run, unit: int) -> bool:
    """Whether a run begins a pair of counts, in a waltz a measure."""
    label = run.events[0].label
    return label.isdigit() and (int(label) - 1) % unit == 0


def _row(group: Sequence[_Run], starts: Fraction) -> CardRow:
    rows = [row for run in group for row in run.rows]
    events = [row.event for row in rows]
    turns = any(event.turn for event in events)
    return CardRow(
        counts=labels_told(events).replace("-", "–"),
        steps=tuple(step for run in group for step in _steps(run)),
        facing=(starts + rows[-1].turned) % 1 if turns else None,
        styling=plain(events[0].styling),
    )


def _steps(run: _Run) -> Iterator[CardStep]:
    events = run.events
    mark = events[0].figure
    if mark is None and events[0].move is Move.HOLD:
        yield _step(events[0], run.before)
        return
    clause = figure_clause(events, run.before) if mark is not None else None
    if clause is not None:
        foot = _letter(events[0].foot)
        text = _with_way(without_turning(clause.removeprefix(f"{foot} ") if foot else clause), events)
        yield CardStep(foot=foot, text=plain(text, _LONGEST_STEP))
        return
    name = plain(mark.name, _LONGEST_STEP) if mark is not None else ""
    before = run.before
    for event in events:
        yield _step(event, before, name)
        before, name = event.weight, ""


def _with_way(text: str, events: Sequence[Event]) -> str:
    """Return a figure's clause with the direction forward said, where it may go back as well."""
    mark = events[0].figure
    figure = figures().get(mark.name) if mark is not None else None
    if figure is None or not text.startswith(figure.name):
        return text
    rest = text.removeprefix(figure.name)
    ways = {way for form in figure.forms for way in form.ways}
    usual = any(form.ways[:1] == (Direction.FORWARD,) and any(form.travelling) for form in figure.forms)
    said = any(rest.startswith(f" {way}") for way in ways)
    goes = usual and Direction.BACK in ways and events[0].direction is Direction.FORWARD
    return f"{figure.name} forward{rest}" if goes and not said else text


def _step(event: Event, before: Weight | None, name: str = "") -> CardStep:
    if event.foot is None or event.move is None:
        words = plain(event.words, _LONGEST_STEP)
        return CardStep(foot="", text=f"unread: “{words}”" if words else "unread", name=name)
    told = [] if event.move is Move.STEP and event.direction else [event.move.value]
    told += [event.direction.value] if event.direction else []
    told += [turned(event.turn - event.then)] if event.turn - event.then else []
    told += [f"+ {_gesture(one)}" for one in event.also]
    told += [f"then {turned(event.then)}"] if event.then else []
    notes = [plain(aside) for aside in event.asides]
    if event.weight and weight_after(event.move, event.foot, before or _free_of(event)) != event.weight:
        notes.insert(0, f"weight {event.weight}")
    told += [f"({', '.join(notes)})"] if notes else []
    return CardStep(
        foot=_letter(event.foot), text=plain(" ".join(told), _LONGEST_STEP), name=name, unsure=event.status == "unsure"
    )


def _free_of(event: Event) -> Weight | None:
    """Return the weight that a gesture or a move of the body leaves as it was, where what was before is not known."""
    return event.weight if event.move is not None and moves()[event.move].weight != "takes" else None


def _gesture(gesture: Gesture) -> str:
    words = [_letter(gesture.foot), gesture.move.value, gesture.direction.value if gesture.direction else ""]
    return " ".join(filter(None, words))


def _letter(foot: Foot | None) -> str:
    return foot.value if foot in (Foot.RIGHT, Foot.LEFT, Foot.BOTH) else ""
