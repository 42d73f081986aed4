"""Whole sheets in many teachers' hands, each with what is danced in its walls: reading them as `test_by_walls` does."""

import json
from pathlib import Path
from typing import Any

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.sheet.opening import opened

FOLDER = Path(__file__).parents[2] / "data" / "by_walls"
"""Lists of sheets: `text`, and `walls`, for each its counts: `1R12` or, where the foot takes no weight, `1RL12`;
a hold is `1-L12`; the facing is the hour, with `:30` for the diagonals. Each was misread once."""

GUARDS = FOLDER / "guards"
"""Sheets of the same form that were read as they should be when they came: they are held by the long runs."""


def sheets(folder: Path) -> list[tuple[str, dict[str, Any]]]:
    """Return every sheet of a folder with a name for it."""
    return [
        (f"{path.stem} {place}", row)
        for path in sorted(folder.glob("*.json"))
        for place, row in enumerate(json.loads(path.read_text(encoding="utf-8")))
    ]


def as_danced(text: str, walls: int) -> tuple[list[str], int]:
    """Return the counts of each wall as a sheet is read, and how many findings it has."""
    sheet = opened(Path("sheet.txt"), text)
    counts: list[list[str]] = [[] for _ in range(walls)]
    for row in as_rows(unroll(sheet.routine, walls), sheet.routine.tempo):
        if row["wall"] <= walls:
            counts[row["wall"] - 1].append(_told(row["count"], row["foot"], row["weight"], row["facing"]))
    return [" ".join(wall) for wall in counts], len(loud(sheet.problems))


def _told(label: str, foot: str | None, weight: str | None, facing: str) -> str:
    hour = facing.removesuffix(":00")
    return f"{label}{foot or '?'}{'' if foot == weight else weight}{hour}"
