"""Block letters of any size: one drawn master, stretched.

The master (letters.toml) stands on a lattice of five columns and seven rows. Stretching puts the lattice on the pixels
of the size asked for; the pen keeps a thickness of its own, the room between the strokes takes the rest. Heights are in
rows of the terminal, widths in columns; a row is two pixels high and a column two wide, so a stem is a whole number of
columns and a bar may be half a row. "a" and "e" are the small letters of a count; every other small letter is drawn as a
capital, accents are left out, and what the master lacks is drawn as "?".
"""

import tomllib
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

from trainer.screens import pixels
from trainer.screens.pixels import PIXEL_HEIGHT, PIXEL_WIDTH, Picture

Point = tuple[float, float]

NARROWEST = 3
"""Columns of the narrowest letter that is still drawn."""
MISSING = "?"

_GREATEST_SHAPE = 0.75  # width to height of the widest letter, in columns and half-rows, which are about square
_PEN = 0.17  # thickness of a stroke to the height, where the width allows it
_FRACTIONS = str.maketrans({"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"})


@dataclass(frozen=True, slots=True)
class Shape:
    """The size of a letter: `letter`, `stroke`, `gap` in columns, `rows` in rows, `bar` in half-rows."""

    rows: int
    letter: int
    stroke: int
    bar: int
    gap: int


def render(
    text: str,
    *,
    rows: int,
    columns: int | None = None,
    letter: int | None = None,
    stroke: int | None = None,
    bar: int | None = None,
    gap: int | None = None,
) -> list[str]:
    """Return a text in block letters, as `rows` lines of one width.

    `columns` is the room: the letters grow to fill it up to a sensible width, and are cut off only where even the
    narrowest do not fit. `letter` (width of a letter in columns), `stroke` (thickness of a stem in columns), `bar` (of a
    bar in half-rows) and `gap` (between letters, in columns) override what is chosen.
    """
    return list(_rendered(text, rows, columns, letter, stroke, bar, gap))


def width_of(
    text: str,
    *,
    rows: int,
    columns: int | None = None,
    letter: int | None = None,
    stroke: int | None = None,
    bar: int | None = None,
    gap: int | None = None,
) -> int:
    """Return how many columns `render` would need with the same arguments, before anything is cut off."""
    drawn = _drawn(text)
    return _width(drawn, _shape(drawn, rows, columns, letter, stroke, bar, gap))


def inverse(lines: Sequence[str]) -> list[str]:
    """Return lines with every pixel turned over: the word cut out of a solid."""
    return pixels.inverse(lines)


def slab(text: str, *, rows: int, columns: int, margin: int = 2) -> list[str]:
    """Return a solid of rows by columns with a text cut out of its middle; half a row or a row is left above and below."""
    inside = max(1, rows - 1 if rows < 8 else rows - 2)
    word = render(text, rows=inside, columns=columns - 2 * margin)
    left = (columns - len(word[0])) // 2
    picture = pixels.blank(columns, rows)
    top = rows - inside
    for y, line in enumerate(pixels.picture(word)):
        picture[top + y][2 * left : 2 * left + len(line)] = line
    return pixels.inverse(pixels.lines(picture))


def side_by_side(*parts: Sequence[str], gap: int = 1) -> list[str]:
    """Return blocks of equally many lines next to each other, so many columns apart."""
    return [(" " * gap).join(row) for row in zip(*parts, strict=True)]


@lru_cache(maxsize=512)
def _rendered(
    text: str, rows: int, columns: int | None, letter: int | None, stroke: int | None, bar: int | None, gap: int | None
) -> tuple[str, ...]:
    drawn = _drawn(text)
    shape = _shape(drawn, rows, columns, letter, stroke, bar, gap)
    apart = " " * shape.gap
    parts = [_letter(character, shape) for character in drawn]
    whole = [apart.join(row) for row in zip(*parts, strict=True)] if parts else [""] * rows
    return tuple(line[:columns] for line in whole)


def _drawn(text: str) -> str:
    """Return a text in the characters that the master has."""
    plain = unicodedata.normalize("NFKD", text.translate(_FRACTIONS))
    known = _strokes()
    found = []
    for character in plain:
        if unicodedata.combining(character):
            continue
        capital = character if character in known else character.upper()
        found.append(capital if capital in known or capital == " " else " " if capital.isspace() else MISSING)
    return "".join(found)


