"""Which step a name means, however a dancer spells it.

Names are compared without capitals, accents, hyphens, blanks and endings of the plural; a size of turn and a side in it
("1/4 Monterey left") are no part of the name. A step's own name is its key in figures.toml.
"""

import re
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from unicodedata import combining, normalize

from trainer.dance.figures import figures, moves

_LONGEST = 100
"""Characters of a name that are looked at."""
_NEAR = 0.6
"""How alike a misspelling and a name must be, of 1."""
_MOST_NEAR = 5
_NUMBERS = {"2": "two", "3": "three", "4": "four", "8": "eight"}
_SIDES = {"right": 1, "r": 1, "left": -1, "l": -1}
_SIZES = {"eighth": "1/8", "quarter": "1/4", "half": "1/2", "full": "1/1"}
_FRACTION = re.compile(r"(\d{1,3})/(\d{1,3})")
_NOISE = frozenset({"step", "steps", "turn", "turns", "turning", "to", "the", "of", "a", "with", "and", "&"})
"""Words that many leave out of a name, or add."""
_WAYS = frozenset({
    "forward", "fwd", "back", "backward", "backwards", "side", "diagonal", "reverse", "cross", "behind", "in", "place",
    "syncopated", "travelling", "traveling", "big", "long", "large", "hip", "shoulder",
})  # fmt: skip
"""Words that say how or where a step is danced and, where no name has them, are no part of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """What a name came to; steps are told by their own names."""

    asked: str
    own: str | None
    """The step of that name."""
    inside: tuple[str, ...]
    """Every step with a name in which all the words stand."""
    near: tuple[str, ...]
    """Where nothing was found: names spelt alike, the likest first."""
    turn: Fraction | None
    """How far it turns, as the name says; without a side."""
    side: int
    """The side that it says: 1 right, -1 left, 0 none."""


def named(name: str) -> Named:
    """Return which step a name means."""
    asked = " ".join(name[: 10 * _LONGEST].split())[:_LONGEST]
    words = _words(asked)
    turn, side, bare = _without_turn(words)
    sided = _without(words, _SIDES)
    # The more of a name stands for its step, the better: "full turn left" is no turn of its own to the left.
    for rest, size, way in (
        (words, None, 0),
        (sided, None, side),
        (_without(sided, _WAYS), None, side),
        (bare, turn, side),
        (_without(bare, _WAYS), turn, side),
    ):
        if own := _own(rest):
            return Named(asked=asked, own=own, inside=_inside(rest), near=(), turn=size, side=way)
    inside = _inside(bare) or _made_of(bare)
    near = () if inside else _nearest(bare)
    return Named(asked=asked, own=None, inside=inside, near=near, turn=turn, side=side)


def _own(words: Sequence[str]) -> str | None:
    """Return the own name of the step that words name, with its endings or without, or without what many leave out."""
    telling = _without(words, _NOISE)
    return _exact().get("".join(words)) or _alike().get(_key(words)) or _alike().get(_key(telling))


def _words(text: str) -> list[str]:
    """Return the words of a name without capitals, accents and hyphens; a fraction is one word."""
    plain = "".join(one for one in normalize("NFKD", text.casefold()) if not combining(one)).replace("\u2044", "/")
    return re.findall(r"\d+/\d+|[^\W_]+|&", plain)


def _stem(word: str) -> str:
    """Return a word without the ending of a plural: touches is touch, chassés is chass, and so is chassé."""
    word = "and" if word == "&" else _NUMBERS.get(word, word)
    if len(word) > 3 and word.endswith("s") and not word.endswith("ss"):
        word = word[:-1]
    return word[:-1] if len(word) > 3 and word.endswith("e") else word


def _key(words: Sequence[str]) -> str:
    return "".join(map(_stem, words))


def _without_turn(words: Sequence[str]) -> tuple[Fraction | None, int, list[str]]:
    """Return the size and the side of a turn that stand in a name, and the words that are left."""
    turn, side, rest = None, 0, []
    for word in words:
        fraction = _FRACTION.fullmatch(_SIZES.get(word, word))
        if word in _SIDES:
            side = side or _SIDES[word]
        elif fraction and int(fraction[1]) and int(fraction[2]):
            turn = Fraction(int(fraction[1]), int(fraction[2]))
        else:
            rest.append(word)
    return turn, side, rest


def _without(words: Sequence[str], dropped: Container[str]) -> list[str]:
    return [word for word in words if word not in dropped]


@cache
def _exact() -> Mapping[str, str]:
    """Return, by each name with its endings, the step's own name: a swivel is a move, swivels are a figure."""
    return {"".join(_words(word)): own for own, word in _all_names()}


@cache
def _alike() -> Mapping[str, str]:
    """Return, by each name without its endings, the step's own name; figures come before moves."""
    return {_key(_words(word)): own for own, word in reversed(_all_names())}


@cache
def _all_names() -> tuple[tuple[str, str], ...]:
    """Return every name, the step's own name before it."""
    told = [(figure.name, word) for figure in figures().values() for word in figure.words]
    return (*told, *((row.move.value, word) for row in moves().values() for word in row.words))


def _inside(words: Sequence[str]) -> tuple[str, ...]:
    """Return the own names of all steps with a name in which all of some words stand."""
    asked = {_stem(word) for word in _without(words, _NOISE) or words}
    found = (own for own, word in _all_names() if asked and asked <= {_stem(one) for one in _words(word)})
    return tuple(dict.fromkeys(found))


def _made_of(words: Sequence[str]) -> tuple[str, ...]:
    """Return the steps that a name is put together of, "ronde sweep"; none where a word of it is no step."""
    telling = _without(words, _NOISE | _WAYS)
    found = [_own([word]) for word in telling]
    return tuple(dict.fromkeys(one for one in found if one)) if all(found) else ()


def _nearest(words: Sequence[str]) -> tuple[str, ...]:
    """Return names spelt like some words, one for each step."""
    by_key = {_key(_words(word)): (own, word) for own, word in reversed(_all_names())}
    found: dict[str, str] = {}
    for key in get_close_matches(_key(words), by_key, 3 * _MOST_NEAR, _NEAR):
        own, word = by_key[key]
        found.setdefault(own, word)
    return tuple(found.values())[:_MOST_NEAR]
