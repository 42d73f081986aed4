"""Where a turn leads, told behind a comma at the end of its words: "quarter turn right on right, to the back".

Without a turn "to the back" is the way of a step, and behind a sweep or a kick it is theirs. An hour that has the last
cell of its line to itself is where the line leads: "R side, L forward ..... to 12".
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_HOME = {"front": Fraction(0), "back": Fraction(1, 2)}
_TURNS = {
    "turn", "turns", "turning", "turned", "pivot", "pivots", "unwind", "spin", "half", "quarter", "¼", "½", "¾", "1/4",
    "1/2", "3/4", "roll", "monterey",
}  # fmt: skip
_GOES_THERE = {
    "sweep", "sweeps", "sweeping", "kick", "kicks", "kicking", "hook", "hooks", "flick", "ronde", "swing", "swings",
    "point", "points", "touch", "touches", "tap", "brush", "scuff", "look", "looking", "drag", "hitch", "step", "rock",
    "walk", "run", "reach", "push", "shuffle", "lock",
}  # fmt: skip
"""Words of what itself goes to the front or the back."""
_ENDS = {".", ";", ")", "|", ":", "!"}
_FAR = 14
"""Tokens before the comma in which the turn is told."""


def turned_to(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """Return how many tokens from `at` on tell the wall that a turn before them leads to, and which."""
    words = [token.low for token in tokens[at : at + 4]]
    if words[:1] == ["to"] and len(words) == 2 and words[1] in HOURS and _opens_a_cell(tokens, at):
        return 2, HOURS[words[1]]
    if words[:2] != ["to", "the"] or len(words) < 3 or words[2] not in _HOME or at < 3 or tokens[at - 1].text != ",":
        return 0, None
    length = 4 if words[3:] == ["again"] else 3
    if at + length < len(tokens) and tokens[at + length].text not in _ENDS:
        return 0, None
    told = tokens[max(at - _FAR, 0) : at - 1]
    start = max((place for place, token in enumerate(told) if token.text in _ENDS or token.text == ","), default=-1)
    clause = {token.low for token in told[start + 1 :]}
    turns = bool(clause & _TURNS) or any(token.kind == "fraction" for token in told[start + 1 :])
    return (length, _HOME[words[2]]) if turns and not clause & _GOES_THERE else (0, None)


def _opens_a_cell(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token opens a cell behind one that ends with a word."""
    return at > 1 and tokens[at - 1].text == BREAK and tokens[at - 2].kind == "word"
