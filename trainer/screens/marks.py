"""Solid marks of the floor screen: the free foot, the counts left, the rule that lights up.

Filled means now or still to come, hollow means not yet or gone: told by shape, whatever the colours.
"""

from functools import lru_cache

from trainer.screens import blocks, pixels
from trainer.screens.pixels import Picture


def foot(letter: str, *, columns: int, rows: int, waiting: bool = False) -> list[str]:
    """Return the free foot for its edge of the screen: its letter over a block, hollow while it waits (a hold)."""
    upper = (rows - 1) // 2
    block = _block(columns, rows - upper - 1, hollow=waiting)
    name = blocks.padded(blocks.render(letter, rows=upper, columns=columns), columns, "centre")
    return [*name, " " * columns, *block]


def counts_left(left: int, of: int, *, columns: int, rows: int, inset: int = 0) -> list[str]:
    """Return a row of `of` blocks of which the first `left` are solid: they go out from the right.

    `inset` half-rows are kept blank above. A number would compete with the count.
    """
    gap = max(2, columns // 40)
    wide = (columns - gap * (of - 1)) // of
    full, gone = (_block(wide, rows, hollow=hollow, inset=inset) for hollow in (False, True))
    return [(" " * gap).join([solid] * left + [empty] * (of - left)) for solid, empty in zip(full, gone, strict=True)]


def rule(columns: int, rows: int = 1) -> list[str]:
    """Return the rule that lights up from sixteen counts off; the last half-row is blank."""
    return ["█" * columns] * (rows - 1) + ["▀" * columns]


@lru_cache(maxsize=64)
def _block(columns: int, rows: int, *, hollow: bool, inset: int = 0) -> tuple[str, ...]:
    picture: Picture = pixels.blank(columns, rows)
    pixels.fill(picture, 0, inset, 2 * columns, 2 * rows)
    if hollow:
        # About as thick upright as across: a column is nearly a half-row.
        thick = max(1, round(rows / 8))
        for row in picture[inset + thick : 2 * rows - thick]:
            row[2 * thick : 2 * (columns - thick)] = [False] * (2 * (columns - 2 * thick))
    return tuple(pixels.lines(picture))
