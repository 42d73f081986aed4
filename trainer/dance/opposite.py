"""A dance as danced by somebody who stands opposite: who faces the class as its teacher, or follows one who faces them.

Both are the mirror image of the class: right and left swapped, so that two who face each other move to the same side of
the room. They differ in where 12:00 is. Who follows keeps a front of their own, in front of them; a teacher who faces
the class shares its room: their front is the class's back (12:00 and 6:00 swapped, 1:30 and 4:30, 10:30 and 7:30; 3:00
and 9:00 kept). Beats, counts and the order of events stay what they were. Common practice, no source.
"""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from trainer.dance.facing import BACK, HOME, mirrored, turned
from trainer.dance.mirror import mirror, mirror_departure, mirror_event
from trainer.dance.timeline import Block, Pass, Row, Stretch, Timeline


def following(timeline: Timeline) -> Timeline:
    """Return the dance of one who follows somebody who faces them."""
    return _opposite(timeline, HOME)


def facing_the_class(timeline: Timeline) -> Timeline:
    """Return the dance of a teacher who faces the class that dances this; twice is the dance itself."""
    return _opposite(timeline, BACK)


def _opposite(timeline: Timeline, front: Fraction) -> Timeline:
    """Return a timeline in the mirror; `front` is where its 12:00 lies afterwards. Shared blocks stay shared."""
    made: dict[int, Block] = {}

    def faces(facing: Fraction) -> Fraction:
        return turned(mirrored(facing), front)

    def blocks(block: Block) -> Block:
        # By identity: blocks that are equal may come from different lines of the sheet.
        if id(block) not in made:
            made[id(block)] = _block(block)
        return made[id(block)]

    return replace(
        timeline,
        routine=mirror(timeline.routine),
        passes=tuple(_pass(one, faces, blocks) for one in timeline.passes),
    )


def _pass(one: Pass, faces: Callable[[Fraction], Fraction], blocks: Callable[[Block], Block]) -> Pass:
    return replace(
        one,
        facing=faces(one.facing),
        squared=-one.squared,
        end_facing=faces(one.end_facing),
        departures=tuple(mirror_departure(departure) for departure in one.departures),
        stretches=tuple(_stretch(stretch, faces, blocks) for stretch in one.stretches),
    )


def _stretch(stretch: Stretch, faces: Callable[[Fraction], Fraction], blocks: Callable[[Block], Block]) -> Stretch:
    return replace(stretch, block=blocks(stretch.block), facing=faces(stretch.facing), squares=-stretch.squares)


def _block(block: Block) -> Block:
    return replace(block, rows=tuple(_row(row) for row in block.rows))


def _row(row: Row) -> Row:
    return replace(row, event=mirror_event(row.event), turned=-row.turned)
