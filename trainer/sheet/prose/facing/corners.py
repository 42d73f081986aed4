"""A corner told by the walls beside it: "the corner between back and right wall", "half way between the back and 3"."""

from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.facing.walls_named import OCLOCK, SIDES, WALLS, hour
from trainer.sheet.prose.words import Token

_LEADS = {"the", "that", "in", "into", "at", "to", "towards", "diagonal", "corner", "half", "halfway", "way", "-"}
_NAMES = {**SIDES, **{name: WALLS[name] for name in ("front", "back", "rear", "home")}}
_BESIDE = {"the", "wall", "walls", "hand", "side", "-"} | OCLOCK
_LONGEST = 14


def corner_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """Return how many tokens from `at` on tell a corner by two walls that meet there, and which."""
    last = at
    lows: set[str] = set()
    while last < len(tokens) and tokens[last].low in _LEADS:
        lows.add(tokens[last].low)
        last += 1
    joint = tokens[last].low if last < len(tokens) else ""
    if not lows & {"corner", "diagonal", "half", "halfway"} or joint not in ("between", "of"):
        return 0, None
    walls: list[Fraction] = []
    end = last + 1
    for index in range(last + 1, min(last + 1 + _LONGEST, len(tokens))):
        token = tokens[index]
        wall = token.value if token.kind in ("clock", "facing") else _NAMES.get(token.low, hour(token))
        if wall is not None:
            walls.append(wall)
        elif token.low not in _BESIDE and not (token.low in ("and", "&") and len(walls) == 1):
            break
        end = index + 1
    if len(walls) != 2 or (walls[0] - walls[1]) % 1 not in (Fraction(1, 4), Fraction(3, 4)):
        return 0, None
    first, second = sorted(walls)
    return end - at, (Fraction(7, 8) if second - first > Fraction(1, 2) else (first + second) / 2)
