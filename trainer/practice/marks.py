"""The departures of a routine: every place where the dance leaves its plain order, in the order danced.

A phrased dance says each next part as well, because nobody can guess it. The plain dance beginning again is no mark.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.dance.timeline import Pass, Timeline

MarkKind = Literal["TAG", "BRIDGE", "RESTART", "CHANGE", "HOLD", "PART", "END"]

_KINDS: dict[str, MarkKind] = {"tag": "TAG", "bridge": "BRIDGE", "change": "CHANGE", "hold": "HOLD", "ending": "END"}


@dataclass(frozen=True, slots=True)
class Mark:
    """A place where the dance leaves its plain order, or (in a phrased dance) goes into its next part."""

    beat: Fraction
    """Its first beat: that of the extra, of the next wall, or after the last count."""
    kind: MarkKind
    name: str
    """Of the extra or the part; empty for a restart and a plain end."""
    counts: int
    """Length of the extra, 0 where there is none."""
    wall: int
    part: str
    after: int
    """Counts of the part danced before it."""
    facing: Fraction
    """In the room, at that moment."""
    cue: str = ""
    closing: bool = False
    """The last count of an ending, which its own mark has announced already."""


def marks_of(timeline: Timeline) -> tuple[Mark, ...]:
    """Return the departures of a timeline by their beats."""
    marks: list[Mark] = []
    for place, one in enumerate(timeline.passes):
        after = 0
        for stretch in one.stretches:
            kind = _KINDS.get(stretch.block.kind)
            if kind is not None:
                counts = int(stretch.ends - stretch.begins)
                name, facing = stretch.block.name, stretch.facing
                marks.append(Mark(stretch.begins, kind, name, counts, one.number, one.part, after, facing, one.cue))
            if stretch.block.kind == "part":
                after = int(stretch.ends - stretch.beat)
            elif kind == "CHANGE":
                after += stretch.block.counts
        following = timeline.passes[place + 1] if place + 1 < len(timeline.passes) else None
        left = _left(timeline, one, following, after)
        if left:
            marks.append(left)
    return tuple(marks)


def _left(timeline: Timeline, one: Pass, following: Pass | None, after: int) -> Mark | None:
    """Return the mark with which a pass is left, None where the next wall simply follows."""
    if following is None:
        if timeline.open_ended:
            return None
        closing = bool(one.stretches) and one.stretches[-1].block.kind == "ending"
        return Mark(one.ends, "END", "", 0, one.number, one.part, after, one.end_facing, "", closing)
    part = timeline.routine.part(one.part)
    cut = part is not None and after < part.counts
    if cut and any(departure.leave == "restart" for departure in one.departures):
        return Mark(one.ends, "RESTART", "", 0, one.number, one.part, after, one.end_facing, one.cue)
    if timeline.routine.phrased:
        return Mark(one.ends, "PART", following.part, 0, one.number, one.part, after, one.end_facing, one.cue)
    return None
