"""The tables of moves and figures, read once from figures.toml, and `expand`: how a figure's name becomes steps.

Rows are written for a start on the right foot. A start on the left is worked out in the mirror: the direction and the
turn said are mirrored, the row is filled in, and its feet, directions, weights and turns are mirrored back.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from trainer.terms import Direction, Foot, Label, Move, Weight

WeightRule = Literal["takes", "none", "same", "both", "open", "still"]
"""What a move does to the weight; the meanings stand at the head of figures.toml."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRow:
    """A row of the table of moves."""

    move: Move
    short: str
    """At most 13 letters, for block letters."""
    weight: WeightRule
    ends: Literal["foot", "as before"] = "as before"
    """Of an open move: what a clause without a note means."""
    footless: bool = False
    words: tuple[str, ...]
    """The move's names in sheets, the first is its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What one foot does on one count of a figure."""

    foot: Foot
    move: Move
    direction: Direction | None = None
    weight: Weight | None = None
    """The foot that carries afterwards; None: whichever did before the figure, which begins with no foot of its own."""
    turn: Fraction = Fraction(0)
    """Signed, a turn on the standing foot after the step included."""
    then: Fraction = Fraction(0)
    """The part of `turn` made on the standing foot after the step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One way to dance a figure, for a start on the right foot."""

    counts: tuple[tuple[Label, ...], ...]
    """The patterns of labels that it is danced to, counted from 1; each has as many labels as there are steps."""
    steps: tuple[Step, ...]
    """Without turns; a step whose place in `travelling` is set goes where the clause says."""
    travelling: tuple[bool, ...]
    ways: tuple[Direction, ...] = ()
    """The directions that may be said; the first is taken where none is. Empty: none may be said."""
    turning: tuple[Fraction, ...] = ()
    """The signed turns that it serves; empty: any, and none."""
    falls: tuple[tuple[Fraction, ...], ...] = ()
    """Shares of a turn, one a step, that add up to 1: the first by default, the others where it may fall too."""
    after: bool = False
    """The turn is made on the standing foot after the step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A row of the table of figures."""

    name: str
    short: str
    """At most 13 letters, in capitals."""
    group: str
    """The family that it is listed with."""
    words: tuple[str, ...]
    """Its names in sheets, its own first; no name belongs to two figures or moves."""
    forms: tuple[Form, ...]
    turn: Fraction | None = None
    """The signed turn, right foot first, that makes it this figure where a sheet does not say how far."""
    source: str
    """Who published it; the keys stand in figures.toml."""

    @property
    def needs_foot(self) -> bool:
        """Whether some step of it belongs to one foot, so that a clause must name the foot that it starts with."""
        return any(step.foot in (Foot.RIGHT, Foot.LEFT) for form in self.forms for step in form.steps)

    @property
    def of_one_foot(self) -> bool:
        """Whether one foot does all of its steps, as in a strut: so many feet are so many of it."""
        feet = [{step.foot for step in form.steps} for form in self.forms]
        return all(one == {Foot.RIGHT} and len(form.steps) > 1 for one, form in zip(feet, self.forms, strict=True))

    def usual_turn(self, foot: Foot) -> Fraction | None:
        """Return the turn that makes it this figure, for a start on that foot."""
        return -self.turn if self.turn is not None and foot is Foot.LEFT else self.turn

    def fitting(self, labels: Sequence[Label]) -> Iterator[Form]:
        """Yield the forms that are danced to such labels, 7&8 being danced like 1&2."""
        asked = shape(labels)
        return (form for form in self.forms if any(shape(pattern) == asked for pattern in form.counts))


def shape(labels: Sequence[Label]) -> tuple[str, ...]:
    """Return labels with each number as the counts since the number before it: (7, &, 8) becomes (#, &, 1).

    A 1 is always the next count: after 8, in a waltz after 6, and after the last count of a short section.
    """
    told: list[str] = []
    before: int | None = None
    for label in labels:
        if not label.isdigit():
            told.append(label)
            continue
        number = int(label)
        if before is None:
            told.append("#")
        else:
            told.append("1" if number == 1 else str(number - before))
        before = number
    return tuple(told)


def expand(
    figure: str,
    foot: Foot,
    labels: Sequence[Label],
    *,
    direction: Direction | None = None,
    turn: Fraction = Fraction(0),
) -> tuple[Step, ...] | None:
    """Return the steps of a figure, one for each label, or None where no form of it fits.

    `foot` is the one it starts with, Foot.NONE for a figure without one. `turn` is the whole turn said, signed; it
    falls where the table puts it.
    """
    row = figures().get(figure)
    if row is None or (row.needs_foot and foot not in (Foot.RIGHT, Foot.LEFT)):
        return None
    mirror = foot is Foot.LEFT
    if mirror:
        direction, turn = direction and direction.mirrored, -turn
    for form in row.fitting(labels):
        steps = fill(form, direction, turn, carried="L" if row.needs_foot else None)
        if steps is not None:
            return tuple(mirrored(step) for step in steps) if mirror else steps
    return None


