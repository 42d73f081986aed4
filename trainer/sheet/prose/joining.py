"""The clauses of an item to ways of filling its counts: dynamic programming over the number of counts filled.

Each clause takes one of its roles; the cheapest few paths to every number of counts are kept. Between clauses a path
carries a turn that waits for its step, and a figure's name that is being spelled out (`acts.py`).
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.acts import HANDLERS, Path, Placed, closed, noted
from trainer.sheet.prose.clauses import Clause
from trainer.sheet.prose.figured import usual_shares
from trainer.sheet.prose.roles import NO_TURN, Role, Waiting, shared, with_shares
from trainer.sheet.prose.taking import roles_of
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

EMPTY = 2.2
"""An empty count."""
EMPTY_MORE = 0.7
LEFT_OVER = 1.5
"""A step for which there is no count."""

MOST_COUNTS = 48
"""No item is read further."""

_UNLIKELY = 0.25
"""A filler that costs more than this is something that the words only imply."""

Drafts = tuple[Draft | None, ...]


def paths_of(clauses: Sequence[Clause], most_counts: int, width: int, before: Draft | None = None) -> list[list[Path]]:
    """Return the best paths through all clauses by the number of counts filled: index n holds those with n.

    `before` is the last event of the item before, of which a bare foot may be more.
    """
    states: dict[int, list[Path]] = {0: [Path(context=before)]}
    for clause in clauses:
        reached: dict[int, list[Path]] = {}
        roles = roles_of(clause)
        for paths in states.values():
            for path in paths:
                for role in roles:
                    for after in _taken(path, role, clause, most_counts):
                        reached.setdefault(len(after.drafts), []).append(after)
        if reached:
            states = {n: _best(paths, width) for n, paths in reached.items()}
        else:
            # No room for any of its events: they are left over.
            states = {n: [_left_over(path, clause) for path in paths] for n, paths in states.items()}
    found: list[list[Path]] = [[] for _ in range(most_counts + 1)]
    for n, paths in states.items():
        found[n] = _best([closed(path) for path in paths], width)
    return found


def _left_over(path: Path, clause: Clause) -> Path:
    return path._replace(breaches=path.breaches + LEFT_OVER, unread=(*path.unread, clause.span))


def _best(paths: list[Path], width: int) -> list[Path]:
    paths.sort(key=lambda path: path.cost)
    kept: list[Path] = []
    seen: set[object] = set()
    for path in paths:
        key = (path.drafts, path.waiting, path.named)
        if key in seen:
            continue
        seen.add(key)
        kept.append(path)
        if len(kept) == width:
            break
    return kept


def _taken(path: Path, role: Role, clause: Clause, most: int) -> list[Path]:
    """Return the paths that come of a clause in a role: none where the role does not go with the path."""
    if role.act == "events":
        return _with_events(path, role, clause, most)
    step = HANDLERS[role.act](path, role, clause)
    if step is None or len(step.drafts) > most:
        return []
    return [noted(_priced(step, role, clause), clause)]


def _priced(path: Path, role: Role, clause: Clause) -> Path:
    unread = (*path.unread, *clause.unknown) if role.breaches else path.unread
    chatter = (*path.chatter, *clause.unknown) if role.chatter else path.chatter
    return path._replace(
        breaches=path.breaches + role.breaches,
        preference=path.preference + role.preference,
        unread=unread,
        chatter=chatter,
        implied=path.implied or role.implied,
    )


def _with_events(path: Path, role: Role, clause: Clause, most: int) -> list[Path]:
    room = most - len(path.drafts) - len(role.drafts)
    if room < 0:
        return []
    if role.after_gesture and not _gestured(path):
        return []
    drafts, waiting, cost = _turned_first(role.drafts, path.waiting)
    starts = clause.start or path.starts
    if starts is not None and drafts and drafts[0] is not None and drafts[0].foot is None:
        drafts = (replace(drafts[0], foot=starts), *drafts[1:])
    before = path.drafts[-1] if path.drafts else path.context
    if role.bare and before is not None:
        drafts = _carried_on(drafts, before, clause)
    if isinstance(role.value, Waiting):
        waiting = role.value
    start = len(path.drafts)
    paths = []
    for more in range(min(role.pad_most, room) + 1 if role.pad is not None else 1):
        step = path._replace(
            drafts=path.drafts + _padded(drafts, role, more),
            waiting=waiting,
            clause_from=start,
            starts=None,
            preference=path.preference + cost + role.pad_cost * more,
            implied=path.implied or (more > 0 and role.pad_cost > _UNLIKELY),
        )
        if clause.at and clause.turning is not None and role.value is None:
            step = step._replace(placed=(*step.placed, Placed(start, len(step.drafts), clause.at, ())))
        if role.repeats > 1:
            step = step._replace(drafts=step.drafts * role.repeats)
        if len(step.drafts) <= most:
            paths.append(noted(_priced(step, role, clause), clause))
    return paths


def _gestured(path: Path) -> bool:
    before = path.drafts[-1] if path.drafts else None
    return before is not None and move_rows()[before.moves[0]].weight == "none" and before.weight is None


def _padded(drafts: Drafts, role: Role, more: int) -> Drafts:
    if not more or role.pad is None:
        return drafts
    extra = (role.pad,) * more
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
    if len(sound) > 1 and plain and not first.figure and all(draft.moves[0] in _TRAVELLING for draft in sound):
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
_CARRIED = {Move.WALK, Move.RUN, Move.SKATE, Move.SWAY, Move.BUMP, Move.SWIVEL, Move.TWIST, Move.STOMP, Move.HIP_ROLL}
"""Moves that a bare foot or way after them is more of: "walk right, left", "swivel left, right, centre"."""

_WAYS = {Foot.RIGHT: Direction.RIGHT, Foot.LEFT: Direction.LEFT}


def _carried_on(drafts: Drafts, before: Draft, clause: Clause) -> Drafts:
    """Return bare feet or ways as more of the move before them."""
    move = before.moves[0]
    if move not in _CARRIED or before.figure:
        return drafts
    if move is Move.BUMP and clause.times > 1 and drafts[0] is not None and drafts[0].foot in _WAYS:
        first = _carried(drafts[0], before)
        return (first, *(replace(first, foot=Foot.NONE, weight=None) for _ in drafts[1:]))
    return tuple(_carried(draft, before) if draft is not None else None for draft in drafts)


def _carried(draft: Draft, before: Draft) -> Draft:
    move = before.moves[0]
    way = _WAYS.get(draft.foot or Foot.NONE)
    if move in (Move.SWIVEL, Move.TWIST, Move.HIP_ROLL):
        return replace(draft, moves=before.moves, foot=before.foot, direction=way or draft.direction)
    if way is None or draft.foot is None:
        return draft
    if move is Move.BUMP:
        if before.foot is Foot.NONE and before.weight is None and before.direction is not way:
            return replace(draft, moves=before.moves, foot=draft.foot, direction=way, weight=draft.foot.value)  # type: ignore[arg-type]
        return replace(draft, moves=before.moves, direction=way, weight=draft.foot.value)  # type: ignore[arg-type]
    return replace(draft, moves=before.moves, direction=draft.direction or before.direction)


def turn_of(draft: Draft | None) -> Fraction:
    """Return the likeliest turn of a draft, 0 of none."""
    return draft.turns[0] if draft is not None else Fraction(0)
