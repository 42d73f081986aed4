"""A line of a text, and where its pieces stand in the sheet."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the plain text, and where its pieces stand in the sheet."""

    text: str
    pieces: tuple[tuple[int, int, int], ...]
    """Of each piece the place in `text`, and the line and column in the sheet, from 1."""

    def cut(self, length: int) -> "Row":
        """Return the row without so many letters at its start."""
        _, line, column = self.pieces[0]
        others = tuple((at - length, number, first) for at, number, first in self.pieces[1:])
        return Row(self.text[length:], ((0, line, column + length), *others))

    def joined(self, below: "Row", *, without: int | None = None) -> "Row":
        """Return the row with the words of another behind its own.

        A blank stands between; or, where one word goes on in the other, nothing, `without` so many letters of its end.
        """
        own = self.text.rstrip()
        own = own + " " if without is None else own[: len(own) - without]
        words = below.text.lstrip()
        lead = len(below.text) - len(words)
        _, line, column = below.pieces[0]
        return Row(own + words, (*self.pieces, (len(own), line, column + lead)))
