"""How well the floor screen is read from where the dancer stands.

    python tests/bench/legibility.py [pictures FOLDER]

For each size of window: minutes of arc of each part, and the share of single glances that name it rightly, at one, two and
three minutes of arc a point (full, half and a third of full sight), with the two drawings that are most alike. Count,
facing, turn and departure at 5 m, next step at 3 m. The window is 165 mm high.
ISO 9241-303: letters at least 16 minutes of arc high, 20 to 22 preferred.
"""

import sys
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import Path

import numpy as np

sys.path[:0] = [str(Path(__file__).parents[1] / "screens_drawing"), str(Path(__file__).parents[2])]

from eye import Reader, square_mm  # noqa: E402

from trainer.screens import blocks, dial, room  # noqa: E402

SIZES = ((80, 24), (100, 30), (120, 40), (200, 60))
SHARPNESS = (1, 2, 3)
TIMES = 12
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
WORDS = ("TAG", "BRIDGE", "RESTART", "CHANGE", "END")
LONG = "KICK BALL CHG"

Drawings = Mapping[str, Sequence[str]]


def parts(plan: room.Regions) -> Iterator[tuple[str, float, float, Drawings]]:
    """Yield name, height in half-rows, distance in metres and drawings of each part."""

    def text(names: Sequence[str], region: room.Region, letter: int | None = None) -> Drawings:
        if letter is None:
            return {name: blocks.render_in(name, region) for name in names}
        size = blocks.Size(rows=region.rows, height=region.height, top=region.inset, letter=letter)
        width = max(blocks.width_of(name, **size) for name in names)
        return {name: blocks.padded(blocks.render(name, **size), width) for name in names}

    foot = room.Region(0, 0, plan.foot_left.columns, plan.foot_left.rows // 2)
    yield "count 1-8", plan.count.height, 5, text("12345678", plan.count)
    yield "& a e", plan.sub.height, 5, text("&ae", plan.sub)
    yield "foot R L B", foot.height, 5, text("RLB", foot)
    yield "arrow left, right", plan.arrow.height, 5, arrows(plan)
    yield "amount", plan.amount.height, 5, text(("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "FULL", "1 1/4"), plan.amount)
    clocks = ("12:00", "1:30", "3:00", "4:30", "6:00", "7:30", "9:00", "10:30")
    yield "clock of the end", plan.end_clock.height, 5, text(clocks, plan.end_clock)
    yield "dial: facing", 2 * plan.dial.rows, 5, dials(plan, turns=(0,))
    yield "dial: facing and turn", 2 * plan.dial.rows, 5, dials(plan, turns=range(-8, 9))
    width = letter_width(LONG, plan.next)
    yield f"next, A-Z {width} wide", plan.next.height, 3, text(LETTERS, plan.next, width)
    yield f"departure, A-Z {(width := letter_width('RESTART 16', plan.departure))} wide", plan.departure.height, 5, text(
        LETTERS, plan.departure, width
    )
    yield "departure, counts", plan.departure.height, 5, text([f"TAG {n}" for n in range(5, 17)], plan.departure)
    yield "departure, words", plan.departure.height, 5, text(WORDS, plan.departure)
    slab = plan.slab
    cut = {word: blocks.slab(word, rows=slab.rows, columns=slab.columns, below=slab.below) for word in WORDS}
    yield "last four, words", blocks.slab_height(slab.rows, slab.below), 5, cut


def letter_width(name: str, region: room.Region) -> int:
    """Return how wide a letter is when a name fills a region."""
    return max(
        width
        for width in range(blocks.NARROWEST, 80)
        if blocks.width_of(name, rows=region.rows, height=region.height, letter=width) <= region.columns
    )


def arrows(plan: room.Regions) -> Drawings:
    region = plan.arrow
    return {
        name: dial.turn_arrow(region.columns, region.rows, turn=turn, inset=region.inset, below=region.below)
        for name, turn in (("left", Fraction(-1)), ("right", Fraction(1)))
    }


def dials(plan: room.Regions, turns: Sequence[int]) -> Drawings:
    """Return the dials of eight facings and so many eighths of turn."""
    return {
        f"{facing}/8 {turn:+}/8": dial.render(
            plan.dial.columns, plan.dial.rows, facing=Fraction(facing, 8), turn=Fraction(turn, 8)
        )
        for facing in range(8)
        for turn in turns
    }


def main() -> None:
    for columns, rows in SIZES:
        plan = room.plan(columns, rows)
        assert isinstance(plan, room.Regions)
        print(f"\n{columns} x {rows}{'minutes':>26}   right at 1, 2, 3 minutes a point   most alike at 2")
        for name, height, distance, drawings in parts(plan):
            chance = np.random.default_rng(7)
            readers = [Reader(drawings, plan.row_mm, square_mm(distance, minutes)) for minutes in SHARPNESS]
            shares = "  ".join(f"{reader.right(TIMES, chance):6.1%}" for reader in readers)
            alike, one, other = readers[1].likeness()
            print(
                f"{name:26} {distance} m {plan.minutes(height / 2, distance):5.1f}   {shares}   "
                f"{alike:.2f} {one} | {other}"
            )


if __name__ == "__main__":
    main()
