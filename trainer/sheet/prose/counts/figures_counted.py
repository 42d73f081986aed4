"""A number before the plural of a figure is how many there are: "four toe struts", "two slow rocking chairs"."""

from collections.abc import Sequence

from trainer.sheet.prose.words import Token

_FIGURES = {
    "struts", "chairs", "boxes", "vines", "grapevines", "sailors", "shuffles", "chasses", "chassés", "coasters",
    "mambos", "digs", "montereys", "voltas", "paddles", "weaves", "scissors", "twinkles", "balances", "grinds",
}  # fmt: skip
"""Plurals of figures that are no verbs, and no parts of the body: "4 heels together" is count 4."""
_BEFORE = {
    "slow", "quick", "big", "small", "little", "full", "half", "quarter", "toe", "heel", "rocking", "jazz", "rumba",
    "rhumba", "box", "side", "forward", "forwards", "back", "backward", "backwards", "walking", "right", "left",
    "cross", "crossing", "plain", "simple", "easy", "gentle", "more", "step", "travelling", "turning", "kick",
    "triple", "1/4", "1/2", "diagonal", "basic", "fwd", "bk", "hip",
}  # fmt: skip
_BETWEEN = 3
"""Words between the number and the figure, at most."""


def several_of(line: Sequence[Token], at: int) -> bool:
    """Whether the tokens from an index on name several of a figure."""
    for token in line[at : at + 1 + _BETWEEN]:
        if token.low in _FIGURES:
            return True
        if token.low not in _BEFORE:
            return False
    return False
