"""The facing clock, large enough to be read as an angle.

The top is where the screen is (a flat bar), because whoever reads the dial looks that way; when the room is turned the
front mark moves round the ring. The body is a solid arrow, the turn still to come a thick arc from the facing to its
end with a head. Of a whole turn or more the arc goes round once and stays open just behind its end: the amount beside
the dial says how often. Facings and turns are fractions of a whole turn, right positive (see trainer/dance/facing.py).

Coordinates are in eighths of a cell's width, from the middle, y downwards; a cell is 8 wide and 17 high. Angles are
in whole turns from the top, clockwise.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from math import atan2, cos, pi, sin

from trainer.screens.pixels import GLYPHS, PIXEL_HEIGHT, PIXEL_WIDTH, lines

SMALLEST = (12, 6)
"""Columns and rows below which the angle cannot be told."""


class Part(StrEnum):
    """The parts of the dial, to be given colours; what is drawn later lies on top."""

    RING = "ring"
    SCREEN = "screen"
    FRONT = "front"
    TURN = "turn"
    BODY = "body"


@dataclass(frozen=True, slots=True)
class Run:
    """Glyphs next to each other in the colours of the same parts."""

    text: str
    part: Part | None
    """What the glyphs draw; None for blanks."""
    behind: Part | None = None
    """What fills the rest of these cells; None for the ground."""


def render(columns: int, rows: int, *, facing: Fraction, turn: Fraction, screen: Fraction = Fraction(0)) -> list[str]:
    """Return the dial in one colour, as `rows` lines of `columns` glyphs.

    `facing` is where the body faces, `turn` the signed turn still to come (0 for none), `screen` the facing at which the
    screen stands.
    """
    dots = _dots(columns, rows, (facing - screen) % 1, turn, -screen % 1)
    return [
        "".join(_glyph(upper, lower, x, None) for x in range(0, 2 * columns, 2))
        for upper, lower in zip(dots[::2], dots[1::2], strict=True)
    ]


@lru_cache(maxsize=256)
def painted(
    columns: int, rows: int, *, facing: Fraction, turn: Fraction, screen: Fraction = Fraction(0)
) -> tuple[tuple[Run, ...], ...]:
    """Return the dial with its parts: lines of runs; where three parts meet in a cell the smallest gives way."""
    dots = _dots(columns, rows, (facing - screen) % 1, turn, -screen % 1)
    return tuple(
        tuple(_runs(_cell(upper, lower, x) for x in range(0, 2 * columns, 2)))
        for upper, lower in zip(dots[::2], dots[1::2], strict=True)
    )


def turn_arrow(columns: int, rows: int, *, turn: Fraction) -> list[str]:
    """Return a solid straight arrow, left or right by the sign of a turn, that fills its room; blank for no turn."""
    return list(_arrow(columns, rows, (turn > 0) - (turn < 0)))


_Dots = tuple[tuple[Part | None, ...], ...]


@lru_cache(maxsize=256)
def _dots(columns: int, rows: int, facing: Fraction, turn: Fraction, front: Fraction) -> _Dots:
    """Return which part shows at each pixel."""
    face = _Face(columns, rows, float(facing), float(turn), float(front))
    return tuple(
        tuple(
            face.part((x + 0.5) * PIXEL_WIDTH - face.middle, (y + 0.5) * PIXEL_HEIGHT - face.centre)
            for x in range(2 * columns)
        )
        for y in range(2 * rows)
    )


class _Face:
    """What is drawn where. All lengths in eighths of a cell's width; shares are of the outer radius."""

    def __init__(self, columns: int, rows: int, facing: float, turn: float, front: float) -> None:
        height = 2 * rows * PIXEL_HEIGHT
        self.bar = PIXEL_HEIGHT * max(1, round(rows / 11))
        self.middle = columns * PIXEL_WIDTH
        self.radius = min(self.middle, (height - self.bar) / 2)
        self.centre = height - self.radius
        self.bar_top = self.centre - self.radius - self.bar
        self.thin = max(1.5 * PIXEL_WIDTH, 0.05 * self.radius)
        self.facing, self.turn, self.front = facing, turn, front
        self.cos, self.sin = cos(2 * pi * facing), sin(2 * pi * facing)

    def part(self, x: float, y: float) -> Part | None:
        if y + self.centre < self.bar + self.bar_top:
            return Part.SCREEN if y + self.centre >= self.bar_top and abs(x) <= self.radius else None
        share = (x * x + y * y) ** 0.5 / self.radius
        if share > 1.02:
            return None
        if share < 0.68:
            return Part.BODY if self._in_body(x, y) else None
        angle = atan2(x, -y) / (2 * pi)
        if self.turn and (found := self._turn(share, angle)) is not None:
            return Part.TURN if found else None
        return self._rim(share, angle)

    def _in_body(self, x: float, y: float) -> bool:
        """Say whether a point lies in the arrow of the body, turned back to point up."""
        ahead = (x * self.sin - y * self.cos) / self.radius
        across = abs(x * self.cos + y * self.sin) / self.radius
        if ahead >= 0:
            return ahead <= 0.66 and across <= 0.58 * (0.66 - ahead) / 0.66
        return ahead >= -0.56 and across <= 0.18

    def _turn(self, share: float, angle: float) -> bool | None:
        """Say whether a point lies in the arc of the turn, or in the gap kept clear round it; None for neither."""
        size, way = abs(self.turn), 1 if self.turn > 0 else -1
        # How far before the end of the turn the point lies, against the way of turning.
        back = (self.facing + self.turn - angle) * way % 1
        head = min(0.11, 0.6 * size)
        length = min(size, 0.93)
        if back > 0.97:
            back -= 1
        if 0 <= back <= head:
            return abs(share - 0.85) <= 0.17 * back / head if share <= 1.02 else None
        if head < back <= length:
            return abs(share - 0.85) <= 0.09
        return False if size >= 1 and back > 0 else None

    def _rim(self, share: float, angle: float) -> Part | None:
        off_front = abs((angle - self.front + 0.5) % 1 - 0.5)
        if off_front <= 0.035:
            return Part.FRONT if share >= 0.82 else None
        if off_front <= 0.06:
            return None
        tick = abs((angle * 4 + 0.5) % 1 - 0.5) <= 0.05 and share >= 0.86
        return Part.RING if tick or share >= 1 - self.thin / self.radius else None


