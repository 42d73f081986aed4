"""Steps that a heading names among others: where in "Section 4: jazz box, stomps and claps" the jazz box is danced.

They are danced up to where those that the heading names next begin.
"""

from collections.abc import Callable, Iterable, Sequence

from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.lexis.vocabulary import FILLERS, NUMBERS, STEP_WORDS

_PARTING = {",", "&", "and", "+", "/", "then", "-", ":", ";", ".", "|", "(", ")", "into", "with"}

Danced = Callable[[Iterable[str]], list[tuple[int, int]]]
"""Gives where steps are danced that are named so: counts before and after."""


def steps_headed(heading: str, title: Sequence[str], start: int, end: int, danced: Danced) -> tuple[int, int] | None:
    """Return between which counts the steps are danced that a heading names first or among others.

    None: the heading names no others, or it is not found where those are danced.
    """
    groups = _groups(heading)
    wanted = stems(word for word in title if word not in FILLERS and word not in NUMBERS)
    at = next((place for place, group in enumerate(groups) if wanted and wanted <= stems(group)), None)
    if at is None or len(groups) == 1:
        return None
    begins = [_begins(group, start, end, danced) for group in groups]
    upto = end if at == len(groups) - 1 else next((one for one in begins[at + 1 :] if one is not None), None)
    first = start if not at else begins[at]
    if upto is None or first is None:
        return None
    if any(upto < last <= end for _, last in danced(groups[at])):
        # They come once more behind the others: "walks and a kick", forward and back.
        return None
    half = (start + end) // 2
    even = len(groups) == 2 and not (end - start) % 2
    # Of two halves the second may begin a count before the step that it is named after.
    upto, first = (half if even and abs(one - half) == 1 else one for one in (upto, first))
    return (first, upto) if first < upto else None


def _groups(heading: str) -> list[list[str]]:
    groups: list[list[str]] = [[]]
    for word in heading.lower().replace(",", " , ").split():
        if word in _PARTING:
            groups.append([])
        else:
            groups[-1].append(word)
    return [group for group in groups if any(_is_step(word) for word in group)]


def _is_step(word: str) -> bool:
    return word in STEP_WORDS or word.removesuffix("s") in STEP_WORDS


def _begins(group: Sequence[str], start: int, end: int, danced: Danced) -> int | None:
    """Where the first of the steps of a group is danced within the section."""
    inside = [first for first, last in danced(group) if start <= first < last <= end]
    return min(inside, default=None)
