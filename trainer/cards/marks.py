"""What is drawn on a page: texts, dials, rules and bands, at places in points from the top left corner."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, Protocol

Face = Literal["regular", "bold", "italic"]
Ink = Literal["ink", "soft", "hair", "band", "right", "left", "accent"]

INKS: dict[Ink, str] = {
    "ink": "#1c2329",
    "soft": "#59636c",
    "hair": "#c5cbd0",
    "band": "#f4f1ea",
    "right": "#0a5566",
    "left": "#8b3626",
    "accent": "#7a5a12",
}
"""All but the band and the hairlines dark enough to be read from a black-and-white printer."""


@dataclass(frozen=True, slots=True)
class Text:
    """A text on one line; `y` is its baseline."""

    x: float
    y: float
    text: str
    face: Face
    size: float
    ink: Ink


@dataclass(frozen=True, slots=True)
class Dial:
    """A clock of one hand round the point x, y; with several facings, a dot for each."""

    x: float
    y: float
    radius: float
    facings: tuple[Fraction, ...]
    ink: Ink


@dataclass(frozen=True, slots=True)
class Rule:
    """A line across, from x for `width`."""

    x: float
    y: float
    width: float
    weight: float
    ink: Ink


@dataclass(frozen=True, slots=True)
class Band:
    """A filled area."""

    x: float
    y: float
    width: float
    height: float
    ink: Ink


Mark = Text | Dial | Rule | Band


@dataclass(frozen=True, slots=True)
class Strip:
    """Something of a height that is not broken; its marks are placed from its top left corner."""

    height: float
    marks: tuple[Mark, ...] = ()

    def at(self, x: float, y: float) -> tuple[Mark, ...]:
        """Return its marks with the corner at a place."""
        return tuple(replace(mark, x=mark.x + x, y=mark.y + y) for mark in self.marks)


class Metrics(Protocol):
    """How wide texts are."""

    def width(self, text: str, face: Face) -> float:
        """Return the width of a text at a size of 1."""


def stacked(strips: Sequence[Strip], gap: float = 0) -> Strip:
    """Return strips one under the other."""
    marks: list[Mark] = []
    y = 0.0
    for index, strip in enumerate(strips):
        y += gap if index else 0
        marks += strip.at(0, y)
        y += strip.height
    return Strip(y, tuple(marks))
