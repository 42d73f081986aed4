"""Headings that tell both where a section begins and where it ends: "Eight no. 2, from 12:00 to 6:00".

The end is stated of the section's last count, where no facing is stated there; what leads on from section to section
is a way, and no list of walls.
"""

from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.page.blocks import Block, Bound
from trainer.sheet.prose.words import Item, Token

_BOTH = 2
"""The facings of a way."""


def with_ways_ended(block: Block) -> Block:
    """Return a block, the last item of each section with the facing at which its heading says that it ends."""
    ways = [_way(bound) for bound in block.bounds]
    told = [way for way in ways if way is not None]
    joined = sum(before[1].value == after[0].value for before, after in pairwise(told))
    if len(told) < _BOTH or joined < max(1, len(told) - 2):
        return block
    ends = [bound.beat for bound in block.bounds[1:]]
    items = list(block.items)
    for way, end in zip(ways, [*ends, block.counts], strict=True):
        last = max((at for at, item in enumerate(items) if item.slots and item.slots[-1].beat < end), default=None)
        if way is not None and last is not None:
            items[last] = _ended(items[last], way[1])
    return replace(block, items=tuple(items))


def _way(bound: Bound) -> tuple[Token, Token] | None:
    """Return both facings that a heading states."""
    tokens = bound.heading.tokens if bound.heading is not None else ()
    found = [token for token in tokens if token.kind == "facing"]
    return (found[0], found[1]) if len(found) == _BOTH else None


def _ended(item: Item, facing: Token) -> Item:
    stated = any(token.kind == "facing" for token in item.text)
    return item if stated else replace(item, text=(*item.text, replace(facing, glued=False)))
