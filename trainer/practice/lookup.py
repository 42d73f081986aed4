"""Looking a step up by any of its names: plain rows, all of them text, for a command, a screen or a program.

Rows are those of figures.toml, filled in for a start on one foot, with the turn that the name says, else the usual one.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.facing import amount, turn_text
from trainer.dance.figures import Figure, Form, MoveRow, Step, figures, fill, mirrored, moves, shape, sources
from trainer.practice.step_names import Named, named
from trainer.terms import Direction, Foot, Label, Move, Weight


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """What a foot does on one count of a figure."""

    count: str
    foot: str
    """R, L, B for both, - for none."""
    step: str
    """The move and its direction: "rock forward"; a plain step is called by its direction alone."""
    travels: bool
    """The direction is the one said with the name; the usual one is shown."""
    weight: str
    """The foot that carries afterwards; empty: the one that carried before the figure."""
    open: bool
    """The weight is not settled by the name: a sheet may end it on the other foot."""
    turn: str
    """As "1/4 right"; empty for none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormRow:
    """One way to dance a figure."""

    counts: tuple[str, ...]
    """The label patterns that it is danced to: "1&2", "1-4"."""
    when: str
    """For which turns alone it serves: "turning 1/4 right"; empty: whatever is said."""
    ways: tuple[str, ...]
    """The directions that may be said, the usual one first; empty: none may be said."""
    steps: tuple[StepRow, ...]
    """With the counts of the first pattern."""
    falls: tuple[str, ...]
    """Where a turn falls: "1/4 right on 3"; the usual place first. Empty: it does not turn of itself."""
    ambiguous: bool
    """Another form is danced to the same counts under the same name: the sheet must say which."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A figure of several steps, or a single move, under its own name."""

    name: str
    kind: str
    """figure or move."""
    group: str
    """The family that it is listed with."""
    others: tuple[str, ...]
    """Its other names."""
    short: str
    """The name in block letters, as the floor shows it."""
    foot: str
    """The foot that the rows start with; - where it belongs to none."""
    turn: str
    """The turn that makes it this figure, where a sheet does not say how far; empty for none."""
    weight: str
    """Of a move: what it does to the weight, in words; empty of a figure, whose steps say it."""
    forms: tuple[FormRow, ...]
    """Empty of a move."""
    notes: tuple[str, ...]
    """What is open, in sentences."""
    source: str
    """Where it is from, in words; who published it stands beside its row in the table of figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedUp:
    """What a name came to."""

    asked: str
    found: tuple[Entry, ...]
    """The steps of that name, mostly one; several where only a part of their names was given; none."""
    also: tuple[str, ...] = ()
    """Other names in which the words stand."""
    near: tuple[str, ...] = ()
    """Where nothing was found: names spelt alike."""


def looked_up(name: str, foot: Foot | None = None) -> LookedUp:
    """Return the figures and moves that a name stands for, and names like it where there is none.

    `name` is anything a dancer types or a sheet calls a step: "coaster step", "Coasters", "1/4 monterey left"; a part
    of a name ("kick ball") finds all whose names it stands in. The rows start on `foot` (R or L); None: on the foot
    that turns or goes to the side said in the name, else on the right. An empty name finds nothing; `families` lists
    all.
    """
    names = named(name)
    own = (names.own,) if names.own else names.inside
    return LookedUp(
        asked=names.asked,
        found=tuple(_entry(one, foot, names) for one in own),
        also=tuple(one for one in names.inside if one not in own),
        near=names.near,
    )


def families() -> Mapping[str, tuple[str, ...]]:
    """Return the names of all figures and, after them, of all moves, by their groups in the order of the table."""
    groups: dict[str, list[str]] = {}
    for figure in figures().values():
        groups.setdefault(_group(figure), []).append(figure.name)
    for row in moves().values():
        groups.setdefault(_group(row), []).append(row.move.value)
    return {group: tuple(names) for group, names in groups.items()}


def _group(row: Figure | MoveRow) -> str:
    return row.group if isinstance(row, Figure) else _MOVE_GROUPS[row.weight]


_MOVE_GROUPS = {
    "takes": "single steps that take the weight",
    "none": "gestures of the free foot, without weight",
    "same": "landing on the foot that carries already",
    "both": "landing on both feet",
    "open": "the weight as the next step settles it",
    "still": "the weight stays where it is",
}

_MOVE_WEIGHTS = {
    "takes": "the foot that steps must be free, and carries the weight afterwards",
    "none": "the foot that does it must be free, and takes no weight",
    "same": "lands on the foot that carries already",
    "both": "lands on both feet, or on one where the sheet says so",
    "open": "open until the next step settles it",
    "still": "stays where it is",
}


def _entry(name: str, foot: Foot | None, asked: Named) -> Entry:
    """Return the rows of a figure or move by its own name."""
    figure = figures().get(name)
    return _move_entry(moves()[Move(name)]) if figure is None else _figure_entry(figure, foot, asked)


def _move_entry(row: MoveRow) -> Entry:
    usual = {"foot": "; without a note the foot that does it", "as before": "; without a note it stays"}
    return Entry(
        name=row.move.value,
        kind="move",
        group=_group(row),
        others=row.words[1:],
        short=row.short,
        foot="-" if row.footless else "R",
        turn="",
        weight=_MOVE_WEIGHTS[row.weight] + (usual[row.ends] if row.weight == "open" else ""),
        forms=(),
        notes=("It may stand without a foot.",) if row.footless else (),
        source=_published("NTA"),
    )


def _published(source: str) -> str:
    """Say how many have published a row, and whether any of it is from memory."""
    keys = {key for key in re.findall(r"\w+", source) if key in sources()}
    glossaries = len(keys - {"mem"})
    told = "" if not glossaries else "a published glossary" if glossaries == 1 else f"{glossaries} published glossaries"
    return ", partly ".join(part for part in (told, "from memory" if "mem" in keys else "") if part)


def _figure_entry(figure: Figure, foot: Foot | None, asked: Named) -> Entry:
    start = (foot or _start(figure, asked)) if figure.needs_foot else Foot.NONE
    turn = figure.turn
    if asked.turn is not None:
        turn = -asked.turn if figure.turn is not None and figure.turn < 0 else asked.turn
    fitting = [form for form in figure.forms if asked.turn is None or _turn_of(form, turn) == turn]
    # Forms for any turn first: those for one turn alone are the exceptions.
    shown = sorted(fitting or figure.forms, key=lambda form: bool(form.turning) and asked.turn is None)
    rows = tuple(_form(figure, form, _turn_of(form, turn), start) for form in shown)
    usual = figure.usual_turn(start)
    return Entry(
        name=figure.name,
        kind="figure",
        group=figure.group,
        others=figure.words[1:],
        short=figure.short,
        foot=start.value,
        turn=turn_text(usual) if usual else "",
        weight="",
        forms=rows,
        notes=() if fitting or asked.turn is None else (f"No form of it turns {amount(asked.turn)}.",),
        source=_published(figure.source),
    )


def _start(figure: Figure, asked: Named) -> Foot:
    """Return the foot from which a figure goes or turns to the side said: a pivot to the left starts on the right."""
    away = figure.turn is not None and figure.turn < 0
    return Foot.LEFT if asked.side and (asked.side < 0) is not away else Foot.RIGHT


def _turn_of(form: Form, turn: Fraction | None) -> Fraction:
    """Return the turn to show a form with: the one asked for where it serves, else one that it is made for, or none."""
    if form.turning and turn not in form.turning:
        return form.turning[0]
    return turn if turn and form.falls else Fraction(0)


def _form(figure: Figure, form: Form, turn: Fraction, foot: Foot) -> FormRow:
    labels = form.counts[0]
    mirror = foot is Foot.LEFT
    steps = fill(form, None, turn, carried="L" if figure.needs_foot else None) or ()
    ways = [way.mirrored if mirror else way for way in form.ways]
    turning = [-one if mirror else one for one in form.turning]
    seen = -turn if mirror else turn
    return FormRow(
        counts=tuple(_pattern(one) for one in form.counts),
        when=f"turning {' or '.join(turn_text(one) for one in turning)}" if turning else "",
        ways=tuple(way.value for way in ways),
        steps=tuple(
            _step(label, mirrored(step) if mirror else step, travels=travels)
            for label, step, travels in zip(labels, steps, form.travelling, strict=True)
        ),
        falls=tuple(_fall(labels, shares, seen) for shares in form.falls),
        ambiguous=any(_alike(figure, form, other) for other in figure.forms if other is not form),
    )


def _step(label: Label, step: Step, *, travels: bool) -> StepRow:
    return StepRow(
        count=label,
        foot=step.foot.value,
        step=_said(step.move, step.direction),
        travels=travels,
        weight=step.weight or "",
        open=moves()[step.move].weight == "open",
        turn=turn_text(step.turn),
    )


def _said(move: Move, direction: Direction | None) -> str:
    words = [] if move is Move.STEP and direction else [move.value]
    return " ".join([*words, *([direction.value] if direction else [])])


def _fall(labels: Sequence[Label], shares: Sequence[Fraction], turn: Fraction) -> str:
    """Return where a turn falls in words: "on 3", "1/2 of it on 1, 1/2 of it on 2", "1/4 right on 3"."""
    told = []
    for label, share in zip(labels, shares, strict=True):
        if share and turn:
            told.append(f"{turn_text(share * turn)} on {label}")
        elif share:
            told.append(f"on {label}" if share == 1 else f"{share} of it on {label}")
    return ", ".join(told)


def _alike(figure: Figure, form: Form, other: Form) -> bool:
    """Return whether the name alone, to the same counts, may mean either form; a direction said tells some apart."""
    if not {shape(one) for one in form.counts} & {shape(one) for one in other.counts}:
        return False
    if form.ways and other.ways and not set(form.ways) & set(other.ways):
        return False
    carried: Weight | None = "L" if figure.needs_foot else None
    turn = figure.turn or Fraction(0)
    mine, its = (fill(one, None, turn, carried=carried) for one in (form, other))
    return mine is not None and its is not None and mine != its


def _pattern(labels: Sequence[Label]) -> str:
    """Return labels as they are written: 1, 2, 3, &, 4 is "1-3&4"."""
    text = "".join(labels)
    return re.sub(r"\d{2,}", lambda run: f"{run[0][0]}-{run[0][-1]}", text)
