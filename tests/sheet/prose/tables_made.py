"""One short dance, written as tables of every kind: the cells stay, the columns, marks and facings change."""

from pathlib import Path
from typing import Any

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import Problem, loud
from trainer.sheet.opening import opened

Event = tuple[str, str | None, str | None, str]
"""The label, foot, weight and facing."""

ROWS = (
    (1, "1", "R", "step fwd", "12"),
    (1, "2", "L", "step fwd", "12"),
    (1, "3&4", "R L R", "shuffle fwd", "12"),
    (1, "5", "L", "rock fwd", "12"),
    (1, "6", "R", "recover", "12"),
    (1, "7&8", "L R L", "coaster: back, together, fwd", "12"),
    (2, "1", "R", "step fwd", "12"),
    (2, "2", "L", "pivot 1/4 left", "9"),
    (2, "3&4", "R L R", "across, side, across", "9"),
    (2, "5", "L", "rock to side", "9"),
    (2, "6", "R", "recover", "9"),
    (2, "7&8", "L R L", "behind, side, across", "9"),
)
"""Section, counts, feet, words, facing."""

WANT: list[Event] = [
    (label, foot, foot, f"{facing}:00")
    for _, counts, feet, _, facing in ROWS
    for label, foot in zip(counts, feet.split(), strict=True)
]

HEADER = "Pebble Lane\n16 counts, 4 walls, improver\nIntro 16 counts, weight on the left foot\n\n"
HEADS = {"s": "Section", "S": "Section", "c": "Count", "f": "Foot", "w": "What", "x": "Facing"}
FACINGS = {
    "number": {"12": "12", "9": "9"},
    "clock": {"12": "12:00", "9": "9:00"},
    "o'clock": {"12": "12 o'clock", "9": "9 o'clock"},
    "room": {"12": "front", "9": "left"},
    "compass": {"12": "N", "9": "W"},
    "bracket": {"12": "[12]", "9": "[9]"},
    "wall": {"12": "front wall", "9": "left-hand wall"},
    "arrow": {"12": "↑", "9": "←"},
    "letter": {"12": "F", "9": "L"},
}
STYLES = ("tab", "comma", "semicolon", "stroke", "markdown", "wide gap", "small gap", "box", "drawn box")


def danced(text: str, walls: int = 1) -> tuple[list[Event], tuple[Problem, ...]]:
    """Return the events of a sheet's first walls, and what it warns of."""
    sheet = opened(Path("table.txt"), text)
    timeline = unroll(sheet.routine, walls)
    rows: list[Any] = list(as_rows(timeline, sheet.routine.tempo))
    return [(row["count"], row["foot"], row["weight"], row["facing"]) for row in rows], tuple(loud(sheet.problems))


def sheet(
    order: str,
    style: str,
    *,
    facing: str = "number",
    head: bool = True,
    each: bool = False,
    mistake: tuple[int, str, str] | None = None,
) -> str:
    """Return the dance as tables: `order` gives the columns, `each` a table of its own for every section.

    `mistake` is a row, which of its cells is wrong, and what stands in it.
    """
    rows = [(row[0], _cells(row, row[1] == "1", order, facing)) for row in ROWS]
    if mistake is not None:
        row, cell, becomes = mistake
        rows[row][1][order.index({"words": "w", "feet": "f", "facing": "x"}[cell])] = becomes
    if not each:
        return HEADER + table(order, [cells for _, cells in rows], style, head=head)
    parts = [table(order, [cells for own, cells in rows if own == part], style, head=head) for part in (1, 2)]
    return HEADER + "\n".join(f"SECTION {part}\n{shown}" for part, shown in enumerate(parts, 1))


def _cells(row: tuple[int, str, str, str, str], first: bool, order: str, facing: str) -> list[str]:
    section, counts, feet, words, hour = row
    told = {
        "s": str(section),
        "S": str(section) if first else "",
        "c": counts,
        "f": feet,
        "w": words,
        "x": FACINGS[facing][hour],
    }
    return [told[letter] for letter in order]


def table(order: str, rows: list[list[str]], style: str, *, head: bool) -> str:
    """Return rows as a table in one of `STYLES`."""
    shown = [*([[HEADS[letter] for letter in order]] if head else []), *rows]
    if style in ("tab", "comma", "semicolon"):
        mark = {"tab": "\t", "comma": ",", "semicolon": ";"}[style]
        return "\n".join(mark.join(f'"{cell}"' if mark in cell else cell for cell in row) for row in shown) + "\n"
    widths = [max(len(row[place]) for row in shown) for place in range(len(order))]
    padded = [[cell.ljust(width) for cell, width in zip(row, widths, strict=True)] for row in shown]
    if "gap" in style:
        return "\n".join(("    " if style == "wide gap" else "  ").join(row).rstrip() for row in padded) + "\n"
    lines = [f"| {' | '.join(row)} |" for row in padded]
    rule = "+".join("-" * (width + 2) for width in widths)
    if style == "markdown" and head:
        lines.insert(1, f"|{rule.replace('+', '|')}|")
    if style == "box":
        lines = [f"+{rule}+", *lines, f"+{rule}+"]
    if style == "drawn box":
        drawn = rule.replace("-", "─")
        lines = [f"┌{drawn.replace('+', '┬')}┐", *lines, f"└{drawn.replace('+', '┴')}┘"]
        lines = [line.replace("|", "│") for line in lines]
    return "\n".join(lines) + "\n"
