"""A foot after the last of a row of bare steps, which may be the one that starts the row: "back together forward R"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.steps.clauses import Clause

_ROW = 3
"""Steps, of which the first may be meant by a foot after the last."""


def led_by_last(clauses: Sequence[Clause]) -> tuple[Clause, ...]:
    """Return the clauses with the foot said last as that of the first step, or nothing where it cannot be."""
    steps = [place for place, clause in enumerate(clauses) if clause.kind in ("step", "figure")]
    if len(steps) < 2:
        return ()
    first, last = steps[0], steps[-1]
    ends = clauses[last]
    said = sum(_ROW if clauses[place].kind == "figure" else 1 for place in steps)
    trails = ends.kind == "step" and not ends.sure and bool(ends.ways or ends.moves)
    if said < _ROW or not trails or not _bare(replace(ends, feet=())) or len(ends.feet) != 1 or ends.aside:
        return ()
    if ends.words.split()[-1] not in _SIDES or not all(_bare(clauses[place]) for place in steps[:-1]):
        return ()
    led = list(clauses)
    led[first] = replace(led[first], feet=ends.feet, sure=True)
    led[last] = replace(ends, feet=())
    return tuple(led)


_SIDES = {"r", "l", "right", "left"}


def _bare(clause: Clause) -> bool:
    """Whether no foot, side or reference stands in a clause."""
    return not (clause.feet or clause.run or clause.refs or clause.to or clause.start or clause.aside)
