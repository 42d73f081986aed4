"""Block letters of any size: one drawn master, stretched.

The master (letters.toml) stands on a lattice of five columns and seven rows. Stretching lays the lattice on the pixels
of the size asked for; the pen keeps a thickness of its own, the room between the strokes takes the rest. Heights are
in half-rows or rows of the terminal, widths in columns. A row is two pixels high and a column two wide (pixels.py), so
a stem may be one and a half columns thick and a bar one half-row. "a" and "e" are the small letters of a count; every
other small letter is drawn as a capital, accents are left out, and what the master lacks is drawn as "?".
"""

import tomllib
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import pairwise
from math import ceil, floor, hypot
from typing import Literal, Required, TypedDict, Unpack

from trainer.screens import pixels
from trainer.screens.pixels import PIXEL_HEIGHT, PIXEL_WIDTH, Picture
from trainer.screens.room import Region

Point = tuple[float, float]
Align = Literal["left", "centre", "right"]

NARROWEST = 3
"""Columns of the narrowest letter that is still drawn."""
MISSING = "?"

_WIDEST = 0.75  # width to height of the widest letter, in columns and half-rows, which are about equal
_PEN = 0.15  # thickness of a stroke to the height: one in six to seven, as on signs that glow
_PEN_WIDE = 0.28  # and at most so much of the width, so that a letter keeps its holes
_FRACTIONS = str.maketrans({"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"})


class Height(TypedDict, total=False):
    """How high a text is drawn; only `rows` must be given, None is the same as absent."""

    rows: Required[int]
    """Lines of text that the drawing takes."""
    height: int | None
    """Height of the letters in half-rows; all of the rows if absent."""
    top: int | None
    """Blank half-rows above the letters; none if absent."""


class Size(Height, total=False):
    """How large a text is drawn; only `rows` must be given, None is the same as absent."""

    columns: int | None
    """The room. The letters grow to fill it up to a sensible width; what does not fit at the narrowest is cut off."""
    letter: int | None
    """Width of a letter in columns, instead of the widest that fits; narrow ones (I, 1, :) keep their share of it."""
    stroke: float | None
    """Thickness of a stem in columns, to the half."""
    bar: int | None
    """Thickness of a bar in half-rows."""
    gap: int | None
    """Columns between letters."""


def render(text: str, **size: Unpack[Size]) -> list[str]:
    """Return a text in block letters, as lines of one width; the lines are as wide as the letters, not as the room."""
    drawn = _drawn(text)
    lines = _rendered(drawn, size["rows"], size.get("top") or 0, _shape(drawn, size))
    return [line[: size.get("columns")] for line in lines]


def width_of(text: str, **size: Unpack[Size]) -> int:
    """Return how many columns `render` draws with the same arguments, before anything is cut off."""
    drawn = _drawn(text)
    return _width(drawn, _shape(drawn, size))


def fits(text: str, *, columns: int, letter: int = 4, **size: Unpack[Height]) -> bool:
    """Say whether a text fits so many columns with letters of at least so many."""
    return width_of(text, letter=letter, **size) <= columns


def render_in(text: str, region: Region, align: Align = "left") -> list[str]:
    """Return a text in block letters that fills a region of the floor screen, blank to its full size."""
    lines = render(text, rows=region.rows, height=region.height, top=region.inset, columns=region.columns)
    return padded(lines, region.columns, align)


def padded(lines: Sequence[str], columns: int, align: Align = "left") -> list[str]:
    """Return lines with blanks to so many columns."""
    if align == "centre":
        return [line.center(columns) for line in lines]
    return [line.rjust(columns) if align == "right" else line.ljust(columns) for line in lines]


def inverse(lines: Sequence[str]) -> list[str]:
    """Return lines with every pixel turned over: the word cut out of a solid."""
    return pixels.inverse(lines)


def slab(text: str, *, rows: int, columns: int, below: int = 0) -> list[str]:
    """Return a solid of rows by columns with a text cut out of its middle; `below` half-rows are left off its foot."""
    word = render(text, rows=rows, height=slab_height(rows, below), top=1, columns=columns - 4)
    solid = pixels.picture(inverse(padded(word, columns, "centre")))
    for row in solid[2 * rows - below :]:
        row[:] = [False] * len(row)
    return pixels.lines(solid)


def slab_height(rows: int, below: int = 0) -> int:
    """Return the height of the letters in a slab, in half-rows: one is solid above them and one below."""
    return 2 * rows - below - 2


@dataclass(frozen=True, slots=True)
class _Shape:
    """The size of letters: `height` and `bar` in half-rows, `letter` and `gap` in columns, `stem` in half-columns."""

    height: int
    letter: int
    stem: int
    bar: int
    gap: int


def _drawn(text: str) -> str:
    """Return a text in the characters that the master has."""
    known = _strokes()
    found: list[str] = []
    for character in unicodedata.normalize("NFKD", text.translate(_FRACTIONS)):
        if unicodedata.combining(character):
            continue
        capitals = character if character in known else character.upper()
        found += [capital if capital in known else " " if capital.isspace() else MISSING for capital in capitals]
    return "".join(found)


