"""Small pictures made of text: every cell shows two by two pixels as one of sixteen quadrant glyphs.

A terminal cell is about 8 wide and 17 high, so a pixel here is 4 wide and 8.5 high: that is what `PIXEL_WIDTH` and
`PIXEL_HEIGHT` say, in eighths of a cell's width. All sixteen glyphs are one cell wide.
"""

from collections.abc import Callable, Iterable, Sequence

PIXEL_WIDTH = 4.0
PIXEL_HEIGHT = 8.5

GLYPHS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""By bits: 1 upper left, 2 upper right, 4 lower left, 8 lower right."""

_COMPLEMENT = str.maketrans(GLYPHS, GLYPHS[::-1])

Picture = list[list[bool]]
"""Rows of pixels, an even number of both."""


def blank(columns: int, rows: int) -> Picture:
    """Return an empty picture of so many cells."""
    return [[False] * (2 * columns) for _ in range(2 * rows)]


def lines(picture: Sequence[Sequence[bool]]) -> list[str]:
    """Return a picture as lines of text, one glyph for two by two pixels."""
    return [
        "".join(GLYPHS[upper[x] + 2 * upper[x + 1] + 4 * lower[x] + 8 * lower[x + 1]] for x in range(0, len(upper), 2))
        for upper, lower in zip(picture[::2], picture[1::2], strict=True)
    ]


def inverse(text: Iterable[str]) -> list[str]:
    """Return lines with every pixel turned over: letters cut out of a solid."""
    return [line.translate(_COMPLEMENT) for line in text]


def fill(picture: Picture, left: float, top: float, right: float, bottom: float) -> None:
    """Fill the pixels whose middles lie in a rectangle; coordinates in pixels."""
    paint(picture, left, top, right, bottom, lambda _x, _y: True)


def paint(
    picture: Picture, left: float, top: float, right: float, bottom: float, inside: Callable[[float, float], bool]
) -> None:
    """Fill the pixels of a rectangle whose middles (in pixels) pass `inside`."""
    for y in range(max(0, _first(top)), min(len(picture), _first(bottom))):
        row = picture[y]
        for x in range(max(0, _first(left)), min(len(row), _first(right))):
            if inside(x + 0.5, y + 0.5):
                row[x] = True


def _first(edge: float) -> int:
    """Return the first pixel whose middle lies at or after an edge."""
    return -int(-(edge - 0.5) // 1)


def picture(text: Iterable[str]) -> Picture:
    """Return the pixels of lines that `lines` made."""
    rows: Picture = []
    for line in text:
        bits = [GLYPHS.index(glyph) for glyph in line]
        rows.append([bool(bit & mask) for bit in bits for mask in (1, 2)])
        rows.append([bool(bit & mask) for bit in bits for mask in (4, 8)])
    return rows
