"""Everything a dancer has to tell apart on the floor screen, drawn as it is at a size of window."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from eye import Drawing, Picture
from rich.color import Color
from textual.theme import Theme

from trainer.screens import blocks, dial, marks, pixels, room, themes
from trainer.screens.dial import Part

SIZES = ((80, 24), (100, 30), (120, 40), (200, 60))
COUNTS = "12345678"
SUBS = "&ae"
FEET = "RLB"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
CLOCKS = ("12:00", "1:30", "3:00", "4:30", "6:00", "7:30", "9:00", "10:30")
AMOUNTS = ("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8", "FULL", "1 1/4", "1 1/2")
WORDS = ("TAG", "BRIDGE", "RESTART", "CHANGE", "END")
LONGEST_STEP = "KICK BALL CHG"
LONGEST_DEPARTURE = "RESTART 16"


@dataclass(frozen=True, slots=True)
class Shown:
    """Drawings of one part of the screen."""

    name: str
    height: int
    """Of the letters, in half-rows."""
    distance_m: float
    """From where they are to be read."""
    drawings: Mapping[str, Drawing]


def floor(columns: int, rows: int) -> room.Regions:
    plan = room.plan(columns, rows)
    assert isinstance(plan, room.Regions)
    return plan


def parts(plan: room.Regions, turns: Sequence[int]) -> Iterator[Shown]:
    """Yield each part; `turns` are the eighths of turn drawn on the dial."""
    foot, arrow, slab = plan.foot_left, plan.arrow, plan.slab
    # Without the block below them, which is the same for all.
    feet = {name: marks.foot(name, columns=foot.columns, rows=foot.rows)[: (foot.rows - 1) // 2] for name in FEET}
    arrows = {
        name: dial.turn_arrow(arrow.columns, arrow.rows, turn=turn, inset=arrow.inset, below=arrow.below)
        for name, turn in (("left", Fraction(-1)), ("right", Fraction(1)))
    }
    slabs = {word: blocks.slab(word, rows=slab.rows, columns=slab.columns, below=slab.below) for word in WORDS}
    yield Shown("count", plan.count.height, 5, texts(COUNTS, plan.count))
    yield Shown("& a e", plan.sub.height, 5, texts(SUBS, plan.sub))
    yield Shown("foot R L B", (foot.rows - 1) // 2 * 2, 5, feet)
    yield Shown("arrow", arrow.height, 5, arrows)
    yield Shown("amount", plan.amount.height, 5, texts(AMOUNTS, plan.amount))
    yield Shown("end clock", plan.end_clock.height, 5, texts(CLOCKS, plan.end_clock))
    yield Shown("dial", plan.dial.height, 5, dials(plan, turns))
    for theme in (themes.DARK, themes.LIGHT):
        name = f"dial, {theme.name.removeprefix('callahead-')}"
        yield Shown(name, plan.dial.height, 5, coloured_dials(plan, turns, theme))
    yield Shown("next step, letters", plan.next.height, 3, letters(plan.next, LONGEST_STEP))
    yield Shown("departure, letters", plan.departure.height, 5, letters(plan.departure, LONGEST_DEPARTURE))
    yield Shown("departure, words", plan.departure.height, 5, texts(WORDS, plan.departure))
    tags = texts([f"TAG {left}" for left in range(5, 17)], plan.departure)
    yield Shown("departure, counts", plan.departure.height, 5, tags)
    yield Shown("departure, clock", plan.departure_clock.height, 5, texts(CLOCKS, plan.departure_clock))
    yield Shown("last four, words", blocks.slab_height(slab.rows, slab.below), 5, slabs)


def texts(names: Sequence[str], region: room.Region) -> dict[str, list[str]]:
    return {name: blocks.render_in(name, region) for name in names}


def letters(region: room.Region, longest: str) -> dict[str, list[str]]:
    """Return the alphabet as wide as a letter is when the longest text fills the region."""
    size = blocks.Size(rows=region.rows, height=region.height, top=region.inset)
    width = max(
        letter
        for letter in range(blocks.NARROWEST, 40)
        if blocks.width_of(longest, **size, letter=letter) <= region.columns
    )
    return {name: blocks.padded(blocks.render(name, **size, letter=width), width) for name in LETTERS}


def dials(plan: room.Regions, turns: Sequence[int]) -> dict[str, list[str]]:
    """Return the dials of eight facings with each turn, in eighths."""
    return {
        f"facing {facing}/8, turn {turn:+}/8": dial.render(
            plan.dial.columns, plan.dial.rows, facing=Fraction(facing, 8), turn=Fraction(turn, 8)
        )
        for facing in range(8)
        for turn in turns
    }


ROLES = {
    Part.RING: "secondary",
    Part.SCREEN: "secondary",
    Part.FRONT: "primary",
    Part.BODY: "primary",
    Part.TURN: "accent",
}
"""The colours of the parts, as in the style sheet."""


def coloured_dials(plan: room.Regions, turns: Sequence[int], theme: Theme) -> dict[str, Picture]:
    """Return the same dials in a theme's colours: each pixel as bright as its part stands off the ground."""
    ground, most = (light(theme, role) for role in ("background", "foreground"))
    off = {part: (light(theme, role) - ground) / (most - ground) for part, role in ROLES.items()} | {None: 0.0}

    def drawn(facing: int, turn: int) -> Picture:
        lines = dial.painted(plan.dial.columns, plan.dial.rows, facing=Fraction(facing, 8), turn=Fraction(turn, 8))
        rows = [np.concatenate([lit(run) for run in line], axis=1) for line in lines]
        return np.concatenate(rows)

    def lit(run: dial.Run) -> Picture:
        dots = np.array(pixels.picture([run.text]))
        return np.where(dots, off[run.part], off[run.behind])

    return {f"facing {facing}/8, turn {turn:+}/8": drawn(facing, turn) for facing in range(8) for turn in turns}


def light(theme: Theme, role: str) -> float:
    """Return how bright a theme's colour looks, by its luma (ITU-R BT.709) as the screen encodes it, 0 to 1."""
    red, green, blue = Color.parse(getattr(theme, role)).get_truecolor()
    return (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255
