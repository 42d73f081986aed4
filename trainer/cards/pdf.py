"""A card as PDF, drawn mark by mark with fpdf2.

Noto Sans SemiCondensed (SIL Open Font License 1.1, cut down to Latin, Greek and Cyrillic) is embedded, so that the card
looks alike everywhere. Letters that it does not have are taken from a font that the dancer names, and are told where
that has none either.
"""

import struct
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from importlib.resources import as_file, files
from math import cos, pi, sin
from pathlib import Path

from fontTools.ttLib import TTLibError
from fpdf import FPDF
from fpdf.fonts import TTFFont

from trainer.cards.marks import INKS, Band, Dial, Face, Mark, Rule, Text
from trainer.cards.model import Card
from trainer.cards.pages import laid_out
from trainer.problems import TrainerError

MADE_BY = "Callahead card"
"""Stands in every card, so that a card is known as one."""

_FILES: dict[Face, str] = {
    "regular": "NotoSans-SemiCondensed.ttf",
    "bold": "NotoSans-SemiCondensedSemiBold.ttf",
    "italic": "NotoSans-SemiCondensedItalic.ttf",
}
_LOST = "\ufffd"
_NO_FONT = "This font cannot be used"
_BROKEN = (
    TTLibError, struct.error, ArithmeticError, AssertionError, AttributeError, LookupError, OSError, TypeError,
    ValueError,
)  # fmt: skip
"""What the reading of a broken font raises."""


@dataclass(frozen=True, slots=True)
class Pdf:
    """A card as a PDF file."""

    content: bytes
    pages: int
    size: float
    """Of its type, in points."""
    missing: str
    """Letters that no font has; a sign of replacement stands for each."""


def as_pdf(card: Card, paper: str, font: Path | None = None) -> Pdf:
    """Return a card as PDF; `font` has the letters that the card's own font does not have.

    Raises TrainerError where that file is no font.
    """
    pen = _Pen(font)
    laid = laid_out(card, pen, paper)
    pen.file.set_title(card.title)
    pen.file.set_creator(MADE_BY)
    pen.file.set_subject("A dance on one card" if len(laid.pages) == 1 else "A dance on cards")
    for page in laid.pages:
        pen.file.add_page(format=(laid.width, laid.height))
        for mark in page:
            pen.draw(mark)
    return Pdf(bytes(pen.file.output()), len(laid.pages), laid.size, "".join(sorted(pen.missing)))


class _Pen:
    """An open PDF with its fonts; measures and draws."""

    def __init__(self, font: Path | None) -> None:
        self.file = FPDF(unit="pt")
        self.file.set_auto_page_break(auto=False)
        self.missing: set[str] = set()
        self._fonts: dict[str, TTFFont] = {}
        for face, name in _FILES.items():
            with as_file(files("trainer.cards") / "fonts" / name) as path:
                self._add(face, path)
        if font is not None:
            self._add_own(font)
        self.width = lru_cache(maxsize=20_000)(self._width)

    def _add(self, name: str, path: Path) -> None:
        self.file.add_font(name, "", path)
        self._fonts[name] = self.file.fonts[name]  # type: ignore[assignment]

    def _add_own(self, path: Path) -> None:
        if not path.is_file():
            raise TrainerError(_NO_FONT, f"there is no file {path}.")
        try:
            _try(path)
            self._add("own", path)
        except _BROKEN as error:
            raise TrainerError(_NO_FONT, f"{path} is no TrueType or OpenType font: {error}") from error

    def _width(self, text: str, face: Face) -> float:
        return sum(self._advance(font, piece) for font, piece in self._pieces(text, face))

    def _advance(self, font: str, piece: str) -> float:
        """Return the width of a text in one font at a size of 1."""
        _, width = self._fonts[font].get_text_width(piece, 1000, None)
        return width / 1000

    def _pieces(self, text: str, face: Face) -> list[tuple[str, str]]:
        """Return a text in pieces, each with the font that has its letters."""
        pieces: list[tuple[str, str]] = []
        for letter in text:
            font: str = face
            if ord(letter) not in self._fonts[face].cmap:
                if "own" in self._fonts and ord(letter) in self._fonts["own"].cmap:
                    font = "own"
                else:
                    self.missing.add(letter)
                    letter = _LOST
            if pieces and pieces[-1][0] == font:
                pieces[-1] = (font, pieces[-1][1] + letter)
            else:
                pieces.append((font, letter))
        return pieces

    def draw(self, mark: Mark) -> None:
        """Put a mark on the page."""
        if isinstance(mark, Text):
            self._text(mark)
        elif isinstance(mark, Dial):
            self._dial(mark)
        elif isinstance(mark, Rule):
            self.file.set_draw_color(INKS[mark.ink])
            self.file.set_line_width(mark.weight)
            self.file.line(mark.x, mark.y, mark.x + mark.width, mark.y)
        else:
            self._band(mark)

    def _text(self, mark: Text) -> None:
        self.file.set_text_color(INKS[mark.ink])
        x = mark.x
        for font, piece in self._pieces(mark.text, mark.face):
            self.file.set_font(font, size=mark.size)
            self.file.text(x, mark.y, piece)
            x += self._advance(font, piece) * mark.size

    def _band(self, mark: Band) -> None:
        self.file.set_fill_color(INKS[mark.ink])
        self.file.rect(mark.x, mark.y, mark.width, mark.height, style="F")

    def _dial(self, mark: Dial) -> None:
        """Draw a circle with its hand, or with a dot for each of several facings."""
        self.file.set_draw_color(INKS[mark.ink])
        self.file.set_fill_color(INKS[mark.ink])
        self.file.set_line_width(max(0.09 * mark.radius, 0.35))
        self.file.circle(mark.x, mark.y, mark.radius)
        if mark.radius < _LARGE:
            x, y = _on(mark, mark.facings[0], 0.92)
            self.file.set_line_width(max(0.3 * mark.radius, 0.8))
            self.file.line(mark.x, mark.y, x, y)
            return
        for hour in range(12):
            x, y = _on(mark, Fraction(hour, 12), 0.84)
            self.file.circle(x, y, 0.03 * mark.radius, style="F")
        for facing in mark.facings:
            x, y = _on(mark, facing, 0.84)
            self.file.circle(x, y, 0.15 * mark.radius, style="F")


def _try(path: Path) -> None:
    """Write a word in a font, to see all of what may be wrong with it."""
    file = FPDF()
    file.add_page()
    file.add_font("own", "", path)
    file.set_font("own", size=10)
    file.text(0, 0, "word")
    file.output()


_LARGE = 9.0
"""Points of radius from which a dial shows dots."""


def _on(mark: Dial, facing: Fraction, share: float) -> tuple[float, float]:
    """Return the point of a dial in a direction, at a share of its radius."""
    angle = 2 * pi * float(facing)
    return mark.x + share * mark.radius * sin(angle), mark.y - share * mark.radius * cos(angle)
