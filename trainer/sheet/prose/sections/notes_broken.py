"""Notes of weight that the cheapest path had to pass over: the step after them asks the foot that they say carries."""

from itertools import pairwise

from trainer.problems import Problem
from trainer.sheet.prose.search.paths import Path

_NEAR = 3
"""Items on, the next note that does not fit comes of the same fault."""


def notes_broken(path: Path) -> list[Problem]:
    """Return a finding for each step that is asked of the foot on which the words before it have left the weight.

    Inside of one item a note may have been laid on the wrong one of its steps.
    """
    found: list[Problem] = []
    last = -_NEAR
    for before, after in pairwise(path.said):
        noted = before.draft.weight if before.draft is not None else None
        asked = after.foot is not None and after.foot.value == noted and after.item > before.item
        if noted not in ("R", "L") or before.weight == noted or not asked or after.item < last + _NEAR:
            continue
        last = after.item
        item = path.items[after.item]
        left = f"count {before.slot.label} is said to leave the weight on it"
        found.append(
            Problem(
                level="error",
                kind="weight",
                line=item.span.line,
                column=item.span.column,
                message=f"count {after.slot.label} asks {noted} to act, but {left}",
                hint="Mend the foot, or the note of weight before it",
            )
        )
    return found
