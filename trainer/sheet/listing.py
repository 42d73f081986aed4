"""The unrolled routine as plain lines: a heading for each wall, section and extra, a line for each count."""

from collections.abc import Iterator

from trainer.dance.facing import clock, turn_text
from trainer.dance.naming import step_name
from trainer.dance.timeline import Danced, Timeline


def listing(timeline: Timeline) -> Iterator[str]:
    """Yield the lines of `unroll` for a terminal."""
    wall = heading = ""
    for one in timeline.danced():
        if (here := _wall(one)) != wall:
            if wall:
                yield ""
            wall, heading = here, ""
            yield wall
        if (here := _heading(one)) != heading:
            heading = here
            yield f"  {heading}"
        yield _count(one)


def _wall(one: Danced) -> str:
    return f"wall {one.wall}, part {one.part}" if one.part else f"wall {one.wall}"


def _heading(one: Danced) -> str:
    if one.extra_kind:
        return " ".join(dict.fromkeys(word for word in (one.extra_kind, one.extra or "") if word))
    return f"section {one.section}"


def _count(one: Danced) -> str:
    step = step_name(one.event)
    turn = turn_text(one.turn)
    if turn and turn not in step:
        step += f"  turning {turn}"
    for gesture in one.event.also:
        way = f" {gesture.direction}" if gesture.direction else ""
        step += f" + {gesture.foot} {gesture.move}{way}"
    return f"    {one.label:>2}  {one.foot or '?'}  weight {one.weight or '?'}  {clock(one.facing):>5}  {step}"
