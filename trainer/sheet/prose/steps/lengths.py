"""Over how many counts a figure's name may go: once, several times, in part, once from each of the feet said."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.dance.figures import Figure
from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import NO_TURN, Role, shared
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move, Weight


def lengths_of(clause: Clause, row: Figure, drafts: tuple[Draft, ...], cost: float) -> Iterator[Role]:
    """Yield a figure once, several times, in part, or with a hold at its end."""
    drafts = tuple(replace(draft, span=clause.span) for draft in drafts)
    n = len(drafts)
    if clause.run:
        yield from _run_lengths(clause, drafts, cost)
        return
    if clause.times > 1:
        yield from (
            Role("events", several, preference=cost + extra)
            for several, extra in _repeated(clause, drafts, clause.times)
        )
        cost += 0.3
    if row.name in _TOUCHING and n == 4 and clause.way in (Direction.TOGETHER, Direction.CROSS):
        # "Vine right together": its fourth count takes the weight.
        closing = replace(drafts[-1], moves=(Move.STEP,), direction=Direction(clause.way))
        yield Role("events", (*drafts[:-1], closing), preference=cost)
        cost += 0.1
    hold = Draft((Move.HOLD,), Foot.NONE, span=clause.span)
    padded = n == 3 or (n == 7 and row.name != "volta")
    yield Role(
        "events", drafts, preference=cost, pad=hold if padded else None, pad_cost=0.4, pad_most=1 if padded else 0
    )
    if clause.half or row.name.endswith(" box"):
        yield from _halves(clause, drafts, cost + (0.0 if clause.half else 0.5))
    for first, last in _PARTS.get(row.name, ()):
        yield Role("events", drafts[first:last], preference=cost + 0.1)
    if n > 3 and not clause.half:
        yield Role("events", drafts[:-1], breaches=0.8, preference=cost + 0.2)
    if clause.times == 1 and n <= 4:
        for times in (2, 4) if n == 2 else (2,):
            for several, extra in _repeated(clause, drafts, times):
                yield Role("events", several, preference=cost + extra + (0.12 if _plural(clause) else 0.5))


_PARTS = {"heel grind": ((0, 1),), "monterey": ((0, 2), (1, 2)), "applejack": ((0, 1),), "mambo": ((0, 1), (0, 2))}
"""Parts of figures that go by the figure's name, the rest being spelled out: "heel grind right, step left back"."""


_TOUCHING = {"vine", "rolling vine"}
"""Figures of three steps whose fourth count is a touch, where nothing else is said."""


def _plural(clause: Clause) -> bool:
    return clause.figure not in clause.words or clause.figure + "s" in clause.words


def _halves(clause: Clause, drafts: tuple[Draft, ...], cost: float) -> Iterator[Role]:
    n = len(drafts)
    for length in sorted({n // 2, (n + 1) // 2}):
        if length:
            yield Role("events", drafts[-length:] if clause.half == "later" else drafts[:length], preference=cost)


def _repeated(clause: Clause, drafts: tuple[Draft, ...], times: int) -> Iterator[tuple[tuple[Draft, ...], float]]:
    """Yield a figure several times: on from the free foot, or from the same foot each time."""
    changes = sum(move_rows()[draft.moves[0]].weight == "takes" and draft.foot is not Foot.NONE for draft in drafts)
    sided = clause.turning is not None and clause.turning.side is not None
    mirror = tuple(mirrored_draft(draft, keeps_turn=sided) for draft in drafts)
    alternate = tuple(draft for index in range(times) for draft in (drafts if index % 2 == 0 else mirror))
    same = drafts * times
    if changes % 2:
        yield alternate, 0.0
        if any(draft.foot for draft in drafts):
            yield same, 0.1
    else:
        yield same, 0.0
        if any(draft.foot in (Foot.RIGHT, Foot.LEFT) for draft in drafts):
            yield alternate, 0.12


def _run_lengths(clause: Clause, drafts: tuple[Draft, ...], cost: float) -> Iterator[Role]:
    """Yield a figure with a row of feet: they are its own feet, or it is done once from each of them."""
    run = clause.run
    n = len(drafts)
    own = tuple(draft.foot for draft in drafts)
    if own[: len(run)] == run or run in (_acting(own), _changing(own)):
        hold = Draft((Move.HOLD,), Foot.NONE, span=clause.span)
        yield Role("events", drafts, preference=cost, pad=hold if n == 3 else None, pad_cost=0.4, pad_most=int(n == 3))
    if len(run) == n and own != run:
        yield Role(
            "events",
            tuple(replace(draft, foot=foot) for draft, foot in zip(drafts, run, strict=True)),
            preference=cost + 0.1,
        )
    if len(run) > n and own == run[:n] and own[0] != own[-1]:
        longer = tuple(
            replace(drafts[index % n], foot=foot, turns=NO_TURN, figure_start=index == 0)
            for index, foot in enumerate(run)
        )
        turned = clause.turning is not None
        yield Role(
            "events",
            shared(longer, clause.turning.turns) if turned and clause.turning else longer,
            preference=cost + 0.15,
        )
    if not any(foot in (Foot.RIGHT, Foot.LEFT) for foot in own):
        # "Applejacks left, right": one count for each side.
        sides = {Foot.RIGHT: Direction.RIGHT, Foot.LEFT: Direction.LEFT}
        yield Role(
            "events", tuple(replace(drafts[0], direction=sides.get(foot)) for foot in run), preference=cost + 0.05
        )
    each: list[Draft] = []
    for foot in run:
        each.extend(drafts if foot is run[0] else (mirrored_draft(draft) for draft in drafts))
    yield Role("events", tuple(each), preference=cost + 0.08)


def _acting(feet: Sequence[Foot | None]) -> tuple[Foot | None, ...]:
    return tuple(foot for foot in feet if foot is not Foot.NONE)


def _changing(feet: Sequence[Foot | None]) -> tuple[Foot | None, ...]:
    """Return the acting feet, each once where it acts several times in a row: "heel switches right, left"."""
    acting = _acting(feet)
    return tuple(foot for index, foot in enumerate(acting) if not index or foot is not acting[index - 1])


_SWAPPED: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}


def mirrored_draft(draft: Draft, *, keeps_turn: bool = False) -> Draft:
    """Return a draft as seen in a mirror, but for its turn where that has a side of its own."""
    return replace(
        draft,
        foot=draft.foot.mirrored if draft.foot is not None else None,
        direction=draft.direction.mirrored if draft.direction is not None else None,
        turns=draft.turns if keeps_turn or draft.foot is None else tuple(-turn for turn in draft.turns),
        then=draft.then if keeps_turn or draft.foot is None else -draft.then,
        weight=_SWAPPED[draft.weight] if draft.weight is not None else None,
        also=tuple(
            (foot.mirrored if foot else None, move, way.mirrored if way else None) for foot, move, way in draft.also
        ),
    )
