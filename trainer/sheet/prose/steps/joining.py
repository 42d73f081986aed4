"""The clauses of an item to ways of filling its counts: dynamic programming over the number of counts filled.

Each clause takes one of its roles; the cheapest few paths to every number of counts are kept. Between clauses a path
carries a turn that waits for its step, and a figure's name that is being spelled out (`acts.py`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import inf
from typing import NamedTuple

from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.acts import HANDLERS
from trainer.sheet.prose.steps.carrying import OF_BODY, carried_on
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.figured import usual_shares
from trainer.sheet.prose.steps.gestured import after_gesture
from trainer.sheet.prose.steps.notes import Drafts, noted, turned_to, with_facing_left
from trainer.sheet.prose.steps.path import Path, Placed
from trainer.sheet.prose.steps.profiles import HEAVY
from trainer.sheet.prose.steps.pushed_back import pushed_back
from trainer.sheet.prose.steps.roles import NO_TURN, Role, Waiting, shared, with_shares
from trainer.sheet.prose.steps.spelling import closed
from trainer.sheet.prose.steps.taking import alone, roles_of
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

EMPTY = 2.2
"""An empty count."""
EMPTY_MORE = 0.7
LEFT_OVER = 1.5
"""A step for which there is no count."""

MOST_COUNTS = 48
"""No item is read further."""

_TRIED = 3
"""So many times the paths kept are tried at each clause."""


def paths_of(
    clauses: Sequence[Clause], counts: int, prices: Sequence[Sequence[float]], width: int, before: Draft | None = None
) -> list[Path]:
    """Return the best paths through all clauses that fill just so many counts, the best first.

    `prices` are those of `profiles.prices_to_go`. `before` is the last event of the item before, of which a bare foot
    may be more.
    """
    paths = [Path(context=before)]
    single = alone(clauses)
    for index, clause in enumerate(clauses):
        room = Room(counts, prices[index + 1], upbeat=index + 1 < len(clauses) and clauses[index + 1].upbeat)
        ways = sorted(_ways(paths, roles_of(clause, single), room), key=_promise)[: _TRIED * width]
        reached = [after for way in ways for after in _taken(way, clause, room)]
        paths = _best(reached, room, width)
    closing = [closed(with_facing_left(path)) for path in paths if len(path.drafts) == counts]
    return _best(closing, Room(counts, (0.0,)), width)


class Room(NamedTuple):
    """The counts to fill, and what the clauses after this one cost for each number of counts left."""

    counts: int
    prices: Sequence[float]
    upbeat: bool = False
    """Whether an "&" comes next."""

    def after(self, filled: int) -> float:
        """Return the price of the rest after so many counts are filled."""
        left = self.counts - filled
        return self.prices[left] if 0 <= left < len(self.prices) else inf


def _best(paths: list[Path], room: Room, width: int) -> list[Path]:
    ordered = sorted(paths, key=lambda path: path.breaches * HEAVY + path.preference + room.after(len(path.drafts)))
    kept: list[Path] = []
    seen: set[object] = set()
    for path in ordered:
        key = (tuple(map(_likeness, path.drafts)), path.waiting is None, path.named is None)
        if key in seen:
            continue
        seen.add(key)
        kept.append(path)
        if len(kept) == width:
            break
    return kept


def _likeness(draft: Draft | None) -> object:
    """Return what makes two drafts the same to the search; quick to hash, unlike fractions."""
    if draft is None:
        return None
    turn = draft.turns[0].as_integer_ratio()
    return draft.moves, draft.foot, draft.direction, draft.weight, turn, len(draft.turns), draft.figure, draft.also


class Way(NamedTuple):
    """A path that might take a clause in a role, with what it would cost."""

    price: float
    path: Path
    role: Role
    more: int
    """Fillers after the role's own events."""


def _promise(way: Way) -> float:
    return way.price


def _ways(paths: Sequence[Path], roles: Sequence[Role], room: Room) -> Iterator[Way]:
    for path in paths:
        filled = len(path.drafts)
        so_far = path.breaches * HEAVY + path.preference
        for role in roles:
            price = so_far + role.breaches * HEAVY + role.preference
            if role.act == "events":
                counts = filled + len(role.drafts)
                for more in range(1 + (role.pad_most if role.pad is not None else 0)):
                    rest = room.after((counts + more) * role.repeats)
                    if rest < inf:
                        yield Way(price + role.pad_cost * more + rest, path, role, more)
            elif role.act in ("again", "pad"):
                yield Way(price, path, role, 0)
            elif room.after(filled) < inf:
                yield Way(price + room.after(filled), path, role, 0)


