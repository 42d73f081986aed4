"""What a clause does to the events before it: a turn, a gesture, a note laid on the last; a repeat; a name spelled out."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from trainer.dance.figures import moves as move_rows
from trainer.routine import Span
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.figured import mirrored_draft, usual_shares
from trainer.sheet.prose.steps.roles import NO_TURN, UNREAD, Named, Role, Waiting, other, shared, with_shares
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move


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
    waiting: Waiting | None = None
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
    starts: Foot | None = None
    """The foot that the first step after it starts with."""
    context: Draft | None = None
    """The last event of the item before."""

    @property
    def cost(self) -> tuple[float, float]:
        """Breaches, then preference."""
        return self.breaches, self.preference

    def with_last(self, draft: Draft) -> "Path":
        """Return the path with another last event."""
        return self._replace(drafts=(*self.drafts[:-1], draft))


def _next(path: Path, role: Role, clause: Clause) -> Path | None:
    return None if path.waiting is not None else path._replace(waiting=role.value)


def _last(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    if before is None or before.turns != NO_TURN:
        return None
    turns: tuple[Fraction, ...] = role.value
    word = clause.turning.word if clause.turning is not None else ""
    if before.figure and word != "spiral":
        whole = _figure_end(path)
        shares = usual_shares(before.figure, whole[0].foot, len(whole), turns[0]) if whole else None
        if shares is not None:
            laid = with_shares(whole, turns, shares)
            return path._replace(
                drafts=(*path.drafts[: -len(laid)], *laid), preference=path.preference - min(0.1, role.preference)
            )
    row = path.drafts[path.clause_from :]
    plain = [draft for draft in row if draft is not None and draft.turns == NO_TURN and not draft.figure]
    if clause.joined and len(row) > 1 and len(plain) == len(row) and all(one.moves[0] in _GOING for one in plain):
        return path._replace(drafts=(*path.drafts[: path.clause_from], *shared(plain, turns)))
    turned = replace(before, turns=turns)
    if word == "spiral":
        turned = replace(turned, then=turns[0], figure="spiral", figure_start=True)
    elif before.moves[0] is Move.HOLD:
        turned = replace(turned, moves=(Move.TURN,))
    elif clause.turning is not None and clause.turning.amount is not None and clause.turning.amount > Fraction(1, 2):
        turned = replace(turned, then=turns[0])
    return path.with_last(turned)


_GOING = {Move.STEP, Move.WALK, Move.RUN}


def _figure_end(path: Path) -> list[Draft]:
    """Return the drafts of the figure that ends the path, if none of them turns."""
    whole: list[Draft] = []
    for draft in reversed(path.drafts):
        if draft is None or draft.turns != NO_TURN or (whole and draft.figure != whole[0].figure):
            return []
        whole.insert(0, draft)
        if draft.figure_start:
            return whole
    return []


def _also(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    gesture = role.drafts[0]
    if before is None or gesture is None:
        return None
    foot, move = gesture.foot, gesture.moves[0]
    if move is before.moves[0] and clause.ing:
        # "Vine right with a touch": the figure has it already.
        return path._replace(preference=path.preference - min(role.preference, 0.08))
    same = foot in (Foot.RIGHT, Foot.LEFT) and foot is before.foot
    if same and move not in _OF_BODY and move_rows()[before.moves[0]].weight == "takes":
        return None
    step = replace(before, also=(*before.also, (Foot.NONE if same else foot, move, gesture.direction)))
    return path.with_last(step)._replace(preference=path.preference - (0.25 if same else 0.0))


_OF_BODY = {Move.SWAY, Move.BUMP, Move.HIP_ROLL, Move.BODY_ROLL, Move.SHIMMY}


def _summary(path: Path, role: Role, clause: Clause) -> Path | None:
    if path.named is not None and path.named_from == len(path.drafts):
        # "Chassé right with touch:" is one name.
        return path
    return spelled(path)._replace(named=role.value, named_from=len(path.drafts))


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
    before = path.drafts[-1] if path.drafts else None
    if before is None:
        return None
    held = Draft((Move.HOLD,), Foot.NONE, span=clause.span)
    lasting = before.moves[0] in _LASTING
    plain = replace(before, turns=NO_TURN, figure_start=False, facing=None, facing_span=None)
    more = (plain if lasting else held,) * (role.value - 1)
    late = lasting and before.turns != NO_TURN
    return path._replace(drafts=(*path.drafts[:-1], *more, before) if late else path.drafts + more)


_LASTING = {
    Move.DRAG, Move.SWEEP, Move.SLIDE, Move.RONDE, Move.UNWIND, Move.HOLD, Move.HIP_ROLL, Move.BODY_ROLL, Move.BOUNCE,
}  # fmt: skip


def _swap(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    last = role.drafts[0]
    if before is None or last is None:
        return None
    moves = before.moves if role.bare else last.moves
    changed = replace(before, moves=moves, direction=last.direction or before.direction, foot=last.foot or before.foot)
    return path.with_last(changed)


def _place(path: Path, role: Role, clause: Clause) -> Path | None:
    if not path.drafts:
        return None
    return path._replace(placed=(*path.placed, Placed(0, len(path.drafts), clause.at, role.value)))


def _start(path: Path, role: Role, clause: Clause) -> Path | None:
    """Let the steps before a clause start with its foot."""
    first = next((index for index, draft in enumerate(path.drafts) if draft and draft.foot is not Foot.NONE), None)
    if first is None:
        return path._replace(starts=role.value)
    draft = path.drafts[first]
    if draft is None or draft.foot is not None:
        return path
    return path._replace(drafts=(*path.drafts[:first], replace(draft, foot=role.value), *path.drafts[first + 1 :]))


def _nothing(path: Path, role: Role, clause: Clause) -> Path | None:
    return path


HANDLERS: dict[str, Callable[[Path, Role, Clause], Path | None]] = {
    "next": _next,
    "last": _last,
    "also": _also,
    "summary": _summary,
    "again": _again,
    "pad": _pad,
    "swap": _swap,
    "place": _place,
    "start": _start,
    "nothing": _nothing,
}
"""What each act but events makes of a path; None where it does not go with it."""


def noted(path: Path, clause: Clause) -> Path:
    """Lay a clause's notes of weight and facing on the last event."""
    if (clause.weighted is None and clause.facing is None) or not path.drafts or path.drafts[-1] is None:
        return path
    last = path.drafts[-1]
    if clause.facing is not None:
        last = _facing(replace(last, facing=clause.facing, facing_span=clause.facing_span))
    if clause.weighted is not None:
        last = _weighted(last, clause.weighted.foot)
    return path.with_last(last)