def fill(
    form: Form,
    direction: Direction | None,
    turn: Fraction,
    *,
    carried: Weight | None = "L",
    fall: int = 0,
) -> tuple[Step, ...] | None:
    """Return the steps of a form for a right-foot start, or None where the direction or the turn does not suit it.

    `fall` chooses among the places where the turn may fall.
    """
    if (direction is not None and direction not in form.ways) or (form.turning and turn not in form.turning):
        return None
    if turn and not form.falls:
        return None
    shares = form.falls[fall] if turn else (Fraction(0),) * len(form.steps)
    way = direction or next(iter(form.ways), None)
    steps = []
    for step, travels, share in zip(form.steps, form.travelling, shares, strict=True):
        carried = weight_after(step.move, step.foot, carried)
        part = share * turn
        steps.append(
            Step(
                foot=step.foot,
                move=step.move,
                direction=way if travels else step.direction,
                weight=carried,
                turn=part,
                then=part if form.after else Fraction(0),
            )
        )
    return tuple(steps)


def mirrored(step: Step) -> Step:
    """Return a step as seen in a mirror."""
    swapped: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}
    return Step(
        foot=step.foot.mirrored,
        move=step.move,
        direction=step.direction and step.direction.mirrored,
        weight=step.weight and swapped[step.weight],
        turn=-step.turn,
        then=-step.then,
    )


def weight_after(move: Move, foot: Foot, before: Weight | None) -> Weight | None:
    """Return the foot that carries after a move to which the sheet adds no note; None where `before` would tell.

    A foot that moves without weight leaves the dancer on the other one, unless it carries already: that is a fault of
    the sheet, and the weight stays.
    """
    row = moves()[move]
    acting = foot_weight(foot)
    if row.weight == "both":
        return acting or "B"
    if row.weight in ("takes", "same") or (row.weight == "open" and row.ends == "foot"):
        return acting or before
    if row.weight == "none" and before in (None, "B"):
        return _OTHER.get(acting) or before
    return before


_OTHER: dict[Weight | None, Weight] = {"R": "L", "L": "R"}


def foot_weight(foot: Foot) -> Weight | None:
    """Return the weight that a foot has when it carries; None of no foot."""
    weights: dict[Foot, Weight] = {Foot.RIGHT: "R", Foot.LEFT: "L", Foot.BOTH: "B"}
    return weights.get(foot)


@cache
def moves() -> Mapping[Move, MoveRow]:
    """Return the table of moves."""
    return {
        Move(name): MoveRow(move=Move(name), **{**row, "words": tuple(row["words"])})
        for name, row in _table()["moves"].items()
    }


@cache
def figures() -> Mapping[str, Figure]:
    """Return the table of figures by their names."""
    return {name: _figure(name, row) for name, row in _table()["figures"].items()}


@cache
def sources() -> Mapping[str, str]:
    """Return who published what, by the keys of `Figure.source`."""
    return dict(_table()["sources"])


_MOVES = frozenset(Move)


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads((files("trainer.dance") / "figures.toml").read_text(encoding="utf-8"))


def _figure(name: str, row: dict[str, Any]) -> Figure:
    return Figure(
        name=name,
        short=row["short"],
        group=row["group"],
        words=(name, *row["words"]),
        forms=tuple(_form(form) for form in row["forms"]),
        turn=Fraction(row["turn"]) if "turn" in row else None,
        source=row["source"],
    )


def _form(row: dict[str, Any]) -> Form:
    counts = row["counts"]
    return Form(
        counts=tuple(pattern(text) for text in (_table()["counts"][counts] if isinstance(counts, str) else counts)),
        steps=tuple(_step(text) for text in row["steps"]),
        travelling=tuple(text.endswith("*") for text in row["steps"]),
        ways=tuple(Direction(way) for way in row.get("ways", ())),
        turning=tuple(Fraction(turn) for turn in row.get("turning", ())),
        falls=tuple(tuple(Fraction(share) for share in shares.split()) for shares in row.get("falls", ())),
        after=row.get("after", False),
    )


def pattern(text: str) -> tuple[Label, ...]:
    """Return the labels of a pattern of the table: "1-3&4" is 1, 2, 3, &, 4."""
    labels: list[Any] = []
    for first, last, single in re.findall(r"(\d)-(\d)|([1-8&ea])", text):
        labels += [str(number) for number in range(int(first), int(last) + 1)] if first else [single]
    return tuple(labels)


@cache
def _step(text: str) -> Step:
    foot, *words = text.removesuffix("*").split()
    move = max((n for n in range(1, len(words) + 1) if " ".join(words[:n]) in _MOVES), default=0)
    return Step(
        foot=Foot(foot),
        move=Move(" ".join(words[:move])) if move else Move.STEP,
        direction=Direction(" ".join(words[move:])) if words[move:] else None,
    )
