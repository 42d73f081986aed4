"""A turn that is made on each of some steps, or in each of some figures: "two jazz boxes, each turning ¼ right"."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.figured import usual_shares
from trainer.sheet.prose.steps.path import Path
from trainer.sheet.prose.steps.roles import NO_TURN, with_shares
from trainer.sheet.prose.words import Draft
from trainer.terms import Move

_GOING = {Move.STEP, Move.WALK, Move.RUN}


def each_turned(path: Path, clause: Clause, turns: tuple[Fraction, ...]) -> Path | None:
    """Return the path with a turn on each step of its last clause; None where the words do not say so.

    "Walk right, left, right, left, an eighth turn with each step", "four paddle turns, each an eighth".
    """
    row = [draft for draft in path.drafts[path.clause_from :] if draft is not None]
    if not clause.each or len(row) < len(path.drafts) - path.clause_from or len(row) < 2:
        return None
    if (figures_turned := _figures_turned(row, turns)) is not None:
        kept = path.drafts[: path.clause_from]
        return path._replace(drafts=(*kept, *figures_turned), preference=path.preference - 0.2)
    paddled = all(draft.figure == "paddle turn" for draft in row)
    pushed = paddled and any(draft.turns == NO_TURN for draft in row)
    alike = all(one.moves[0] in _GOING for one in row) or len({(one.moves[0], one.foot) for one in row}) == 1
    if not paddled and not (alike and all(one.turns == NO_TURN and not one.figure for one in row)):
        return None
    each = tuple(replace(one, turns=turns) if one.turns != NO_TURN or not pushed else one for one in row)
    return path._replace(drafts=(*path.drafts[: path.clause_from], *each), preference=path.preference - 0.2)


def _figures_turned(row: Sequence[Draft], turns: tuple[Fraction, ...]) -> list[Draft] | None:
    """Return the events of a figure danced several times with the turn in each of them; None where it is not."""
    starts = [at for at, draft in enumerate(row) if draft.figure_start]
    if len(starts) < 2 or starts[0] or len({draft.figure for draft in row}) > 1:
        return None
    turned: list[Draft] = []
    for start, end in zip(starts, [*starts[1:], len(row)], strict=True):
        whole = row[start:end]
        shares = usual_shares(whole[0].figure, whole[0].foot, len(whole), turns[0])
        if shares is None or any(draft.turns != NO_TURN for draft in whole):
            return None
        turned += with_shares(whole, turns, shares)
    return turned
