"""What is left of a drawing at a distance, and a reader who has to name it.

The picture of the cells (8 wide, 17 high) is averaged over squares of so many minutes of arc, one value a square: an
eye of full sight tells points one minute apart; two stand for half that sight, or a tired or moving eye. The squares
lie at random on the picture, contrast is 80 %, noise is added. The reader takes the nearest of clean templates, laid
at several places, by correlation. So the reader is a good one: what it confuses nobody reads; what it tells apart by a
hair a dancer may miss, and `likeness` says how fine the hair is.
"""

from collections.abc import Mapping, Sequence
from math import radians, tan

import numpy as np
from numpy.typing import NDArray

from trainer.screens import pixels

Picture = NDArray[np.float64]

CONTRAST = 0.8
NOISE = 0.15


def square_mm(distance_m: float, minutes: float = 1.0) -> float:
    """Return the side of a square seen at so many minutes of arc."""
    return 1000 * distance_m * tan(radians(minutes / 60))


Drawing = Sequence[str] | Picture
"""Glyphs, or how far each of their pixels stands out from the ground: 0 to 1."""


def seen(drawing: Drawing, row_mm: float, square: float, place: tuple[float, float]) -> Picture:
    """Return the share of light in each square; `place` shifts the squares by shares of one, both ways."""
    dots = drawing if isinstance(drawing, np.ndarray) else np.array(pixels.picture(drawing), dtype=float)
    light = _averaged(dots, row_mm / 2, square, place[0])
    return _averaged(light.T, row_mm * 8 / 17 / 2, square, place[1]).T


def _averaged(dots: Picture, dot: float, square: float, place: float) -> Picture:
    """Average along the first axis, exactly; a dark square is left on each side."""
    squares = int(len(dots) * dot / square) + 5
    edges = np.clip((np.arange(squares) - 1 - place) * square / dot, 0, len(dots))
    total = np.concatenate([np.zeros((1, dots.shape[1])), np.cumsum(dots, axis=0)])
    whole = np.minimum(edges.astype(int), len(dots) - 1)
    up_to = total[whole] + (edges - whole)[:, None] * dots[whole]
    return np.diff(up_to, axis=0) * dot / square


class Reader:
    """Names what it sees, out of the drawings it knows."""

    def __init__(self, known: Mapping[str, Drawing], row_mm: float, square: float, places: int = 4) -> None:
        """`places`: templates are laid at so many places a square, each way."""
        self.known, self._row, self._square = dict(known), row_mm, square
        self.names = list(known)
        shapes = [seen(lines, row_mm, square, (0, 0)).shape for lines in known.values()]
        self._room = (max(rows for rows, _ in shapes), max(columns for _, columns in shapes))
        shifts = [(y / places, x / places) for y in range(places) for x in range(places)]
        self._templates = np.stack(
            [[self._even(seen(lines, row_mm, square, shift)) for shift in shifts] for lines in known.values()]
        )

    def _even(self, picture: Picture) -> Picture:
        """Return a picture in the reader's room, without its mean, at length one."""
        room = np.zeros(self._room)
        room[: picture.shape[0], : picture.shape[1]] = picture[: self._room[0], : self._room[1]]
        flat = (room - room.mean()).ravel()
        return flat / (np.linalg.norm(flat) or 1.0)

    def name(self, picture: Picture) -> str:
        """Return the name of the nearest template."""
        return self.names[int((self._templates @ self._even(picture)).max(axis=1).argmax())]

    def glance(self, name: str, chance: np.random.Generator) -> str:
        """Look once at a drawing, at 80 % contrast and with noise; return what it is taken for."""
        clean = seen(self.known[name], self._row, self._square, tuple(chance.random(2)))
        return self.name(CONTRAST * clean + chance.normal(0, NOISE, clean.shape))

    def mistakes(self, times: int, chance: np.random.Generator) -> list[tuple[str, str]]:
        """Return what was shown and what it was taken for, of so many glances at each drawing."""
        looks = [(name, self.glance(name, chance)) for name in self.names for _ in range(times)]
        return [(name, taken) for name, taken in looks if name != taken]

    def likeness(self) -> tuple[float, str, str]:
        """Return how alike the two most alike drawings are, 1 for the same, and their names."""
        return max(
            (float((self._templates[one] @ self._templates[other].T).max()), self.names[other], self.names[one])
            for one in range(len(self.names))
            for other in range(one)
        )
