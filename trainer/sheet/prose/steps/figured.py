"""A clause that names a figure: the events that the table gives it, from the foot, the way and the turn that are said."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from trainer.dance.figures import Figure, Form, Step, figures, fill, mirrored
from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.feet import diagonal_of
from trainer.sheet.prose.steps.roles import NO_TURN, Named, Role, other, shared, with_shares
from trainer.sheet.prose.steps.turns import Turning
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_MOST = 40
"""Roles of one clause, the cheapest ones first found."""

_SIZES = (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1))


def figure_roles(clause: Clause) -> Iterator[Role]:
    """Yield what a figure's name may be: its events, several times them, a part of them, or only a name."""
    row = figures()[_of_the_time(clause)]
    found = list(islice(_event_roles(clause, row), _MOST))
    yield from found
    cost = 0.05 if clause.introduces else 0.45
    longest = max((len(role.drafts) for role in found), default=0)
    usual = found[0].drafts if found else ()
    shares = _shares_of(usual)
    turns = clause.turning.turns if clause.turning is not None else NO_TURN
    start = clause.run[0] if clause.run else clause.feet[0] if clause.feet else clause.to
    yield Role("summary", preference=cost, value=Named(clause.figure, min(longest, len(usual)), start, turns, shares))


def _of_the_time(clause: Clause) -> str:
    """Return the figure's key; a "basic" that goes forward or back is a waltz's."""
    walks = any(way in (Direction.FORWARD, Direction.BACK) for way in clause.ways)
    return "waltz basic" if clause.figure == "nightclub basic" and walks else clause.figure


def _shares_of(drafts: Sequence[Draft | None]) -> tuple[Fraction, ...]:
    turns = [draft.turns[0] if draft is not None else Fraction(0) for draft in drafts]
    whole = sum(turns)
    return tuple(turn / whole for turn in turns) if whole else ()


def _event_roles(clause: Clause, row: Figure) -> Iterator[Role]:
    introduced = 0.2 if clause.introduces == ":" else 0.0
    if row.name == "paddle turn":
        yield from _paddles(clause)
    for start, way, cost in _starts(clause, row):
        for form_cost, drafts in _fillings(clause, row, start, way):
            total = cost + form_cost + introduced
            yield from _lengths(clause, row, drafts, total)


def _paddles(clause: Clause) -> Iterator[Role]:
    """Yield a paddle turn of one count: a pivot after a step, or a push of the free foot that takes no weight."""
    turning = clause.turning or Turning(Fraction(1, 4), None, "")
    foot = clause.run[0] if clause.run else clause.feet[0] if clause.feet else None
    pivot = Draft(
        (Move.PIVOT,), None, turns=turning.turns, figure="paddle turn", other_foot_than_last=True, span=clause.span
    )
    push = Draft(
        (Move.PUSH, Move.TOUCH), foot, turns=turning.turns, figure="paddle turn", figure_start=True, span=clause.span
    )
    if clause.times == 1:
        yield Role("events", (pivot,), preference=0.05)
        yield Role("events", (push,), preference=0.15 if foot is None else 0.05)
        return
    yield Role("events", (push,) * clause.times, preference=0.1)


_EITHER_FOOT = {"weave", "waltz balance"}
"""Figures whose side is not always that of the foot that starts them: "weave left" may begin with R crossing."""


def _starts(clause: Clause, row: Figure) -> Iterator[tuple[Foot | None, Direction | str | None, float]]:
    """Yield the foot that a figure may start with and the way that it may go, with their cost."""
    way = next((way for way in clause.ways), None)
    if not row.needs_foot:
        yield Foot.NONE, way, 0.0
        return
    if clause.run:
        yield clause.run[0], way, 0.0
        return
    side = clause.feet[0] if clause.feet else clause.to
    if side in (Foot.RIGHT, Foot.LEFT):
        yield side, way if way is not None else _second_side(clause), 0.0 if clause.feet else 0.02
        if not clause.sure and way is None and row.name in _EITHER_FOOT:
            lateral = Direction.RIGHT if side is Foot.RIGHT else Direction.LEFT
            yield side, lateral, 0.01
            yield other(side), lateral, 0.05
        return
    if clause.refs and not clause.ways:
        yield None, clause.refs[0].way, 0.0
        return
    yield None, way, 0.0


