"""The clauses of an item to ways of filling its counts: dynamic programming over the number of counts filled.

Each clause takes one of its roles; the cheapest few paths to every number of counts are kept. Between clauses a path
carries a turn that waits for its step, and a figure's name that is being spelled out.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from trainer.dance.figures import moves as move_rows
from trainer.routine import Span
from trainer.sheet.prose.clauses import Clause
from trainer.sheet.prose.figured import mirrored_draft
from trainer.sheet.prose.roles import NO_TURN, UNREAD, Named, Role, other, shared, with_shares
from trainer.sheet.prose.taking import roles_of
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

EMPTY = 2.2
EMPTY_MORE = 0.7
LEFT_OVER = 1.5

MOST_COUNTS = 48
"""No item is read further."""


class Placed(NamedTuple):
    """A turn that the words lay on certain counts of an item: "on 7"."""

    first: int
    """Index of the first draft that it may stand in."""
    last: int
    counts: tuple[int, ...]
    turns: tuple[Fraction, ...]
    """Empty: the turn that stands there already."""


class Path(NamedTuple):
    """A way to take the clauses so far."""

    breaches: float = 0.0
    preference: float = 0.0
    drafts: tuple[Draft | None, ...] = ()
    pending: tuple[Fraction, ...] = ()
    """A turn that waits for its step."""
    named: Named | None = None
    """The figure that is being spelled out."""
    named_from: int = 0
    unread: tuple[Span, ...] = ()
    implied: bool = False
    chatter: tuple[Span, ...] = ()
    clause_from: int = 0
    """Where the events of the last clause begin."""
    placed: tuple[Placed, ...] = ()
    facing_waits: bool = False

    @property
    def cost(self) -> tuple[float, float]:
        """Breaches, then preference."""
        return self.breaches, self.preference


def paths_of(clauses: Sequence[Clause], most_counts: int, width: int) -> list[list[Path]]:
    """Return the best paths through all clauses by the number of counts filled: index n holds those with n."""
    states: dict[int, list[Path]] = {0: [Path()]}
    for clause in clauses:
        reached: dict[int, list[Path]] = {}
        for paths in states.values():
            for path in paths:
                for role in roles_of(clause):
                    for after in _taken(path, role, clause, most_counts):
                        reached.setdefault(len(after.drafts), []).append(after)
        states = {n: _best(paths, width) for n, paths in reached.items()} or states
    found: list[list[Path]] = [[] for _ in range(most_counts + 1)]
    for n, paths in states.items():
        found[n] = _best([_closed(path) for path in paths], width)
    return found


def _best(paths: list[Path], width: int) -> list[Path]:
    paths.sort(key=lambda path: path.cost)
    kept: list[Path] = []
    seen: set[object] = set()
    for path in paths:
        key = (path.drafts, path.pending, path.named)
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
    step = _HANDLERS[role.act](path, role, clause)
    if step is None or len(step.drafts) > most:
        return []
    return [_noted(_priced(step, role, clause), clause)]


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


# Events.


def _with_events(path: Path, role: Role, clause: Clause, most: int) -> list[Path]:
    room = most - len(path.drafts) - len(role.drafts)
    if room < 0:
        return []
    drafts, pending, cost = _turned_first(role.drafts, path.pending, path)
    if role.bare and path.drafts and path.drafts[-1] is not None:
        drafts = tuple(_carried_on(draft, path.drafts[-1]) for draft in drafts)
    if isinstance(role.value, tuple) and role.value[:1] == ("unread",):
        pending = role.value[1]
    start = len(path.drafts)
    paths = []
    for more in range(min(role.pad_most, room) + 1 if role.pad is not None else 1):
        filled = _padded(drafts, role, more)
        step = path._replace(
            drafts=path.drafts + filled,
            pending=pending,
            clause_from=start,
            preference=path.preference + cost + role.pad_cost * more,
        )
        if more and role.pad_cost > 0.25:
            step = step._replace(implied=True)
        if clause.at and clause.turning is not None and role.value is None:
            step = step._replace(placed=(*step.placed, Placed(start, len(step.drafts), clause.at, ())))
        paths.append(_noted(_priced(step, role, clause), clause))
    return paths


def _padded(drafts: tuple[Draft | None, ...], role: Role, more: int) -> tuple[Draft | None, ...]:
    if not more or role.pad is None:
        return drafts
    extra = (role.pad,) * more
    if role.late and drafts and drafts[-1] is not None:
        return (*drafts[:-1], *extra, drafts[-1])
    return drafts + extra


def _turned_first(
    drafts: tuple[Draft | None, ...], pending: tuple[Fraction, ...], path: Path
) -> tuple[tuple[Draft | None, ...], tuple[Fraction, ...], float]:
    """Lay a waiting turn on the first step; return the drafts, what still waits, and the cost."""
    if not pending or not drafts:
        return drafts, pending, 0.0
    first = drafts[0]
    if first is None:
        return drafts, pending, 0.0
    if first.moves[0] in (Move.HOLD, Move.CLAP, Move.SNAP):
        return (
            (
                replace(first, moves=(Move.TURN,) if first.moves[0] is Move.HOLD else first.moves, turns=pending),
                *drafts[1:],
            ),
            (),
            0.3,
        )
    run = len(drafts) > 1 and not first.figure
    if run and all(
        draft is not None and draft.turns == NO_TURN and draft.moves[0] in (Move.STEP, Move.WALK, Move.RUN)
        for draft in drafts
    ):
        return shared([draft for draft in drafts if draft is not None], pending), (), 0.02
    if first.figure and all(draft is not None and draft.turns == NO_TURN for draft in drafts):
        return (replace(first, turns=pending), *drafts[1:]), (), 0.05
    if first.turns != NO_TURN:
        return drafts, (), 0.6
    gesture = move_rows()[first.moves[0]].weight == "none"
    return (replace(first, turns=pending), *drafts[1:]), (), 0.05 if gesture else 0.0


_CARRIED = {Move.WALK, Move.RUN, Move.SKATE, Move.SWAY, Move.BUMP, Move.SWIVEL, Move.TWIST, Move.STOMP, Move.HIP_ROLL}
"""Moves that a bare foot or way after them is more of: "walk right, left", "swivel left, right, centre"."""


def _carried_on(draft: Draft | None, before: Draft) -> Draft | None:
    """Return a bare foot or way as more of the move before it."""
    move = before.moves[0]
    if draft is None or move not in _CARRIED or before.figure:
        return draft
    named = draft.foot in (Foot.RIGHT, Foot.LEFT)
    if move in (Move.SWIVEL, Move.TWIST, Move.HIP_ROLL):
        way = {Foot.RIGHT: Direction.RIGHT, Foot.LEFT: Direction.LEFT}.get(draft.foot or Foot.NONE, draft.direction)
        return replace(draft, moves=before.moves, foot=before.foot, direction=way)
    if not named:
        return draft
    if move is Move.BUMP:
        way = Direction.RIGHT if draft.foot is Foot.RIGHT else Direction.LEFT
        same = before.foot is Foot.NONE and before.weight is None
        if same:
            return replace(draft, moves=before.moves, foot=Foot.NONE, direction=way)
        return replace(draft, moves=before.moves, direction=way, weight=draft.foot.value if draft.foot else None)
    return replace(draft, moves=before.moves, direction=draft.direction or before.direction)


# The other acts.


def _next(path: Path, role: Role, clause: Clause) -> Path | None:
    return None if path.pending else path._replace(pending=role.value)


def _last(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    if before is None or before.turns != NO_TURN:
        return None
    word = clause.turning.word if clause.turning is not None else ""
    turned = replace(before, turns=role.value)
    if word == "spiral":
        turned = replace(turned, then=role.value[0], figure="spiral", figure_start=True)
    elif before.moves[0] is Move.HOLD:
        turned = replace(turned, moves=(Move.TURN,))
    elif clause.turning is not None and clause.turning.amount is not None and clause.turning.amount > Fraction(1, 2):
        turned = replace(turned, then=role.value[0])
    return path._replace(drafts=(*path.drafts[:-1], turned))


def _also(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    gesture = role.drafts[0]
    if before is None or gesture is None:
        return None
    foot = gesture.foot
    if foot in (Foot.RIGHT, Foot.LEFT) and foot is before.foot and move_rows()[before.moves[0]].weight == "takes":
        return None
    step = replace(before, also=(*before.also, (foot, gesture.moves[0], gesture.direction)))
    return path._replace(drafts=(*path.drafts[:-1], step))


def _summary(path: Path, role: Role, clause: Clause) -> Path | None:
    if path.named is not None and path.named_from == len(path.drafts):
        return None
    closed = _spelled(path)
    return closed._replace(named=role.value, named_from=len(path.drafts))


def _again(path: Path, role: Role, clause: Clause) -> Path | None:
    times, only_last, mirror = role.value
    chunk = path.drafts[path.clause_from if only_last else 0 :]
    if not chunk or (not only_last and path.clause_from == 0):
        return None
    more: tuple[Draft | None, ...] = ()
    for index in range(1, times):
        more += tuple(mirrored_draft(draft) if draft and mirror and index % 2 else draft for draft in chunk)
    return path._replace(drafts=path.drafts + more)


def _pad(path: Path, role: Role, clause: Clause) -> Path | None:
    if not path.drafts:
        return None
    before = path.drafts[-1]
    if before is None:
        return None
    held = Draft((Move.HOLD,), Foot.NONE, span=clause.span)
    lasting = before.moves[0] in (
        Move.DRAG,
        Move.SWEEP,
        Move.SLIDE,
        Move.RONDE,
        Move.UNWIND,
        Move.HOLD,
        Move.HIP_ROLL,
        Move.BODY_ROLL,
    )
    filler = replace(before, turns=NO_TURN, figure_start=False, facing=None, facing_span=None) if lasting else held
    more = (filler,) * (role.value - 1)
    late = lasting and before.turns != NO_TURN
    drafts = (*path.drafts[:-1], *more, before) if late else path.drafts + more
    return path._replace(drafts=drafts)


def _swap(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    last = role.drafts[0]
    if before is None or last is None:
        return None
    foot = last.foot or before.foot
    changed = replace(
        before,
        moves=last.moves if not role.bare else before.moves,
        direction=last.direction or before.direction,
        foot=foot,
    )
    return path._replace(drafts=(*path.drafts[:-1], changed))


def _place(path: Path, role: Role, clause: Clause) -> Path | None:
    if not path.drafts:
        return None
    return path._replace(placed=(*path.placed, Placed(0, len(path.drafts), clause.at, role.value)))


def _nothing(path: Path, role: Role, clause: Clause) -> Path | None:
    return path


_HANDLERS = {
    "next": _next, "last": _last, "also": _also, "summary": _summary, "again": _again, "pad": _pad, "swap": _swap, "place": _place,
    "nothing": _nothing,
}  # fmt: skip


# Notes and ends.


def _noted(path: Path, clause: Clause) -> Path:
    """Lay a clause's notes of weight and facing on the last event."""
    if (clause.weighted is None and clause.facing is None) or not path.drafts or path.drafts[-1] is None:
        return path
    last = path.drafts[-1]
    if clause.facing is not None:
        last = replace(last, facing=clause.facing, facing_span=clause.facing_span)
    if clause.weighted is not None:
        last = _weighted(last, clause.weighted.foot)
    return path._replace(drafts=(*path.drafts[:-1], last))


