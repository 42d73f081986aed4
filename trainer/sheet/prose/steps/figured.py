"""A clause that names a figure: the events that the table gives it for the foot, the way and the turn said."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from trainer.dance.figures import Figure, Form, Step, figures, fill, mirrored
from trainer.sheet.prose.steps.carrying import OF_BODY
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.feet import diagonal_of
from trainer.sheet.prose.steps.figure_turns import named_turns, natural_side, turns_that_way
from trainer.sheet.prose.steps.lengths import lengths_of
from trainer.sheet.prose.steps.paddles import paddles
from trainer.sheet.prose.steps.roles import NO_TURN, Named, Role, other, shared, tells_other_feet, with_shares
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot

_MOST = 40
"""Roles of one clause, the cheapest ones first found."""

_LEAST_TOLD = 2
"""Feet of a figure that is only begun."""
_BEGUN = 0.15

_SIZES = (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1))


def figure_roles(clause: Clause) -> Iterator[Role]:
    """Yield what a figure's name may be: its events, several times them, a part of them, or only a name."""
    row = figures()[_of_the_time(clause)]
    found = list(islice(_event_roles(clause, row), _MOST))
    yield from found
    yield from _begun(clause, found)
    cost = 0.05 if clause.introduces else 0.45
    longest = max((len(role.drafts) for role in found), default=0)
    usual = found[0].drafts if found else ()
    shares = _shares_of(usual)
    turns = named_turns(clause, row)
    start = clause.run[0] if clause.run else clause.feet[0] if clause.feet else clause.to
    if clause.figure in _EITHER_FOOT and not clause.run and not clause.sure:
        start = None
    forms = tuple(role.drafts for role in found)
    counts, loose = min(longest, len(usual)), not clause.introduces
    moves = {draft.moves[0] for draft in usual if draft is not None}
    of_body = next(iter(moves)) if len(moves) == 1 and moves <= OF_BODY else None
    named = Named(clause.figure, counts, start, turns, shares, loose=loose, forms=forms, move=of_body)
    yield Role("summary", preference=cost, value=named)


def _begun(clause: Clause, found: Sequence[Role]) -> Iterator[Role]:
    """Yield the steps of a figure whose feet are told, the rest being told after: "vine left L R and on 7 ..."."""
    many = len(clause.run)
    if many < _LEAST_TOLD or clause.turning is not None or clause.introduces:
        return
    for role in found:
        begun = role.drafts[:many]
        feet = tuple(draft.foot if draft is not None else None for draft in begun)
        if len(role.drafts) > many and feet == clause.run:
            yield role._replace(drafts=begun, preference=role.preference + _BEGUN)
            return


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
        yield from paddles(clause)
    for start, way, cost in _starts(clause, row):
        for form_cost, drafts in _fillings(clause, row, start, way):
            total = cost + form_cost + introduced
            yield from lengths_of(clause, row, drafts, total)


_EITHER_FOOT = {"weave", "waltz balance", "volta"}
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
    if row.name in _EITHER_FOOT and clause.start is not None and side in (Foot.RIGHT, Foot.LEFT):
        # "Weave right starting with left over".
        lateral = Direction.RIGHT if side is Foot.RIGHT else Direction.LEFT
        yield clause.start, way if way is not None else lateral, 0.0
    if turns_that_way(clause, row):
        yield None, way, 0.0
        if clause.turning is not None and clause.turning.side is None:
            yield side, way, 0.1
        return
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
        for drafts, extra in _forms(row, foot, direction, turn, others):
            key = tuple((draft.foot, draft.moves, draft.turns) for draft in drafts)
            same = sum(len(one) == len(key) for one in danced)
            if key in danced or same > 1:
                continue
            danced.append(key)
            shorter = 0.05 * (len(key) != len(row.forms[0].steps))
            unlike = 0.3 * tells_other_feet(clause.run, drafts)
            yield cost + extra + 0.08 * same + shorter + unlike, _placed(clause, drafts, turn, others)


def _forms(
    row: Figure, foot: Foot | None, direction: Direction | None, turn: Fraction, others: tuple[Fraction, ...]
) -> Iterator[tuple[tuple[Draft, ...], float]]:
    """Yield the drafts of the forms that go the way said, then the others, made to go there."""
    fitting = [(form, _filled(row, form, foot, direction, turn, others)) for form in row.forms]
    for _, drafts in fitting:
        if drafts is not None:
            yield drafts, 0.0
    for form, drafts in fitting:
        forced = _filled(row, form, foot, None, turn, others, travelling=direction) if drafts is None else None
        if forced is not None and direction is not None:
            yield forced, 0.08


def _placed(
    clause: Clause, drafts: tuple[Draft, ...], turn: Fraction, others: tuple[Fraction, ...]
) -> tuple[Draft, ...]:
    """Lay the turn where the words say: "over the last two"."""
    plain = [replace(draft, turns=NO_TURN) for draft in drafts]
    if clause.nth and turn and clause.nth <= len(drafts):
        place = clause.nth % (len(drafts) + 1) - 1 if clause.nth > 0 else len(drafts) - 1
        return with_shares(plain, (turn, *others), [Fraction(index == place) for index in range(len(drafts))])
    if not clause.last or not turn or clause.last > len(drafts):
        return drafts
    shares = [Fraction(0)] * (len(drafts) - clause.last) + [Fraction(1, clause.last)] * clause.last
    return with_shares(plain, (turn, *others), shares)


def _turned(
    clause: Clause, row: Figure, start: Foot | None
) -> Iterator[tuple[Foot | None, Fraction, tuple[Fraction, ...], float]]:
    """Yield the starting foot, the signed turn, other sizes that it may have, and the cost."""
    turning = clause.turning
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
        own = natural_side(row) * (-1 if foot is Foot.LEFT else 1)
        side = turning.side if turning is not None else None
        if side is None and start is None and turns_that_way(clause, row):
            side = clause.feet[0]
        for sign in (1, -1):
            if side is not None and (side is Foot.RIGHT) != (sign > 0):
                continue
            unlikely = 0.0 if sign == own or foot is None else 0.15
            if turning is None and side is None and sign != own:
                continue
            if side is not None:
                unlikely = 0.0 if start is not None or foot is None or sign == own else 0.15
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
    steps = fill(form, way, signed, fall=_fall(form, signed))
    loose: Fraction | None = None
    if steps is None and turn and not form.turning:
        # The table has no place for a turn here, but the words have.
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


def _fall(form: Form, turn: Fraction) -> int:
    """Return which of the places where a turn may fall is meant: the first in quarters, else in eighths."""
    for parts in (4, 8):
        for fall, shares in enumerate(form.falls):
            if all((share * turn * parts).denominator == 1 for share in shares):
                return fall
    return 0


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


def usual_shares(name: str, foot: Foot | None, n: int, turn: Fraction) -> tuple[Fraction, ...] | None:
    """Return how the table shares a turn among n steps of a figure; None where it does not say."""
    row = figures().get(name)
    signed = -turn if foot is Foot.LEFT else turn
    for form in row.forms if row is not None else ():
        if len(form.steps) == n and form.falls and (not form.turning or signed in form.turning):
            return form.falls[_fall(form, turn)]
    return None