def _second_side(clause: Clause) -> Direction | None:
    """Return the side that a figure goes to when its foot is said as well: "left sailor to the left"."""
    if clause.feet and clause.to in (Foot.RIGHT, Foot.LEFT):
        return Direction.RIGHT if clause.to is Foot.RIGHT else Direction.LEFT
    return clause.refs[0].way if clause.refs else None


def _fillings(
    clause: Clause, row: Figure, start: Foot | None, way: Direction | str | None
) -> Iterator[tuple[float, tuple[Draft, ...]]]:
    """Yield the drafts of every form, one for each length, with the turns that are said or usual."""
    direction = diagonal_of(way, start) if way is not None and not isinstance(way, Direction) else way
    for foot, turn, others, cost in _turned(clause, row, start):
        danced: list[tuple[object, ...]] = []
        for form in row.forms:
            n = len(form.steps)
            drafts = _filled(row, form, foot, direction, turn, others)
            extra = 0.0
            if drafts is None and direction is not None:
                drafts, extra = _filled(row, form, foot, None, turn, others, travelling=direction), 0.08
            if drafts is None:
                continue
            key = tuple((draft.foot, draft.moves, draft.turns) for draft in drafts)
            same = sum(len(one) == n for one in danced)
            if key in danced or same > 1:
                continue
            danced.append(key)
            other = 0.05 * (n != len(row.forms[0].steps))
            yield cost + extra + 0.08 * same + other, _placed(clause, drafts, turn, others)


def _placed(
    clause: Clause, drafts: tuple[Draft, ...], turn: Fraction, others: tuple[Fraction, ...]
) -> tuple[Draft, ...]:
    """Lay the turn where the words say: "over the last two"."""
    if not clause.last or not turn or clause.last > len(drafts):
        return drafts
    plain = [replace(draft, turns=NO_TURN) for draft in drafts]
    shares = [Fraction(0)] * (len(drafts) - clause.last) + [Fraction(1, clause.last)] * clause.last
    return with_shares(plain, (turn, *others), shares)


def _turned(
    clause: Clause, row: Figure, start: Foot | None
) -> Iterator[tuple[Foot | None, Fraction, tuple[Fraction, ...], float]]:
    """Yield the starting foot, the signed turn, other sizes that it may have, and the cost."""
    turning = clause.turning
    natural = -1 if (row.turn is not None and row.turn < 0) else 1
    if turning is None and row.turn is None:
        yield start, Fraction(0), (), 0.0
        return
    if (
        turning is not None
        and turning.amount is None
        and row.turn is None
        and turning.side is None
        and turning.word == "turn"
    ):
        for index, turn in enumerate(turning.turns[:4]):
            yield start, turn, (), 0.05 * index
        return
    size = turning.amount if turning is not None and turning.amount is not None else abs(row.turn or Fraction(1, 4))
    guessed = turning is None or turning.amount is None
    for foot, foot_cost in _turning_feet(row, start):
        own = natural if foot is not Foot.LEFT else -natural
        side = turning.side if turning is not None else None
        for sign in (1, -1):
            if side is not None and (side is Foot.RIGHT) != (sign > 0):
                continue
            unlikely = 0.0 if sign == own or foot is None else 0.15
            if turning is None and sign != own:
                continue
            if side is not None:
                unlikely = 0.0
            others = tuple(other_size * sign for other_size in _SIZES if other_size != size) if guessed else ()
            yield foot, size * sign, others, foot_cost + unlikely