def _taken(way: Way, clause: Clause, room: Room) -> list[Path]:
    """Return the path that comes of a clause in a role: none where the role does not go with the path."""
    path, role = way.path, way.role
    if role.act == "events" and not room.upbeat and _recovers_twice(path, role):
        return []
    step = (
        _with_events(path, role, clause, way.more) if role.act == "events" else HANDLERS[role.act](path, role, clause)
    )
    if step is None or room.after(len(step.drafts)) == inf:
        return []
    return [noted(_priced(step, role, clause), clause)]


def _priced(path: Path, role: Role, clause: Clause) -> Path:
    unread = (*path.unread, *clause.unknown) if role.breaches else path.unread
    chatter = (*path.chatter, *clause.unknown) if role.chatter or clause.odd else path.chatter
    return path._replace(
        breaches=path.breaches + role.breaches,
        preference=path.preference + role.preference,
        unread=unread,
        chatter=chatter,
        implied=path.implied or role.implied,
    )


def _with_events(path: Path, role: Role, clause: Clause, more: int) -> Path | None:
    if (role.after_gesture and not _gestured(path)) or (role.lowers and not _set_down(path)):
        return None
    drafts, waiting, cost = _turned_first(role.drafts, path.waiting)
    if path.waiting is not None and waiting is None:
        drafts = turned_to(drafts, role.drafts, path.waiting)
    starts = clause.start or path.starts
    if starts is not None and drafts and drafts[0] is not None and drafts[0].foot is None:
        drafts = (replace(drafts[0], foot=starts), *drafts[1:])
    before = path.drafts[-1] if path.drafts else path.context
    if path.named is not None and path.named.move is not None and path.named_from == len(path.drafts):
        # "Hips: right, left".
        before = Draft((path.named.move,), Foot.NONE if path.named.move in OF_BODY else None)
    if role.bare and before is not None:
        drafts = carried_on(drafts, before, clause)
        if len(drafts) == 1 and drafts[0] is not None:
            drafts = (after_gesture(drafts[0], before, clause, near=bool(path.drafts)),)
    if before is not None and drafts and drafts[0] is not None:
        drafts = (_closing(pushed_back(drafts[0], before), before, clause), *drafts[1:])
    if isinstance(role.value, Waiting):
        waiting = role.value
    path, drafts = _dropped(path, drafts)
    start = len(path.drafts)
    if role.shared is not None:
        last = path.drafts[-1] if path.drafts else None
        if last is None:
            return None
        gesture = (Foot.NONE, role.shared.moves[0], role.shared.direction)
        path = path.with_last(replace(last, also=(*last.also, gesture)))
    whole = (path.drafts + _padded(drafts, role, more)) * role.repeats
    placed = path.placed
    if clause.at and clause.turning is not None and role.value is None:
        placed = (*placed, Placed(start, len(whole), clause.at, ()))
    return path._replace(
        drafts=whole,
        waiting=waiting,
        clause_from=start,
        starts=None,
        preference=path.preference + cost + role.pad_cost * more,
        implied=path.implied or more > 0,
        placed=placed,
    )


def _recovers_twice(path: Path, role: Role) -> bool:
    """Whether a recover that was only implied is told now, as one more: before an "&" it may be the half beat."""
    before, first = path.drafts[-1] if path.drafts else None, role.drafts[0] if role.drafts else None
    if before is None or first is None or not before.moves[0] is first.moves[0] is Move.RECOVER:
        return False
    return path.implied and first.foot in (None, before.foot)


def _set_down(path: Path) -> bool:
    last = path.drafts[-1] if path.drafts else None
    return last is not None and last.moves[0] in (Move.TOE, Move.HEEL) and last.foot is not None


def _gestured(path: Path) -> bool:
    if not path.drafts and path.context is None:
        return True
    before = path.drafts[-1] if path.drafts else path.context
    if before is None or before.weight is not None:
        return False
    return before.moves[0] is Move.RECOVER or move_rows()[before.moves[0]].weight == "none"