def _shape(text: str, size: Size) -> _Shape:
    """Return the shape asked for; of what is left open the widest that fits."""
    height = size.get("height") or 2 * size["rows"]
    columns, letter = size.get("columns"), size.get("letter")
    widest = max(NARROWEST, round(height * _WIDEST))
    for width in range(widest, NARROWEST - 1, -1) if letter is None else (letter,):
        shape = _penned(height, width, size)
        if columns is None or _width(text, shape) <= columns:
            break
    return shape


def _penned(height: int, letter: int, size: Size) -> _Shape:
    stroke, bar, gap = size.get("stroke"), size.get("bar"), size.get("gap")
    stem = max(2, round(2 * stroke) if stroke else min(round(2 * height * _PEN), int(2 * letter * _PEN_WIDE)))
    return _Shape(
        height=height,
        letter=letter,
        stem=stem,
        bar=bar or max(1, min(round(stem / 2), height // 5)),
        gap=max(1, (stem + 2) // 4) if gap is None else gap,
    )


def _width(text: str, shape: _Shape) -> int:
    return sum(_columns(character, shape) for character in text) + shape.gap * max(0, len(text) - 1)


def _columns(character: str, shape: _Shape) -> int:
    """Return the columns of one letter; narrow ones keep their share of the lattice."""
    if character == " ":
        return max(1, shape.letter // 2)
    return ceil((shape.stem + _reach(character) * (2 * shape.letter - shape.stem) / 4) / 2 - 0.25)


@lru_cache(maxsize=512)
def _rendered(text: str, rows: int, top: int, shape: _Shape) -> tuple[str, ...]:
    if not text:
        return ("",) * rows
    parts = [_letter(character, rows, top, shape) for character in text]
    return tuple((" " * shape.gap).join(row) for row in zip(*parts, strict=True))


@lru_cache(maxsize=1024)
def _letter(character: str, rows: int, top: int, shape: _Shape) -> tuple[str, ...]:
    columns = _columns(character, shape)
    picture = pixels.blank(columns, rows)
    if character != " ":
        pen = _Pen(picture, shape, top=top, reach=_reach(character), width=2 * columns)
        for stroke in _strokes()[character]:
            for start, end in pairwise(stroke):
                pen.draw(start, end)
    return tuple(pixels.lines(picture))


class _Pen:
    """Draws strokes of the lattice on a picture, in pixels: half-columns and half-rows."""

    def __init__(self, picture: Picture, shape: _Shape, *, top: int, reach: float, width: int) -> None:
        self._picture = picture
        self._stem, self._bar = shape.stem, shape.bar
        self._across = (width - shape.stem) / reach if reach else 0.0
        self._middle = reach / 2
        self._down = (shape.height - shape.bar) / 6
        self._top = top

    def draw(self, start: Point, end: Point) -> None:
        """Draw one stroke between two points of the lattice."""
        (x, y), (x_end, y_end) = self._corner(start), self._corner(end)
        box = (min(x, x_end), min(y, y_end), max(x, x_end) + self._stem, max(y, y_end) + self._bar)
        if x == x_end or y == y_end:
            pixels.fill(self._picture, *box)
            return
        # A slanted stroke is as thick, across its own direction, as the mean of stem and bar.
        run, rise = (x_end - x) * PIXEL_WIDTH, (y_end - y) * PIXEL_HEIGHT
        middle_x, middle_y = x + self._stem / 2, y + self._bar / 2
        reach = (self._stem * PIXEL_WIDTH + self._bar * PIXEL_HEIGHT) / 4 * hypot(run, rise)

        def near(px: float, py: float) -> bool:
            return abs((px - middle_x) * PIXEL_WIDTH * rise - (py - middle_y) * PIXEL_HEIGHT * run) <= reach

        pixels.paint(self._picture, *box, near)

    def _corner(self, point: Point) -> tuple[int, int]:
        """Return the upper left pixel of the pen at a point; halves go away from the middle, so that O is even."""
        x, y = point[0] * self._across, point[1] * self._down
        return (
            ceil(x - 0.5) if point[0] <= self._middle else floor(x + 0.5),
            self._top + (ceil(y - 0.5) if point[1] <= 3 else floor(y + 0.5)),
        )


def _reach(character: str) -> float:
    """Return the last column of the lattice that a letter uses."""
    return max(x for stroke in _strokes()[character] for x, _ in stroke)


@cache
def _strokes() -> dict[str, tuple[tuple[Point, ...], ...]]:
    """Return the master: strokes of each letter as points of the lattice."""
    table = tomllib.loads((files("trainer.screens") / "letters.toml").read_text(encoding="utf-8"))
    return {name: tuple(_stroke(part) for part in drawing.split(" / ")) for name, drawing in table.items()}


def _stroke(text: str) -> tuple[Point, ...]:
    points = [point.split(",") for point in text.split()]
    return tuple((float(x), float(y)) for x, y in points)