def _turning_feet(row: Figure, start: Foot | None) -> tuple[tuple[Foot | None, float], ...]:
    if start is None and row.turn is not None and row.needs_foot:
        return ((Foot.RIGHT, 0.0), (Foot.LEFT, 0.01))
    return ((start, 0.0),)


def _filled(
    row: Figure,
    form: Form,
    foot: Foot | None,
    direction: Direction | None,
    turn: Fraction,
    others: tuple[Fraction, ...],
    *,
    travelling: Direction | None = None,
) -> tuple[Draft, ...] | None:
    """Return a form's drafts, or None where it does not go that way."""
    mirror = foot is Foot.LEFT
    way = direction.mirrored if mirror and direction is not None else direction
    signed = -turn if mirror else turn
    steps = fill(form, way, signed)
    loose: Fraction | None = None
    if steps is None and turn and not form.turning:
        # The table has no place for a turn here: the words have one, and it falls on the last step.
        steps, loose = fill(form, way, Fraction(0)), turn
    if steps is None:
        return None
    if mirror:
        steps = tuple(mirrored(step) for step in steps)
    drafts = [
        _draft_of(row.name, step, index, foot, _way(form, index, step, travelling)) for index, step in enumerate(steps)
    ]
    if loose is not None:
        drafts = list(shared(drafts, (loose,)))
    if others:
        drafts = [_with_sizes(draft, turn, others) for draft in drafts]
    return tuple(drafts)


def _way(form: Form, index: int, step: Step, travelling: Direction | None) -> Direction | None:
    return travelling if travelling is not None and form.travelling[index] else step.direction


def _with_sizes(draft: Draft, turn: Fraction, others: tuple[Fraction, ...]) -> Draft:
    if draft.turns == NO_TURN or not turn:
        return draft
    if draft.turns[0] != turn:
        return draft
    return replace(draft, turns=(turn, *others))


def _draft_of(name: str, step: Step, index: int, foot: Foot | None, direction: Direction | None) -> Draft:
    unnamed = foot is None and step.foot in (Foot.RIGHT, Foot.LEFT)
    return Draft(
        (step.move,),
        None if unnamed else step.foot,
        direction,
        turns=(step.turn,),
        then=step.then,
        figure=name,
        figure_start=index == 0,
    )


def _lengths(clause: Clause, row: Figure, drafts: tuple[Draft, ...], cost: float) -> Iterator[Role]:
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


_PARTS = {"heel grind": ((0, 1),), "monterey": ((0, 2), (1, 2))}
"""Parts of figures that go by the figure's name, the rest being spelled out: "heel grind right, step left back"."""


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


def usual_shares(name: str, foot: Foot | None, n: int, turn: Fraction) -> tuple[Fraction, ...] | None:
    """Return how the table shares a turn among n steps of a figure; None where it does not say."""
    row = figures().get(name)
    signed = -turn if foot is Foot.LEFT else turn
    for form in row.forms if row is not None else ():
        if len(form.steps) == n and form.falls and (not form.turning or signed in form.turning):
            return form.falls[0]
    return None


def mirrored_draft(draft: Draft, *, keeps_turn: bool = False) -> Draft:
    """Return a draft as seen in a mirror, but for its turn where that has a side of its own."""
    swapped = {"R": "L", "L": "R"}
    return replace(
        draft,
        foot=draft.foot.mirrored if draft.foot is not None else None,
        direction=draft.direction.mirrored if draft.direction is not None else None,
        turns=draft.turns if keeps_turn or draft.foot is None else tuple(-turn for turn in draft.turns),
        then=draft.then if keeps_turn or draft.foot is None else -draft.then,
        weight=swapped.get(draft.weight, draft.weight) if draft.weight is not None else None,  # type: ignore[arg-type]
        also=tuple(
            (foot.mirrored if foot else None, move, way.mirrored if way else None) for foot, move, way in draft.also
        ),
    )