_DIAGONAL_SIGNS = {
    Direction.FORWARD_RIGHT: 1, Direction.FORWARD_LEFT: -1, Direction.BACK_RIGHT: -1, Direction.BACK_LEFT: 1,
}  # fmt: skip


def _facing(draft: Draft) -> Draft:
    """Return a draft that may have turned to a diagonal: it goes to one, and one is stated as its facing."""
    sign = _DIAGONAL_SIGNS.get(draft.direction) if draft.direction is not None else None
    if sign is None or draft.turns != NO_TURN or draft.facing is None or (draft.facing * 8) % 2 != 1:
        return draft
    return replace(draft, turns=(Fraction(0), Fraction(sign, 8), Fraction(-sign, 8)))


def _weighted(draft: Draft, note: str) -> Draft:
    """Return a draft with a note of weight: a foot, "acting", or "none"."""
    foot = draft.foot
    rule = move_rows()[draft.moves[0]].weight
    if note in ("R", "L", "B"):
        pivots = draft.other_foot_than_last and foot is None and note != "B"
        loads = rule == "none" and foot is not None and foot.value == note
        moves = (*draft.moves, Move.STEP) if loads and Move.STEP not in draft.moves else draft.moves
        return replace(draft, moves=moves, weight=note, foot=Foot(note) if pivots else foot)  # type: ignore[arg-type]
    named = foot in (Foot.RIGHT, Foot.LEFT)
    if note == "acting":
        moves = (Move.STEP, *draft.moves) if rule in ("none", "still") else draft.moves
        return replace(draft, moves=moves, weight=foot.value if named and foot is not None else None)  # type: ignore[arg-type]
    weight = other(foot).value if named and foot is not None else None
    moves = (Move.TOUCH,) if rule == "takes" or (rule == "open" and weight is None) else draft.moves
    return replace(draft, moves=moves, weight=weight)  # type: ignore[arg-type]


def spelled(path: Path) -> Path:
    """Return a path whose figure is spelled out: its events bear the name, and a turn not yet danced is laid on them."""
    named = path.named
    if named is None:
        return path
    drafts = list(path.drafts[path.named_from :])
    whole = path._replace(named=None)
    if not drafts:
        return whole._replace(preference=path.preference + 0.6)
    counts = named.counts or len(drafts)
    own = drafts[:counts]
    cost = 0.0 if counts <= len(drafts) else 0.3
    turned = any(draft is not None and draft.turns != NO_TURN for draft in own)
    if any(named.turns) and not turned and counts <= len(drafts):
        own, extra = _laid(own, named)
        cost += extra
    else:
        own = [_sized(draft, named, own) for draft in own]
    told = [_named(draft, named, index) for index, draft in enumerate(own)]
    kept = (*path.drafts[: path.named_from], *told, *drafts[counts:])
    return whole._replace(drafts=kept, preference=path.preference + cost)


def _named(draft: Draft | None, named: Named, index: int) -> Draft | None:
    if draft is None:
        return None
    if not draft.figure and named.name:
        draft = replace(draft, figure=named.name, figure_start=index == 0)
    if index == 0 and draft.foot is None and named.start is not None:
        draft = replace(draft, foot=named.start)
    return draft


def _laid(drafts: list[Draft | None], named: Named) -> tuple[list[Draft | None], float]:
    """Lay the turn of a figure on its events where the table puts it."""
    sound = [draft for draft in drafts if draft is not None]
    if len(sound) != len(drafts):
        return drafts, 0.0
    if len(named.shares) == len(sound):
        return list(with_shares(sound, named.turns, named.shares)), 0.05
    return list(shared(sound, named.turns)), 0.1


def _sized(draft: Draft | None, named: Named, own: Sequence[Draft | None]) -> Draft | None:
    """Give the amount of the figure's turn to the one event that says only that it turns: "turn as left goes behind"."""
    turning = [one for one in own if one is not None and one.turns != NO_TURN]
    if draft is None or len(turning) != 1 or turning[0] is not draft or len(draft.turns) < 3 or not any(named.turns):
        return draft
    return replace(draft, turns=named.turns)


def closed(path: Path) -> Path:
    """Return a path at its item's end.

    Passing over words that no table knows is a fault where a count is filled by something only implied.
    """
    done = spelled(path)
    if done.chatter and done.implied:
        done = done._replace(breaches=done.breaches + UNREAD, unread=(*done.unread, *done.chatter))
    return done
