"""What a clause does to the events before it: a turn or gesture laid on the last, a repeat, a name to spell out."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.each_turned import each_turned
from trainer.sheet.prose.steps.figured import usual_shares
from trainer.sheet.prose.steps.lengths import mirrored_draft
from trainer.sheet.prose.steps.own_sides import own_side_first
from trainer.sheet.prose.steps.path import Path, Placed
from trainer.sheet.prose.steps.restating import restated
from trainer.sheet.prose.steps.roles import NO_TURN, Role, Waiting, shared, with_shares
from trainer.sheet.prose.steps.spelling import spelled
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move


def _next(path: Path, role: Role, clause: Clause) -> Path | None:
    if path.waiting is not None:
        return None
    waiting: Waiting = role.value
    turns = _going_on(waiting.turns, path)
    if clause.facing_span == clause.span:
        # "(3) ... - 3:00 ¼ right, step right": the facing before a turn is that of the step before.
        return path._replace(waiting=Waiting(turns, waiting.joined))
    return path._replace(waiting=Waiting(turns, waiting.joined, clause.facing, clause.facing_span))


def _going_on(turns: tuple[Fraction, ...], path: Path) -> tuple[Fraction, ...]:
    """Return the turns that a phrase without a side may mean, first those that go on as the dancer turns already."""
    last = path.drafts[-1] if path.drafts else path.context
    named = path.named.turns if path.named is not None else ()
    before = named or (last.turns if last is not None and not last.other_foot_than_last else ())
    signs = {turn > 0 for turn in before[:1] if turn}
    if len(signs) != 1:
        return turns
    return tuple(sorted(turns, key=lambda turn: (turn > 0) not in signs))


def _last(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    turns: tuple[Fraction, ...] = role.value
    if before is None:
        return None
    if (each := each_turned(path, clause, turns)) is not None:
        return each
    if before.turns != NO_TURN:
        return _turned_more(path, role, clause, before)
    word = clause.turning.word if clause.turning is not None else ""
    if word != "square":
        named = path.named.turns if path.named is not None else NO_TURN
        turns = own_side_first(turns, _figure_end(path)[1], before, named)
    if clause.anded and not clause.follows and before.direction in _GONE:
        # "Step left to the side and turn a quarter left, touch right": no comma parts the step from its turn.
        path = path._replace(preference=path.preference - _ANDED)
    if (in_figure := _in_figure(path, clause, role, turns)) is not None:
        return in_figure
    row = path.drafts[path.clause_from :]
    plain = _plain(row)
    if clause.joined and len(row) > 1 and len(plain) == len(row) and all(one.moves[0] in _GOING for one in plain):
        return path._replace(drafts=(*path.drafts[: path.clause_from], *shared(plain, turns)))
    if before.direction is Direction.TOGETHER and not clause.ing:
        # A foot that closes seldom turns: "side, together, ¼ right, forward".
        path = path._replace(preference=path.preference + 0.12)
    turned = replace(before, turns=turns)
    if word == "spiral":
        turned = replace(turned, then=turns[0], figure="spiral", figure_start=True)
    elif before.moves[0] is Move.HOLD:
        turned = replace(turned, moves=(Move.TURN,))
    elif clause.turning is not None and clause.turning.amount is not None and clause.turning.amount > Fraction(1, 2):
        turned = replace(turned, then=turns[0])
    return path.with_last(turned)


def _turned_more(path: Path, role: Role, clause: Clause, before: Draft) -> Path | None:
    """Return the path where its last step turns already: the clause tells by how much, or what it turns further."""
    turns: tuple[Fraction, ...] = role.value
    if (told := _of_open_amount(before, clause, turns)) is not None:
        return path._replace(preference=path.preference - role.preference).with_last(told)
    # "¼ left, left forward sweeping a further ½": the second is made on the standing foot.
    both = before.turns[0] + turns[0]
    further = path._replace(preference=path.preference + 0.25)
    return further.with_last(replace(before, turns=(both,), then=turns[0])) if clause.joined else None


def _of_open_amount(before: Draft, clause: Clause, turns: tuple[Fraction, ...]) -> Draft | None:
    """Return the step before with the amount of its turn, which it left open: "pivot, weight onto L | 1/2 L"."""
    is_open = len({abs(turn) for turn in before.turns}) > 1
    told = clause.turning is not None and clause.turning.amount is not None and not clause.turning.word
    same = tuple(turn for turn in turns if turn in before.turns)
    return replace(before, turns=same) if is_open and told and same else None


_GONE = {Direction.SIDE, Direction.FORWARD, Direction.BACK, Direction.RIGHT, Direction.LEFT}
_ANDED = 0.15
"""What is gained where a turn is told with its step."""


def _in_figure(path: Path, clause: Clause, role: Role, turns: tuple[Fraction, ...]) -> Path | None:
    """Return the path with a turn where the words, or the table, lay it in the figure that ends it; else None."""
    if clause.nth and (place := _nth(path, clause.nth)) is not None:
        drafts = [
            replace(draft, turns=turns) if draft is not None and at == place else draft
            for at, draft in enumerate(path.drafts)
        ]
        return path._replace(drafts=tuple(drafts), preference=path.preference - min(0.15, role.preference))
    before = path.drafts[-1]
    if before is None or not (before.figure or path.named is not None):
        return None
    if clause.turning is not None and clause.turning.word == "spiral":
        return None
    name, whole = _figure_end(path)
    shares = usual_shares(name, whole[0].foot, len(whole), turns[0]) if whole else None
    if shares is None:
        return None
    laid = with_shares(whole, turns, shares)
    gained = path.preference - min(0.1, role.preference)
    return path._replace(drafts=(*path.drafts[: -len(laid)], *laid), preference=gained)


def _plain(row: Sequence[Draft | None]) -> list[Draft]:
    return [draft for draft in row if draft is not None and draft.turns == NO_TURN and not draft.figure]


_GOING = {Move.STEP, Move.WALK, Move.RUN}


def _nth(path: Path, nth: int) -> int | None:
    """Return the index of the step meant by its number in the figure, or in the clause, that ends the path."""
    whole = _figure_end(path)[1]
    first = len(path.drafts) - len(whole) if whole else path.clause_from
    place = len(path.drafts) - 1 if nth < 0 else first + nth - 1
    return place if place < len(path.drafts) and path.drafts[place] is not None else None


def _figure_end(path: Path) -> tuple[str, list[Draft]]:
    """Return the figure that ends the path, with its drafts, if none of them turns."""
    if path.named is not None and path.named.name:
        spelled_out = [
            draft for draft in path.drafts[path.named_from :] if draft is not None and draft.turns == NO_TURN
        ]
        sound = len(spelled_out) == len(path.drafts) - path.named_from
        return path.named.name, spelled_out if sound else []
    whole: list[Draft] = []
    for draft in reversed(path.drafts):
        if draft is None or draft.turns != NO_TURN or (whole and draft.figure != whole[0].figure):
            return "", []
        whole.insert(0, draft)
        if draft.figure_start:
            return draft.figure, whole
    return "", []


def _also(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    gesture = role.drafts[0]
    if gesture is None:
        return None
    if before is None:
        # "Sweeping right back into a sailor step": the sweep belongs to the count before.
        led = clause.ing and not path.drafts
        return path._replace(preference=path.preference + 0.3) if led else None
    if path.waiting is not None:
        # "Step right turning a quarter, with a sway, sway left": a gesture does not part a step from its turn.
        path = path._replace(preference=path.preference + _PASSED_OVER)
    foot, move = gesture.foot, gesture.moves[0]
    if move is before.moves[0] and clause.ing:
        # "Vine right with a touch": the figure has it already.
        return path._replace(preference=path.preference - min(role.preference, 0.08))
    if before.figure and before.figure_start is False and move_rows()[before.moves[0]].weight == "none":
        # "Vine right, brushing left": the vine of three, not the one with a touch.
        path = path._replace(preference=path.preference + 0.3)
    same = foot in (Foot.RIGHT, Foot.LEFT) and foot is before.foot
    if same and move not in _OF_BODY and move_rows()[before.moves[0]].weight == "takes":
        return None
    step = replace(before, also=(*before.also, (Foot.NONE if same else foot, move, gesture.direction)))
    return path.with_last(step)._replace(preference=path.preference - (min(role.preference, 0.25) if same else 0.0))


_PASSED_OVER = 0.06
"""What it costs that a gesture stands between a turn and the step that it waits for."""
_OF_BODY = {Move.SWAY, Move.BUMP, Move.HIP_ROLL, Move.BODY_ROLL, Move.SHIMMY}


def _summary(path: Path, role: Role, clause: Clause) -> Path | None:
    if path.named is not None and path.named_from == len(path.drafts):
        # "Chassé right with touch:" is one name.
        return path
    if path.waiting is not None and path.waiting.joined and role.value.move is not None:
        path = path._replace(preference=path.preference + _PASSED_OVER)
    return spelled(path)._replace(named=role.value, named_from=len(path.drafts))


def _again(path: Path, role: Role, clause: Clause) -> Path | None:
    times, only_last, mirror = role.value
    chunk = path.drafts[path.clause_from if only_last else 0 :]
    if not path.drafts and path.context is not None and times == 2 and path.named is None:
        # "On two do exactly the same again": the count before once more.
        fresh = replace(path.context, facing=None, facing_span=None, span=clause.span)
        return path._replace(drafts=(mirrored_draft(fresh) if mirror else fresh,))
    if not chunk or (not only_last and path.clause_from == 0):
        return None
    more: tuple[Draft | None, ...] = ()
    for index in range(1, times):
        more += tuple(mirrored_draft(draft) if draft and mirror and index % 2 else draft for draft in chunk)
    return path._replace(drafts=path.drafts + more)


_PAIR = 2
"""Steps of so few, the last lasts so long: "step forward, sweep round, slowly, two beats"."""


def _pad(path: Path, role: Role, clause: Clause) -> Path | None:
    before = path.drafts[-1] if path.drafts else None
    if before is None or (len(path.drafts) == role.value > _PAIR and not clause.joined):
        # "Sway right, left, right, left, 4 counts": so long are they together.
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
    return path.with_last(changed if last.turns == NO_TURN else replace(changed, turns=last.turns))


def _place(path: Path, role: Role, clause: Clause) -> Path | None:
    if not path.drafts:
        return None
    return path._replace(placed=(*path.placed, Placed(0, len(path.drafts), clause.at, role.value)))


def _feet(path: Path, role: Role, clause: Clause) -> Path | None:
    """Lay a row of feet in brackets on the steps before it."""
    feet: tuple[Foot, ...] = role.value
    last = path.drafts[-len(feet) :]
    sound = [draft for draft in last if draft is not None]
    named = [draft.foot for draft in sound if draft.foot is not None]
    if len(sound) != len(feet) or any(foot is Foot.NONE for foot in named):
        return None
    laid = tuple(replace(draft, foot=foot) for draft, foot in zip(sound, feet, strict=True))
    return path._replace(drafts=(*path.drafts[: -len(feet)], *laid))


def _start(path: Path, role: Role, clause: Clause) -> Path | None:
    """Let the steps before a clause start with its foot."""
    first = next((index for index, draft in enumerate(path.drafts) if draft and draft.foot is not Foot.NONE), None)
    if first is None:
        return path._replace(starts=role.value)
    draft = path.drafts[first]
    if draft is None or draft.foot is not None:
        return path
    return path._replace(drafts=(*path.drafts[:first], replace(draft, foot=role.value), *path.drafts[first + 1 :]))


def _summed(path: Path, role: Role, clause: Clause) -> Path | None:
    """Let a turn be that of all the steps before it together: "all four add up to a half turn"."""
    whole, turning = Fraction(0), 0
    for draft in reversed(path.drafts):
        whole += draft.turns[0] if draft is not None else Fraction(0)
        turning += draft is not None and draft.turns != NO_TURN
        if turning > 1 and whole in role.value:
            return path
    return None


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
    "feet": _feet,
    "restate": restated,
    "summed": _summed,
    "nothing": _nothing,
}
"""What each act but events makes of a path; None where it does not go with it."""
