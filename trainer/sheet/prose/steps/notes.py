"""Notes of weight and facing, laid on the event before them."""

from dataclasses import replace
from fractions import Fraction

from trainer.dance.figures import foot_weight
from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.path import Path
from trainer.sheet.prose.steps.roles import NO_TURN, Waiting, other
from trainer.sheet.prose.steps.weights import Note, Weighted
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

Drafts = tuple[Draft | None, ...]


def noted(path: Path, clause: Clause) -> Path:
    """Lay a clause's notes of weight and facing on the last event; a facing that a turn waits with waits too."""
    if (clause.weighted is None and clause.facing is None) or not path.drafts or path.drafts[-1] is None:
        return path
    last = path.drafts[-1]
    waits = path.waiting is not None and path.waiting.facing_span == clause.facing_span
    if clause.facing is not None and not waits:
        last = _facing(replace(last, facing=clause.facing, facing_span=clause.facing_span))
    if clause.weighted is not None:
        note = clause.weighted.foot
        path = _borne_alike(_stays(path, last, note), clause.weighted)
        last = _weighted(last, "acting" if note == "each" else note)
        if note == "each" or (clause.words.startswith("both ") and note == "acting"):
            path = _both(path)
    return path.with_last(last)


def turned_to(drafts: Drafts, before: Drafts, waiting: Waiting) -> Drafts:
    """Return drafts that took a turn which had waited, the facing that it leads to on the last of them that turns."""
    at = max((at for at, pair in enumerate(zip(drafts, before, strict=True)) if pair[0] != pair[1]), default=0)
    last = drafts[at] if drafts else None
    if waiting.facing is None or last is None or last.facing is not None:
        return drafts
    return (*drafts[:at], replace(last, facing=waiting.facing, facing_span=waiting.facing_span), *drafts[at + 1 :])


def with_facing_left(path: Path) -> Path:
    """Return a path with the facing of a turn that still waits at its end on the last event."""
    last = path.drafts[-1] if path.drafts else None
    if path.waiting is None or path.waiting.facing is None or last is None:
        return path
    return path.with_last(replace(last, facing=path.waiting.facing, facing_span=path.waiting.facing_span))


def _stays(path: Path, last: Draft, note: Note) -> Path:
    """Return a path whose stomp before a hold leaves the weight as it is noted there: "stomp, hold (weight on L)"."""
    before = path.drafts[-2] if len(path.drafts) > 1 else None
    if before is None or last.moves[0] not in _STILL or note not in ("R", "L") or before.weight is not None:
        return path
    if move_rows()[before.moves[0]].weight != "open" or before.foot not in (Foot.RIGHT, Foot.LEFT):
        return path
    return path._replace(drafts=(*path.drafts[:-2], _weighted(before, note), path.drafts[-1]))


_STILL = {Move.HOLD, Move.CLAP, Move.SNAP, Move.POSE}


def _both(path: Path) -> Path:
    """Return a path whose last event but one takes its weight: "stomp R, stomp L (both take weight)"."""
    before = path.drafts[-2] if len(path.drafts) > 1 else None
    if before is None:
        return path
    return path._replace(drafts=(*path.drafts[:-2], _weighted(before, "acting"), path.drafts[-1]))


_OF_HIPS = {Move.BUMP, Move.HIP_ROLL, Move.BODY_ROLL}


def _borne_alike(path: Path, note: Weighted) -> Path:
    """Return a path whose events before the last have its weight too.

    They are the same ("bump right twice"), or the words say that the weight stays ("bump right, left, weight left
    throughout").
    """
    last = path.drafts[-1]
    if note.foot not in ("R", "L") or last is None or last.moves[0] not in _OF_HIPS:
        return path
    drafts = list(path.drafts)
    for at in range(len(drafts) - 2, -1, -1):
        one = drafts[at]
        same = at >= path.clause_from and one is not None and (one.moves, one.direction) == (last.moves, last.direction)
        if one is None or not (same or (note.stays and one.moves[0] in _OF_HIPS)):
            break
        drafts[at] = _weighted(replace(one, foot=Foot.NONE, weight=None), note.foot)
    return path._replace(drafts=tuple(drafts))


_DIAGONAL_SIGNS = {
    Direction.FORWARD_RIGHT: 1, Direction.FORWARD_LEFT: -1, Direction.BACK_RIGHT: -1, Direction.BACK_LEFT: 1,
}  # fmt: skip


def _facing(draft: Draft) -> Draft:
    """Return a draft that may have turned to a diagonal: it goes to one, and one is stated as its facing."""
    sign = _DIAGONAL_SIGNS.get(draft.direction) if draft.direction is not None else None
    if sign is None or draft.turns != NO_TURN or draft.facing is None or (draft.facing * 8) % 2 != 1:
        return draft
    return replace(draft, turns=(Fraction(0), Fraction(sign, 8), Fraction(-sign, 8)))


def _weighted(draft: Draft, note: Note) -> Draft:
    """Return a draft with a note of weight: a foot, "acting", or "none"."""
    foot = draft.foot
    rule = move_rows()[draft.moves[0]].weight
    if note in ("R", "L", "B"):
        pivots = draft.other_foot_than_last and foot is None and note != "B"
        loads = rule == "none" and foot is not None and foot.value == note
        moves = (*draft.moves, Move.STEP) if loads and Move.STEP not in draft.moves else draft.moves
        return replace(draft, moves=moves, weight=note, foot=Foot(note) if pivots else foot)
    named = foot in (Foot.RIGHT, Foot.LEFT)
    if note == "acting":
        moves = (Move.STEP, *draft.moves) if rule in ("none", "still") else draft.moves
        return replace(draft, moves=moves, weight=foot_weight(foot) if foot is not None else None)
    weight = foot_weight(other(foot)) if named and foot is not None else None
    moves = (Move.TOUCH,) if rule == "takes" or (rule == "open" and weight is None) else draft.moves
    return replace(draft, moves=moves, weight=weight)
