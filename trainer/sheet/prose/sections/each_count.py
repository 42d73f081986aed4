"""Blocks that tell a step for each count, one after the other: "left forward, right beside, left in place" in a bar."""

from collections.abc import Sequence

from trainer.sheet.prose.words import Item, Token

_OPENS = {"(", "[", "{"}
_CLOSES = {")", "]", "}"}
_LEAST = 6
"""Items of several counts that show how a sheet tells its steps."""
_ALMOST = 0.9


def tells_each_count(items: Sequence[Item]) -> bool:
    """Whether almost all items of several counts tell as many steps as these."""
    several = [item for item in items if is_of_several(item)]
    alike = sum(steps_told(item.text) == len(item.slots) for item in several)
    return len(several) >= _LEAST and alike >= _ALMOST * len(several)


def is_of_several(item: Item) -> bool:
    """Whether an item has so many counts that each may be told by a clause; one or two may be told with their style."""
    return len(item.slots) > 2


def steps_told(text: Sequence[Token]) -> int:
    """Return how many clauses words have that commas part, asides left out."""
    told, depth, open_ = 0, 0, False
    for token in text:
        depth += (token.text in _OPENS) - (token.text in _CLOSES)
        if depth == 0 and token.text in (",", ";"):
            open_ = False
        elif depth == 0 and token.kind == "word" and not open_:
            told, open_ = told + 1, True
    return told
