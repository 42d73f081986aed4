"""The facing clock, large enough to be read as an angle.

The top is where the screen is (a flat bar), because whoever reads the dial looks that way; when the room is turned the
front mark moves round the ring. The body is a solid arrow, the turn still to come a thick arc from the facing to its
end with a head. Of a whole turn or more the arc goes round once and stays open just behind its end: the amount beside
the dial says how often. Facings and turns are fractions of a whole turn, right positive (see trainer/dance/facing.py).

Lengths are shares of the outer radius, from the middle, x to the right and y upwards. Angles are in whole turns from
the top, clockwise.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from itertools import groupby
from math import atan2, cos, hypot, pi, sin

from trainer.screens import pixels
from trainer.screens.pixels import GLYPHS, PIXEL_HEIGHT, PIXEL_WIDTH


class Part(StrEnum):
    """The parts of the dial, to be given colours."""

    RING = "ring"
    SCREEN = "screen"
    FRONT = "front"
    TURN = "turn"
    BODY = "body"


@dataclass(frozen=True, slots=True)
class Run:
    """Glyphs next to each other that show the same parts."""

    text: str
    part: Part | None
    """What the glyphs draw; None for blanks."""
    behind: Part | None = None
    """What fills the rest of these cells; None for the ground."""


Dots = tuple[tuple[Part | None, ...], ...]
"""Which part shows at each pixel; rows of pixels."""

_BODY_TIP, _BODY_BARB, _BODY_TAIL, _BODY_SHAFT = 0.6, 0.5, -0.5, 0.155
_BODY_NECK = 0.04  # where head and shaft meet, from the middle
_ARC, _ARC_WIDE = 0.83, 0.09  # its middle; half its width
_HEAD_WIDE, _HEAD_LONG = 0.22, 0.115  # half its width; its length in turns
_OPEN = 0.1  # of a turn: what a whole turn leaves open
_FRONT_INSIDE, _FRONT_WIDE = 0.8, 0.036  # half its width in turns
_CLEAR = 0.92  # from here outwards the front mark shows past an arc
_TIE = 1e-9  # pixels on an edge belong to it, whatever the rounding: left and right stay mirror images


def render(columns: int, rows: int, *, facing: Fraction, turn: Fraction, screen: Fraction = Fraction(0)) -> list[str]:
    """Return the dial in one colour, as `rows` lines of `columns` glyphs.

    `facing` is where the body faces, `turn` the signed turn still to come (0 for none), `screen` the facing at which
    the screen stands.
    """
    dots = _dots(columns, rows, (facing - screen) % 1, turn, -screen % 1)
    return pixels.lines([[dot is not None for dot in row] for row in dots])


@lru_cache(maxsize=256)
def painted(
    columns: int, rows: int, *, facing: Fraction, turn: Fraction, screen: Fraction = Fraction(0)
) -> tuple[tuple[Run, ...], ...]:
    """Return the dial with its parts, as lines of runs to be coloured; arguments as in `render`.

    Two parts that fill a cell between them are its glyph and its ground; else the part with fewer pixels gives way. So
    without colours this has holes: take `render` there.
    """
    dots = _dots(columns, rows, (facing - screen) % 1, turn, -screen % 1)
    return tuple(
        tuple(_runs(zip(upper[::2], upper[1::2], lower[::2], lower[1::2], strict=True)))
        for upper, lower in zip(dots[::2], dots[1::2], strict=True)
    )


def turn_arrow(columns: int, rows: int, *, turn: Fraction, inset: int = 0, below: int = 0) -> list[str]:
    """Return a solid straight arrow, left or right by the sign of a turn; blank for no turn.

    It is as high as its room, less `inset` and `below` half-rows, and stands at the side to which it points.
    """
    return list(_arrow(columns, rows, inset, below, (turn > 0) - (turn < 0)))


@lru_cache(maxsize=256)
def _dots(columns: int, rows: int, facing: Fraction, turn: Fraction, front: Fraction) -> Dots:
    face = _face(columns, rows)
    width = 2 * columns
    dots: list[Part | None] = [None] * (width * 2 * rows)
    for index in face.bar:
        dots[index] = Part.SCREEN
    _draw_rim(dots, face, float(front))
    if turn:
        _draw_turn(dots, face, float(facing), float(turn))
    _draw_body(dots, face, float(facing))
    return tuple(tuple(dots[start : start + width]) for start in range(0, len(dots), width))


@dataclass(frozen=True, slots=True)
class _Face:
    """The pixels of a size by where they lie: index, x, y; in the outer part distance and angle too."""

    bar: tuple[int, ...]
    inner: tuple[tuple[int, float, float], ...]
    outer: tuple[tuple[int, float, float, float, float], ...]
    thin: float
    """Thickness of the ring."""
    width: int
    """Pixels in a row."""


@lru_cache(maxsize=16)
def _face(columns: int, rows: int) -> _Face:
    height = 2 * rows
    bar = max(1, round(rows / 11))
    radius = min(columns * PIXEL_WIDTH, (height - bar) * PIXEL_HEIGHT / 2)
    # The middle lies on an edge or in the middle of a pixel, so that the dial is symmetrical.
    centre = bar + (2 * radius / PIXEL_HEIGHT) // 0.5 * 0.25
    inner, outer = [], []
    for row in range(bar, height):
        y = (centre - row - 0.5) * PIXEL_HEIGHT / radius
        for column in range(2 * columns):
            x = (column + 0.5 - columns) * PIXEL_WIDTH / radius
            index, distance = row * 2 * columns + column, hypot(x, y)
            if distance <= _BODY_TIP + 0.01:
                inner.append((index, x, y))
            if _ARC - _HEAD_WIDE <= distance <= 1.05:
                outer.append((index, x, y, distance, atan2(x, y) / (2 * pi)))
    edge = columns - round(radius / PIXEL_WIDTH)
    return _Face(
        bar=tuple(row * 2 * columns + x for row in range(bar) for x in range(edge, 2 * columns - edge)),
        inner=tuple(inner),
        outer=tuple(outer),
        thin=max(8 / radius, 0.06),
        width=2 * columns,
    )


def _draw_body(dots: list[Part | None], face: _Face, facing: float) -> None:
    up, aside = cos(2 * pi * facing), sin(2 * pi * facing)
    slope = _BODY_BARB / (_BODY_TIP - _BODY_NECK)
    for index, x, y in face.inner:
        ahead = x * aside + y * up
        across = abs(x * up - y * aside)
        room = (_BODY_TIP - ahead) * slope if ahead >= _BODY_NECK - _TIE else _BODY_SHAFT
        if across <= room + _TIE and ahead >= _BODY_TAIL - _TIE:
            dots[index] = Part.BODY


def _draw_rim(dots: list[Part | None], face: _Face, front: float) -> None:
    inside, tick_inside = 1 - face.thin, 1 - 2.5 * face.thin
    for index, _, _, distance, angle in face.outer:
        off = abs((angle - front + 0.5) % 1 - 0.5)
        if distance > 1.01:
            continue
        if off <= _FRONT_WIDE + _TIE:
            if distance >= _FRONT_INSIDE:
                dots[index] = Part.FRONT
        elif off > 1.8 * _FRONT_WIDE + _TIE and (
            distance >= inside or (distance >= tick_inside and abs((angle * 4 + 0.5) % 1 - 0.5) <= 0.06 + _TIE)
        ):
            dots[index] = Part.RING


def _draw_turn(dots: list[Part | None], face: _Face, facing: float, turn: float) -> None:
    """Draw the arc and its head, clear of the ring; of the front mark what lies outside stays."""
    size, way = abs(turn), 1 if turn > 0 else -1
    end = facing + turn
    length = min(size, 1 - _OPEN)
    head = min(_HEAD_LONG, 0.8 * size)
    neck = 2 * pi * (end - way * head)
    out_x, out_y = sin(neck), cos(neck)
    tip_x, tip_y = _ARC * (sin(2 * pi * end) - out_x), _ARC * (cos(2 * pi * end) - out_y)
    reach = tip_x * out_y * way - tip_y * out_x * way  # of the head along the tangent at its neck
    lean = tip_x * out_x + tip_y * out_y
    drawn: set[int] = set()
    for index, x, y, distance, angle in face.outer:
        # How far before the end of the turn a pixel lies, against the way of turning, in [-0.04, 0.96).
        back = ((end - angle) * way + 0.04 - _TIE) % 1 - 0.04
        if back < 0.5 and (ahead := (x * out_y - y * out_x) * way / reach) >= -_TIE:
            off = x * out_x + y * out_y - _ARC - lean * ahead
            inside = abs(off) <= _HEAD_WIDE * (1 - ahead) + _TIE
        else:
            inside = back <= length and abs(distance - _ARC) <= _ARC_WIDE
        if inside:
            drawn.add(index)
        near_arc = back <= length + 0.02 or size >= 1
        if inside or (dots[index] is Part.RING and near_arc) or (distance < _CLEAR and back <= length):
            dots[index] = None
    for index in drawn:
        # A pixel that sticks out by itself is a spike, not a shape.
        if sum(next_to in drawn for next_to in (index - 1, index + 1, index - face.width, index + face.width)) > 1:
            dots[index] = Part.TURN


def _runs(cells: Iterable[tuple[Part | None, ...]]) -> Iterator[Run]:
    """Return the cells of a line, each four pixels, as runs of the same parts."""
    for (part, behind), run in groupby(map(_cell, cells), key=lambda cell: cell[1:]):
        yield Run("".join(glyph for glyph, *_ in run), part, behind)


@lru_cache(maxsize=2048)
def _cell(four: tuple[Part | None, ...]) -> tuple[str, Part | None, Part | None]:
    """Return the glyph of four pixels, the part it draws and the part behind it."""
    order = list(Part)
    parts = sorted({dot for dot in four if dot}, key=lambda part: (four.count(part), order.index(part)))
    if not parts:
        return " ", None, None
    shown = parts[-1]
    bits = sum(1 << bit for bit, dot in enumerate(four) if dot is shown)
    return GLYPHS[bits], shown, parts[0] if len(parts) == 2 and None not in four else None


@lru_cache(maxsize=64)
def _arrow(columns: int, rows: int, inset: int, below: int, way: int) -> tuple[str, ...]:
    width, height = 2 * columns, 2 * rows - inset - below
    tall = height * PIXEL_HEIGHT / PIXEL_WIDTH  # its height in widths of a pixel
    # The head is nearly as long as it is high, so that its point shows even where it is a few pixels high. The shaft is
    # short, so that left and right have little in common.
    head, whole = min(0.6 * width, 0.8 * tall), min(width, 2.4 * tall)
    shaft = max(1, round(height / 6))  # half its thickness

    def dot(x: int, y: int) -> bool:
        # From the point, which is one pixel wide of its own.
        along = (width - x if way > 0 else x + 1) - 1 + head / height
        off = abs(y + 0.5 - inset - height / 2)
        return bool(way) and along <= whole and off <= (along / head * height / 2 if along <= head else shaft)

    return tuple(pixels.lines([[dot(x, y) for x in range(width)] for y in range(2 * rows)]))
