"""A card as PDF, drawn mark by mark with fpdf2.

Noto Sans SemiCondensed (SIL Open Font License 1.1, cut down to Latin, Greek and Cyrillic) is embedded, so that the card
looks alike everywhere. Letters that it does not have are taken from a font that the dancer names, and are told where
that has none either.
"""

import logging
import struct
from contextlib import closing
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from importlib.resources import as_file, files
from io import BytesIO
from math import cos, pi, sin
from pathlib import Path

from fontTools.ttLib import TTFont, TTLibError
from fpdf import FPDF
from fpdf.fonts import TTFFont

from trainer.cards.marks import INKS, Band, Dial, Face, Mark, Rule, Text
from trainer.cards.model import Card
from trainer.cards.pages import laid_out
from trainer.problems import TrainerError

MADE_BY = "Callahead card"
"""Stands in every card, so that a card is known as one."""

# What fontTools says of tables that it leaves out is nothing to a dancer.
logging.getLogger("fontTools").setLevel(logging.ERROR)

_FILES: dict[Face, str] = {
    "regular": "NotoSans-SemiCondensed.ttf",
    "bold": "NotoSans-SemiCondensedSemiBold.ttf",
    "italic": "NotoSans-SemiCondensedItalic.ttf",
}
_LOST = "\ufffd"
_NEEDED = ("head", "hhea", "maxp", "hmtx", "cmap", "post", "OS/2", "name")
"""Tables of a font without which nothing can be written in it."""
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
    with closing(_Pen(font)) as pen:
        laid = laid_out(card, pen, paper)
        pen.file.set_title(card.title)
        pen.file.set_creator(MADE_BY)
        for page in laid.pages:
            pen.file.add_page(format=(laid.width, laid.height))
            for mark in page:
                pen.draw(mark)
        return Pdf(pen.written(), len(laid.pages), laid.size, "".join(sorted(pen.missing)))


class _Pen:
    """An open PDF with its fonts; measures and draws."""

    def __init__(self, font: Path | None) -> None:
        self.file = FPDF(unit="pt")
        self.file.set_auto_page_break(auto=False)
        self.missing: set[str] = set()
        self._fonts: dict[str, TTFFont] = {}
        self._own = font
        for face, name in _FILES.items():
            with as_file(files("trainer.cards") / "fonts" / name) as path:
                self._add(face, path)
        if font is not None:
            self._add_own(font)
        self.width = lru_cache(maxsize=20_000)(self._width)

    def close(self) -> None:
        """Close the files of the fonts, which are read until the PDF is done."""
        for font in self._fonts.values():
            font.ttfont.close()

    def _add(self, name: str, path: Path) -> None:
        self.file.add_font(name, "", path)
        self._fonts[name] = self.file.fonts[name]  # type: ignore[assignment]

    def _add_own(self, path: Path) -> None:
        try:
            with TTFont(BytesIO(path.read_bytes()), fontNumber=0) as font:
                for table in _NEEDED:
                    font[table]
            self._add("own", path)
        except _BROKEN as error:
            self.close()
            raise _no_font(path, error) from error

    def written(self) -> bytes:
        """Return the PDF; only now the shapes of the letters are read."""
        try:
            return bytes(self.file.output())
        except _BROKEN as error:
            if self._own is None:
                raise
            raise _no_font(self._own, error) from error

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


def _no_font(path: Path, error: Exception) -> TrainerError:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else f"this is no font: {error}"
    return TrainerError("This font cannot be used", f"{path}: {reason}")


_LARGE = 9.0
"""Points of radius from which a dial shows dots."""


def _on(mark: Dial, facing: Fraction, share: float) -> tuple[float, float]:
    """Return the point of a dial in a direction, at a share of its radius."""
    angle = 2 * pi * float(facing)
    return mark.x + share * mark.radius * sin(angle), mark.y - share * mark.radius * cos(angle)
