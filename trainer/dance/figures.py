"""The tables of moves and figures, read once from figures.toml."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from trainer.terms import Move

WeightRule = Literal["takes", "none", "same", "both", "open", "still"]
"""What a move does to the weight; the meanings stand at the head of figures.toml."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRow:
    """A row of the table of moves."""

    move: Move
    short: str
    """At most 13 letters, for block letters."""
    weight: WeightRule
    ends: Literal["foot", "as before"] = "as before"
    """Of an open move: what a clause without a note means."""
    footless: bool = False
    words: tuple[str, ...]
    """The move's names in sheets, the first is its own."""


@cache
def _table() -> dict[str, Any]:
    return tomllib.loads((files("trainer.dance") / "figures.toml").read_text(encoding="utf-8"))


@cache
def moves() -> Mapping[Move, MoveRow]:
    """Return the table of moves."""
    return {
        Move(name): MoveRow(move=Move(name), **{**row, "words": tuple(row["words"])})
        for name, row in _table()["moves"].items()
    }
