"""The walls that a sentence speaks of: "wall 3", "the 3rd and 6th wall", "w2 n w4", "from wall 3 on", "even walls"."""

import re
from dataclasses import dataclass
from fractions import Fraction

from trainer.sheet.prose.changes.wording import Words, numbers_in

MOST_WALLS = 12
"""So far walls are told of at once: "every even wall", "from wall 3 on"."""
_N = r"[1-9]\d? (?!th )"
_UNITS = r"(?:walls|rotations|repetitions|rounds|times)"
_UNIT = r"(?:walls?|w|rotations?|repetitions?|rounds?|times? to|times?|pass|passes)"
_AND = r"(?:, )?(?:and|&|\+|/|or) (?:in |on |of )?(?:the )?"
_SEP = rf"(?:{_AND}|, (?:the )?)"
_MARK = r"(?:(?:number|no|nr) )?(?:\. )?(?:# )?"
_ONE = rf"{_MARK}{_N}(?:(?:, {_N})*{_AND}(?:walls? |w )?(?:# )?{_N})*"
_SEVERAL = rf"{_MARK}{_N}(?:{_SEP}(?:walls? |w )?(?:# )?{_N})+"
_ORDINALS = rf"[1-9]\d? th (?:(?:{_SEP})[1-9]\d? th )*"
_FORMS = (
    ("on", rf"(?:from )(?:walls? |w )(?P<list>{_N})(?:on|onwards?|upwards) "),
    ("on", r"(?:from )(?:the )?(?P<list>[1-9]\d? th )(?:wall |time to )?(?:on|onwards?) "),
    ("list", rf"(?<!\d )(?:{_UNITS} )(?:(?:are|is) )?(?:only )?(?P<list>{_SEVERAL})"),
    ("list", rf"(?<!\d )(?:{_UNIT} )(?:(?:are|is) )?(?:only )?(?P<list>{_ONE})"),
    ("list", rf"(?<!time )(?P<list>{_ORDINALS})(?:and last )?{_UNIT} (?P<more>{_AND}[1-9] th (?!wall|time))?"),
    ("even", r"(?:even|odd)(?: -)?(?: numbered)? walls? (?:\( (?P<list>[^)]*)\) )?"),
    ("back", r"(?:back|front) walls? (?:\( (?:(?:walls?|w) )?(?P<list>\d[^)]*)\) )"),
    (
        "begun",
        r"(?:every|each|any) (?:time|wall) (?:that )?(?:you |we )?(?:begins?|starts?|begun|facing|"
        r"face) (?:at |to |facing |on )*",
    ),
)
_WALLS = [(kind, re.compile(rf"\b{form}")) for kind, form in _FORMS]
_LEADS_ON = re.compile(
    r"(?:\b(?:begin|begins|start|starts|starting|with|into|before|until|to|than|as in|like|as|begins the|"
    r"start the|then|comes?|"
    r"straight on to|go on to) (?:the |your |of )?|so (?:the |that )?|so you do |and you do |after (?:it|that|"
    r"this) (?:the )?)$"
)
"""What stands before a wall that only comes next, or that another is likened to."""
_ONLY_BEGINS = re.compile(
    r"(?:\([^)]*\) )?(?:is |will |then |therefore |now )*(?:begins?|starts?|looks?|comes?|follows?|"
    r"and the rest|is danced|faces|is therefore)\b"
)


@dataclass(frozen=True, slots=True)
class Walls:
    """The walls that are spoken of."""

    numbers: tuple[int, ...]
    first: int
    """Where in the text they are told."""
    last: int
    facing: Fraction | None = None
    """They are told by the facing with which they begin."""


def walls_in(words: Words) -> Walls | None:
    """Return the walls that a sentence speaks of first, but for those that only come next."""
    found = [
        walls for kind, form in _WALLS for match in form.finditer(words.text) if (walls := _made(kind, match, words))
    ]
    found = [one for one in found if not _LEADS_ON.search(words.text[: one.first])]
    return min(found, key=lambda one: (one.first, -one.last), default=None)


def only_begins(words: Words, walls: Walls) -> bool:
    """Whether a sentence only says that the walls begin: "wall 5 starts when the drums come in"."""
    return _ONLY_BEGINS.match(words.text, walls.last) is not None


def _made(kind: str, match: re.Match[str], words: Words) -> Walls | None:
    listed = match.groupdict().get("list")
    numbers = tuple(
        dict.fromkeys(
            number
            for number in numbers_in((listed or "") + (match.groupdict().get("more") or ""))
            if 0 < number <= 2 * MOST_WALLS
        )
    )
    if kind == "begun":
        token = words.tokens[words.place(match.end())]
        if token.kind not in ("clock", "facing") or token.value is None:
            return None
        return Walls((), match.start(), match.end() + len(token.low) + 1, token.value)
    if kind == "on" and numbers:
        numbers = tuple(range(numbers[0], MOST_WALLS + 1))
    if kind == "even" and not numbers:
        numbers = tuple(range(2 - ("odd" in match[0]), MOST_WALLS + 1, 2))
    return Walls(numbers, match.start(), match.end()) if numbers else None
