"""A figure's name, and then its steps after words that explain: "a lock and scuff, so step, lock, step, scuff left".

Such words do what a colon does: ", so", ", that is", ", i.e.", ", meaning".
"""

from collections.abc import Sequence

from trainer.dance.figures import figures
from trainer.sheet.prose.steps.lex import Lex

_LEADS = (("so",), ("that", "is"), ("i", ".", "e", "."), ("ie",), ("meaning",), ("which", "means"), ("which", "is"))
_STEPS = {"move", "way", "prep", "side", "foot", "to", "ref"}
_ENDS = {"break", "open", "close"}
_FEET = {"side", "foot"}
_LEAST = 2
"""Commas that part the steps of a list."""
_LONGEST = 4
"""Lexemes of one step in such a list."""


def with_explained(lexes: Sequence[Lex]) -> tuple[Lex, ...]:
    """Return lexemes with a colon for the words that lead from a name to a list of its steps.

    A sign before the one foot of a figure parts nothing: "kick-ball-change: R".
    """
    lexes = [lex for at, lex in enumerate(lexes) if not _only_foots(lexes, at)]
    for at, lex in enumerate(lexes):
        if lex.kind != "break" or lex.value not in (",", "-"):
            continue
        length = next(
            (len(lead) for lead in _LEADS if tuple(one.low for one in lexes[at + 1 : at + 1 + len(lead)]) == lead), 0
        )
        if length and _lists_steps(lexes[at + 1 + length :]):
            return (*lexes[:at], lex._replace(value=":", low=":"), *lexes[at + 1 + length :])
    return tuple(lexes)


def _only_foots(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a sign stands between a figure's name and its foot, of which nothing more is said."""
    foot, after = lexes[at + 1 : at + 2], lexes[at + 2 : at + 4]
    if lexes[at].kind != "break" or lexes[at].value not in (":", "-") or not at or lexes[at - 1].kind != "figure":
        return False
    ends = not after or after[0].kind in _ENDS
    return bool(foot) and foot[0].kind in _FEET and ends and not any(one.kind in (*_FEET, "run") for one in after)


def _lists_steps(lexes: Sequence[Lex]) -> bool:
    """Whether steps of a few words each follow, with commas between them, up to the end of the sentence."""
    end = next((at for at, lex in enumerate(lexes) if lex.kind == "break" and lex.value in (".", ";", ":")), len(lexes))
    listed = lexes[:end]
    commas = [at for at, lex in enumerate(listed) if lex.kind == "break"]
    if not listed or listed[0].kind not in _STEPS or len(commas) < _LEAST:
        return False
    if any(lex.kind == "unknown" or lex.low in ("is", "are", "has") for lex in listed):
        return False
    gaps = [after - before for before, after in zip((-1, *commas), (*commas, end), strict=True)]
    return max(gaps) - 1 <= _LONGEST


def with_first_foot(lexes: Sequence[Lex]) -> tuple[Lex, ...]:
    """Return lexemes without the comma before a figure's first foot: "a cross shuffle, right over left".

    The figure has no foot of its own, and its first step goes that way.
    """
    for at, lex in enumerate(lexes):
        if lex.kind != "break" or lex.value != ",":
            continue
        start = next((one + 1 for one in range(at - 1, -1, -1) if lexes[one].kind in _ENDS), 0)
        names = [one for one in lexes[start:at] if one.kind == "figure"]
        if len(names) != 1 or any(one.kind in ("side", "foot", "run") for one in lexes[start:at]):
            continue
        end = next((one for one in range(at + 1, len(lexes)) if lexes[one].kind in _ENDS), len(lexes))
        told = [one for one in lexes[at + 1 : end] if one.kind not in ("glue", "part", "task")]
        last = end == len(lexes) or lexes[end].value == "."
        foot = last and [one.kind in _FEET for one in told] in ([True, False, True], [True, False])
        if foot and told[1].kind == "prep" and told[1].value is figures()[names[0].value].forms[0].steps[0].direction:
            return (*lexes[:at], *lexes[at + 1 :])
    return tuple(lexes)