def _dropped(path: Path, drafts: Drafts) -> tuple[Path, Drafts]:
    """Give a lowered heel the foot of the step before it, which only touches until then: "step R, drop heel".

    A heel after the toe of its foot may be lowered too, as the feet then need it: "R toe, R heel, L toe, L heel".
    """
    first = drafts[0] if drafts else None
    before = path.drafts[-1] if path.drafts else None
    if first is not None and before is not None and (before.moves[0], first.moves) in _STRUTS:
        if before.foot is not None and first.foot in (None, before.foot) and first.direction is None:
            return path, (replace(first, foot=before.foot, moves=(*first.moves, Move.DROP)), *drafts[1:])
        return path, drafts
    if first is None or before is None or first.moves[0] is not Move.DROP or before.moves[0] not in _SET_DOWN:
        return path, drafts
    if before.foot is None or first.foot not in (None, before.foot):
        return path, drafts
    if before.moves[0] is Move.STEP:
        path = path.with_last(replace(before, moves=(Move.TOE,)))
    return path, (replace(first, foot=before.foot), *drafts[1:])


_STRUTS = {(Move.TOE, (Move.HEEL,)), (Move.HEEL, (Move.TOE,))}
_SET_DOWN = {Move.STEP, Move.TOE, Move.HEEL, Move.TOUCH}
_COMING_BACK = {Move.SPLIT, Move.FAN, Move.SWIVEL, Move.TWIST}
_HOME = {Direction.TOGETHER, Direction.IN, Direction.IN_PLACE}
_WHAT = {"it", "them", "both", "back", "bring it back"}


def _closing(draft: Draft, before: Draft, clause: Clause) -> Draft:
    """Return "bring them together", after heels or toes that went apart, as the other half of that."""
    closes = draft.moves[0] is Move.STEP and draft.foot is None and draft.direction in _HOME
    parted = before.moves[0] is Move.SPLIT and draft.direction is not Direction.IN_PLACE
    named = clause.words in _WHAT or any(word in _WHAT for word in clause.words.split())
    came = before.moves[0] in _COMING_BACK and closes and (parted or named)
    return replace(draft, moves=before.moves, foot=before.foot) if came else draft


def _padded(drafts: Drafts, role: Role, more: int) -> Drafts:
    if not more or role.pad is None:
        return drafts
    extra = (role.pad,) * more
    if role.spread and drafts[0] is not None:
        plain = [replace(draft, turns=NO_TURN) for draft in drafts if draft is not None]
        return shared([*plain, *extra], drafts[0].turns)
    if role.late and drafts and drafts[-1] is not None:
        return (*drafts[:-1], *extra, drafts[-1])
    return drafts + extra


def _turned_first(drafts: Drafts, waiting: Waiting | None) -> tuple[Drafts, Waiting | None, float]:
    """Lay a waiting turn on the first step, or share it in a figure; return the drafts, what still waits, the cost."""
    first = drafts[0] if drafts else None
    if waiting is None or first is None:
        return drafts, waiting, 0.0
    sound = [draft for draft in drafts if draft is not None]
    plain = all(draft.turns == NO_TURN for draft in sound)
    if first.moves[0] in (Move.HOLD, Move.CLAP, Move.SNAP):
        moves = (Move.TURN,) if first.moves[0] is Move.HOLD else first.moves
        return (replace(first, moves=moves, turns=waiting.turns), *drafts[1:]), None, 0.3
    small = not waiting.joined and abs(waiting.turns[0]) <= Fraction(1, 4)
    travels = not first.figure and all(draft.moves[0] in _TRAVELLING for draft in sound)
    # "Turn a quarter left and walk right, left, right" turns before the walks.
    if len(sound) > 1 and plain and travels and not small:
        return shared(sound, waiting.turns), None, 0.02
    if first.figure and plain and waiting.joined:
        shares = usual_shares(first.figure, first.foot, len(sound), waiting.turns[0])
        if shares is not None:
            return with_shares(sound, waiting.turns, shares), None, 0.03
    if first.turns != NO_TURN:
        return drafts, None, 0.6
    gesture = move_rows()[first.moves[0]].weight == "none"
    return (replace(first, turns=waiting.turns), *drafts[1:]), None, 0.05 if gesture or first.figure else 0.0


_TRAVELLING = {Move.STEP, Move.WALK, Move.RUN}


def turn_of(draft: Draft | None) -> Fraction:
    """Return the likeliest turn of a draft, 0 of none."""
    return draft.turns[0] if draft is not None else Fraction(0)