def _weighted(draft: Draft, note: str) -> Draft:
    """Return a draft with a note of weight: a foot, "acting", or "none"."""
    foot = draft.foot
    if note in ("R", "L", "B"):
        pivots = draft.other_foot_than_last and foot is None and note != "B"
        return replace(draft, weight=note, foot=Foot(note) if pivots else foot)  # type: ignore[arg-type]
    named = foot in (Foot.RIGHT, Foot.LEFT)
    if note == "acting":
        if named and foot is not None:
            return replace(draft, weight=foot.value)
        takes = move_rows()[draft.moves[0]].weight in ("none", "still")
        return replace(draft, moves=(Move.STEP, *draft.moves)) if takes else draft
    if named and foot is not None:
        return replace(draft, weight=other(foot).value)
    takes = move_rows()[draft.moves[0]].weight in ("takes", "open")
    return replace(draft, moves=(Move.TOUCH,)) if takes else draft


def _spelled(path: Path) -> Path:
    """Return a path whose figure is spelled out: its events bear the name, and a turn not yet danced is laid on them."""
    named = path.named
    if named is None:
        return path
    drafts = list(path.drafts[path.named_from :])
    whole = path._replace(named=None)
    if not drafts:
        return whole._replace(preference=path.preference + 0.6)
    counts = named.counts or len(drafts)
    cost = 0.0 if counts <= len(drafts) else 0.3
    own = drafts[:counts]
    if any(turn for turn in named.turns) and not any(draft is not None and draft.turns != NO_TURN for draft in own):
        own, extra = _laid(own, named)
        cost += extra
    else:
        own = [_sized(draft, named, own) for draft in own]
    told: list[Draft | None] = []
    for index, draft in enumerate(own):
        if draft is not None and not draft.figure:
            draft = replace(draft, figure=named.name, figure_start=index == 0)
        if index == 0 and draft is not None and draft.foot is None and named.start is not None:
            draft = replace(draft, foot=named.start)
        told.append(draft)
    return whole._replace(
        drafts=(*path.drafts[: path.named_from], *told, *drafts[counts:]), preference=path.preference + cost
    )


def _laid(drafts: list[Draft | None], named: Named) -> tuple[list[Draft | None], float]:
    """Lay the turn of a figure on its events where the table puts it."""
    sound = [draft for draft in drafts if draft is not None]
    if len(sound) != len(drafts):
        return drafts, 0.0
    if len(named.shares) == len(sound):
        return list(with_shares(sound, named.turns, named.shares)), 0.05
    return list(shared(sound, named.turns)), 0.1


def _sized(draft: Draft | None, named: Named, own: Sequence[Draft | None]) -> Draft | None:
    """Give the amount of the figure's turn to the one event that says only that it turns: "turn as the left goes behind"."""
    turning = [one for one in own if one is not None and one.turns != NO_TURN]
    if draft is None or len(turning) != 1 or turning[0] is not draft or len(draft.turns) < 3 or not any(named.turns):
        return draft
    return replace(draft, turns=named.turns)


def _closed(path: Path) -> Path:
    done = _spelled(path)
    # Passing over words that no table knows is a fault where a count is filled by something only implied.
    if done.chatter and done.implied:
        done = done._replace(breaches=done.breaches + UNREAD, unread=(*done.unread, *done.chatter))
    return done
