"""The drawings kept as golden files. Run as a script (with PYTHONPATH=.) it draws them anew, to be looked at."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from trainer.screens import blocks, dial

FOLDER = Path(__file__).parents[1] / "data" / "screens_drawing"

SHEET = ("ABCDEFGHI", "JKLMNOPQR", "STUVWXYZ", "0123456789", "& a e 1/2 3/4", "+-/:.,'!?()%", "←→↑↓")
DIALS = (
    ("12:00, no turn", 0, 0, 0),
    ("3:00, 1/4 left", 2, -2, 0),
    ("7:30, 3/8 right, screen at 3:00", 5, 3, 2),
    ("12:00, 1 right", 0, 8, 0),
    ("6:00, 1 1/4 left", 4, -10, 0),
)
"""Title, facing, turn, screen; in eighths."""


def sheet(rows: int, letter: int) -> list[str]:
    return [line.rstrip() for text in SHEET for line in [*blocks.render(text, rows=rows, letter=letter), ""]]


def dials(columns: int, rows: int) -> list[str]:
    found = []
    for title, *eighths in DIALS:
        facing, turn, screen = (Fraction(number, 8) for number in eighths)
        found += [title, *dial.render(columns, rows, facing=facing, turn=turn, screen=screen), ""]
    return [line.rstrip() for line in found]


def drawings() -> Iterator[tuple[str, Sequence[str]]]:
    for rows, letter in ((4, 4), (5, 5), (8, 11), (11, 11)):
        yield f"letters-{rows}-{letter}.txt", sheet(rows, letter)
    for columns, rows in ((22, 11), (33, 17)):
        yield f"dials-{columns}-{rows}.txt", dials(columns, rows)


def text(lines: Sequence[str]) -> str:
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, lines in drawings():
        (FOLDER / name).write_text(text(lines), encoding="utf-8")
