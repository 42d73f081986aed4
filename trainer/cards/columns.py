"""Blocks one after the other in two columns, as even as they can be. Lengths are points."""

from collections.abc import Sequence
from itertools import accumulate

from trainer.cards.setting import Set


def height_of(blocks: Sequence[Set], gap: float) -> float:
    """Return the height of a column of blocks."""
    return sum(block.height for block in blocks) + gap * max(len(blocks) - 1, 0)


def divided(blocks: Sequence[Set], room: float, gap: float) -> tuple[Sequence[Set], Sequence[Set]] | None:
    """Return blocks in two columns, or None where one is longer than the room; the first is the longer one."""
    reached = list(accumulate((block.height + gap for block in blocks), initial=0.0))

    def longer(cut: int) -> float:
        return max(reached[cut], reached[-1] - reached[cut]) - gap

    cut = min(range(len(reached)), key=lambda cut: (longer(cut), -cut))
    return (blocks[:cut], blocks[cut:]) if longer(cut) <= room else None
