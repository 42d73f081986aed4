"""The unrolled routine as plain rows, one for each count danced: the lines of `unroll --json`."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from trainer.dance.facing import clock, turn_text
from trainer.dance.naming import step_name
from trainer.dance.timeline import Timeline
from trainer.timing import ASSUMED_TEMPO, TempoMap


def as_rows(timeline: Timeline, tempo: Fraction | None) -> Iterator[dict[str, Any]]:
    """Yield a row for each event in the order danced; facing, weight and turn are those after it.

    `tempo` is in counts a minute; None, and one that is not above 0, is the assumed one. `beat` is a fraction as text,
    counted like the timeline's; `seconds` run from beat 0, a leading & may fall before it.
    """
    times = TempoMap.steady(tempo if tempo is not None and tempo > 0 else ASSUMED_TEMPO)
    for one in timeline.danced():
        yield {
            "wall": one.wall,
            "part": one.part,
            "section": one.section,
            "extra": one.extra or one.extra_kind or None,
            "count": one.label,
            "foot": one.foot and one.foot.value,
            "weight": one.weight,
            "facing": clock(one.facing),
            "turn": turn_text(one.turn),
            "step": step_name(one.event),
            "beat": str(one.beat),
            "seconds": times.seconds_at(one.beat),
        }
