"""One event, or one figure, as a clause of a fair copy.

The weight is noted wherever the table of moves leaves it open, and wherever it is not what the table says.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.dance.facing import turn_text
from trainer.dance.figures import Figure, Step, expand, figures, moves, weight_after
from trainer.routine import Event, Gesture
from trainer.sheet.texts import quoted, taken
from trainer.terms import Direction, Foot, Move, Weight


def clause(event: Event, before: Weight | None, words: str) -> str:
    """Return the clause of one event; `before` is the weight before it, if known, `words` those above its line."""
    if event.status != "unsure":
        return _certain(event, before, words)
    readings = [_certain(event, before, words)]
    if event.other is not None:
        readings.append(_certain(event.other, None, words, alone=False))
    return f"?({' | '.join(readings)})"


def _certain(event: Event, before: Weight | None, words: str, *, alone: bool = True) -> str:
    """Return the clause of one reading; `alone` where no likelier one stands before it."""
    if event.foot is None or event.move is None:
        text = "??" if event.words == words else f"??{quoted(event.words)}"
        return " ".join(filter(None, (text, _notes(None, event.asides))))
    weight = event.weight if _noted(event, before, alone=alone) else None
    parts = (
        _step(event.foot, event.move, event.direction),
        _turning(event.turn - event.then),
        *(f"+ {_gesture(gesture)}" for gesture in event.also),
        f"then {_turning(event.then)}" if event.then else "",
        _notes(weight, event.asides),
    )
    return " ".join(filter(None, parts))


def _noted(event: Event, before: Weight | None, *, alone: bool = True) -> bool:
    """Whether a clause must state the weight after its event."""
    assert event.move is not None
    assert event.foot is not None
    rule = moves()[event.move].weight
    if before is None and rule == "none" and alone:
        # What stands before is found by looking ahead, and this step tells it first.
        before = weight_after(event.move, event.foot, None)
    return (
        rule == "open"
        or (rule == "none" and before is None)
        or weight_after(event.move, event.foot, before) != event.weight
    )


def _step(foot: Foot, move: Move, direction: Direction | None) -> str:
    words = [] if foot is Foot.NONE and moves()[move].footless else [foot.value]
    if move is not Move.STEP or direction is None:
        words.append(move.value)
    if direction is not None:
        words.append(direction.value)
    return " ".join(words)


def _gesture(gesture: Gesture) -> str:
    words = [] if gesture.foot is Foot.NONE and moves()[gesture.move].footless else [gesture.foot.value]
    words.append(gesture.move.value)
    if gesture.direction is not None:
        words.append(gesture.direction.value)
    return " ".join(words)


def _turning(turn: Fraction) -> str:
    return f"turning {turn_text(turn)}" if turn else ""


def _notes(weight: Weight | None, asides: Sequence[str]) -> str:
    notes = [f"weight {weight}"] if weight else []
    notes += [_aside(text) for text in asides]
    return f"({', '.join(notes)})" if notes else ""


def _aside(text: str) -> str:
    bare = text.isprintable() and taken(text) == text != "" and not set(text) & set('(),"#')
    return text if bare and not text.startswith("weight") else quoted(text)


def figure_clause(events: Sequence[Event], before: Weight | None) -> str | None:
    """Return a figure by its name alone, or None where its steps must be spelled out."""
    mark = events[0].figure
    figure = figures().get(mark.name) if mark is not None else None
    if figure is None or not _plain(events, before):
        return None
    last = events[-1]
    for extra in dict.fromkeys((Fraction(0), last.then)):
        turn = sum((event.turn for event in events), -extra)
        for foot, direction in _starts(figure):
            if not turn and figure.usual_turn(foot):
                continue
            steps = expand(figure.name, foot, [event.label for event in events], direction=direction, turn=turn)
            if steps is not None and all(_danced(*row, extra=extra) for row in _rows(events, steps)):
                return _figure(figure, foot, direction, turn, extra, events)
    return None


def _rows(events: Sequence[Event], steps: Sequence[Step]) -> Iterator[tuple[Event, Step, bool]]:
    """Yield events with their steps, and whether each is the last."""
    for index, (event, step) in enumerate(zip(events, steps, strict=True)):
        yield event, step, index == len(events) - 1


def _danced(event: Event, step: Step, last: bool, *, extra: Fraction) -> bool:
    """Whether an event is a step of the table, with `extra` turned after the last."""
    more = extra if last else Fraction(0)
    return (event.foot, event.move, event.direction, event.turn, event.then) == (
        step.foot,
        step.move,
        step.direction,
        step.turn + more,
        step.then + more,
    )


def _plain(events: Sequence[Event], before: Weight | None) -> bool:
    """Whether some events have nothing that a clause for all of them could not say."""
    for index, event in enumerate(events):
        first, last = index == 0, index == len(events) - 1
        if event.figure is None or event.figure.index != index or event.status != "sure":
            return False
        if event.foot is None or event.move is None or event.weight is None:
            return False
        if (event.also and not last) or (event.asides and not first):
            return False
        if not last and weight_after(event.move, event.foot, before) != event.weight:
            return False
        before = event.weight
    return True


def _starts(figure: Figure) -> Iterator[tuple[Foot, Direction | None]]:
    """Yield the feet and directions with which a clause may begin a figure, the shortest first."""
    ways = dict.fromkeys(way for form in figure.forms for way in form.ways)
    feet = (Foot.RIGHT, Foot.LEFT) if figure.needs_foot else (Foot.NONE, Foot.RIGHT, Foot.LEFT)
    for way in (None, *ways):
        for foot in feet:
            yield foot, way.mirrored if way is not None and foot is Foot.LEFT else way


def _figure(
    figure: Figure, foot: Foot, direction: Direction | None, turn: Fraction, extra: Fraction, events: Sequence[Event]
) -> str:
    last = events[-1]
    assert last.move is not None
    before = events[-2].weight if len(events) > 1 else None
    parts = (
        "" if foot is Foot.NONE else foot.value,
        figure.name,
        direction.value if direction is not None else "",
        _turning(turn),
        *(f"+ {_gesture(gesture)}" for gesture in last.also),
        f"then {_turning(extra)}" if extra else "",
        _notes(last.weight if _noted(last, before) else None, events[0].asides),
    )
    return " ".join(filter(None, parts))