def _shape(
    text: str, rows: int, columns: int | None, letter: int | None, stroke: int | None, bar: int | None, gap: int | None
) -> Shape:
    """Return the shape asked for; of what is left open the widest that fits."""
    if letter is not None:
        return _filled(rows, letter, stroke, bar, gap)
    widest = max(NARROWEST, round(2 * rows * _GREATEST_SHAPE))
    for width in range(widest, NARROWEST - 1, -1):
        for between in (gap,) if gap is not None else (None, 1):
            shape = _filled(rows, width, stroke, bar, between)
            if columns is None or _width(text, shape) <= columns:
                return shape
    return shape


def _filled(rows: int, letter: int, stroke: int | None, bar: int | None, gap: int | None) -> Shape:
    height = 2 * rows
    pen = stroke if stroke is not None else max(1, min(round(height * _PEN), letter // 3))
    return Shape(
        rows=rows,
        letter=letter,
        stroke=pen,
        bar=bar if bar is not None else max(1, min(pen, height // 5)),
        gap=gap if gap is not None else max(1, (pen + 1) // 2),
    )


def _width(text: str, shape: Shape) -> int:
    return sum(_columns(character, shape) for character in text) + shape.gap * max(0, len(text) - 1)


def _columns(character: str, shape: Shape) -> int:
    """Return the columns of one letter; narrow ones keep their share of the lattice."""
    if character == " ":
        return max(1, shape.letter // 2)
    reach = max(x for stroke in _strokes()[character] for x, _ in stroke)
    return shape.stroke + round(reach * (shape.letter - shape.stroke) / 4)


@lru_cache(maxsize=1024)
def _letter(character: str, shape: Shape) -> tuple[str, ...]:
    columns = _columns(character, shape)
    picture = pixels.blank(columns, shape.rows)
    if character != " ":
        strokes = _strokes()[character]
        reach = max(x for stroke in strokes for x, _ in stroke)
        pen = _Pen(picture, shape, (columns - shape.stroke) / reach if reach else 0.0)
        for stroke in strokes:
            for start, end in zip(stroke, stroke[1:], strict=False):
                pen.draw(start, end)
    return tuple(pixels.lines(picture))


class _Pen:
    """Draws strokes of the lattice on a picture, in pixels: half columns and half-rows."""

    def __init__(self, picture: Picture, shape: Shape, step: float) -> None:
        self._picture = picture
        self._thick = 2 * shape.stroke
        self._bar = shape.bar
        self._across = 2 * step
        self._down = (2 * shape.rows - shape.bar) / 6

    def draw(self, start: Point, end: Point) -> None:
        left, right = sorted((self._left(start), self._left(end)))
        top, bottom = sorted((self._top(start), self._top(end)))
        box = (left, top, right + self._thick, bottom + self._bar)
        if left == right or top == bottom:
            pixels.fill(self._picture, *box)
            return
        # A slanted stroke is as thick, across its own direction, as the mean of stem and bar.
        x, y = self._left(start) + self._thick / 2, self._top(start) + self._bar / 2
        run = (self._left(end) - self._left(start)) * PIXEL_WIDTH
        rise = (self._top(end) - self._top(start)) * PIXEL_HEIGHT
        length = (run * run + rise * rise) ** 0.5
        half = (self._thick * PIXEL_WIDTH + self._bar * PIXEL_HEIGHT) / 4

        def near(px: float, py: float) -> bool:
            return abs((px - x) * PIXEL_WIDTH * rise - (py - y) * PIXEL_HEIGHT * run) <= half * length

        pixels.paint(self._picture, *box, near)

    def _left(self, point: Point) -> int:
        return round(point[0] * self._across)

    def _top(self, point: Point) -> int:
        return int(point[1] * self._down + 0.5)


@cache
def _strokes() -> dict[str, tuple[tuple[Point, ...], ...]]:
    """Return the master: strokes of each letter as points of the lattice."""
    table = tomllib.loads((files("trainer.screens") / "letters.toml").read_text(encoding="utf-8"))
    return {name: tuple(_stroke(part) for part in drawing.split(" / ")) for name, drawing in table.items()}


def _stroke(text: str) -> tuple[Point, ...]:
    points = [point.split(",") for point in text.split()]
    return tuple((float(x), float(y)) for x, y in points)