def _glyph(upper: tuple[Part | None, ...], lower: tuple[Part | None, ...], x: int, part: Part | None) -> str:
    """Return the glyph of a cell for one part, or for all of them."""
    four = (upper[x], upper[x + 1], lower[x], lower[x + 1])
    return GLYPHS[sum(1 << bit for bit, dot in enumerate(four) if dot is not None and part in (None, dot))]


def _cell(upper: tuple[Part | None, ...], lower: tuple[Part | None, ...], x: int) -> Run:
    four = (upper[x], upper[x + 1], lower[x], lower[x + 1])
    order = list(Part)
    parts = sorted({dot for dot in four if dot is not None}, key=lambda part: (four.count(part), order.index(part)))
    if not parts:
        return Run(" ", None)
    best = parts[-1]
    if len(parts) == 2 and None not in four:
        return Run(_glyph(upper, lower, x, best), best, parts[0])
    return Run(_glyph(upper, lower, x, None if len(parts) == 1 else best), best)


def _runs(cells: Iterable[Run]) -> Iterable[Run]:
    """Join cells of the same colours."""
    last: Run | None = None
    for cell in cells:
        if last is None:
            last = cell
        elif (last.part, last.behind) == (cell.part, cell.behind):
            last = Run(last.text + cell.text, last.part, last.behind)
        else:
            yield last
            last = cell
    if last is not None:
        yield last


@lru_cache(maxsize=64)
def _arrow(columns: int, rows: int, way: int) -> tuple[str, ...]:
    height, width = 2 * rows, 2 * columns
    # The head is as long as half its height, so that its edges slope at 45 degrees.
    head = min(width / 2, height / 2 * PIXEL_HEIGHT / PIXEL_WIDTH)
    shaft = max(1, round(height / 5))

    def dot(x: int, y: int) -> bool:
        if not way:
            return False
        along = (width - 1 - x if way > 0 else x) + 0.5
        off = abs(y + 0.5 - height / 2)
        return off <= along / head * height / 2 if along <= head else off <= shaft / 2

    dots = [[dot(x, y) for x in range(width)] for y in range(height)]
    return tuple(lines(dots))
