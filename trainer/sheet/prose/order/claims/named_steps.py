"""Steps that a sentence only names, of which the dance itself says where they are: how far a wall goes, what it lacks.

"Wall 3: vines, walks, and again from the top"; "on wall 3 leave out the jazz box and the stomps". A name may be that
of a section, of some steps in it, or of one; which is meant is decided by what fits (`fitting.py`).
"""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.lexis.vocabulary import FILLERS, NUMBERS, STEP_WORDS
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.words import Token

_PARTING = {",", "&", "and", "+", "then", "plus", "or", "nor", ";", "/", "also"}
_BESIDE = {
    "the", "your", "our", "my", "both", "all", "just", "only", "do", "dance", "danced", "you", "we", "not", "no",
    "those", "these", "whole", "any", "of", "them", "section", "part", "bit", "nothing", "more", "else", "alone", "two",
}  # fmt: skip
"""Words beside the names of steps."""
_SIDES = {"right", "left", "r", "l", "rf", "lf", "back", "forward", "fwd"}
"""Words of steps that are told to be danced now, and not only named."""
_FEET = {"right", "left", "r", "l", "rf", "lf"}
_UNKNOWN = 2.0
"""So doubtful is a place before which steps are named that the dance does not call so."""
_NEVER = 1000.0
_Run = tuple[int, int]


def names_in(ruler: Ruler, tokens: Sequence[Token]) -> list[tuple[str, ...]]:
    """Return the names of steps that words are, in order; none where they are, or tell, anything else."""
    names: list[list[str]] = [[]]
    for token in tokens:
        if token.low in _PARTING or token.kind == "amp":
            names.append([])
        elif token.low in _BESIDE or token.low in FILLERS or token.low in NUMBERS or token.kind == "number":
            continue
        elif token.low in STEP_WORDS or token.low.removesuffix("s") in STEP_WORDS or ruler.knows(token.low):
            names[-1].append(token.low)
        else:
            return []
    found = [tuple(name) for name in names if name]
    return [] if any(set(name) <= _SIDES or _FEET & set(name) for name in found) else found


def ends_of(ruler: Ruler, names: Sequence[Sequence[str]], *, anywhere: bool = False) -> list[int]:
    """Return after how many counts the last of some steps may be over, the first of which open the dance.

    The likelier come first; none where the steps do not follow each other from count 1 on, or from `anywhere`.
    """
    reached: dict[int, float] = {0: 0.0}
    for name in names:
        after: dict[int, float] = {}
        for (first, last), doubt in _runs(ruler, name):
            for at, before in reached.items():
                near = first <= at or (at and _section_of(ruler, first) == _section_of(ruler, at - 1))
                if near or before >= _UNKNOWN or (anywhere and not at):
                    end = max(at, last)
                    after[end] = min(after.get(end, _NEVER), before + doubt)
        reached = after or {at: doubt + _UNKNOWN for at, doubt in reached.items()}
    return sorted((end for end in reached if end), key=lambda end: (reached[end], end not in ruler.ends, -end))


def starts_of(ruler: Ruler, names: Sequence[Sequence[str]]) -> list[int]:
    """Return after how many counts the first of some steps may begin, the likelier first; none where none is known."""
    each = [sorted(_runs(ruler, name), key=lambda run: (run[1], -run[0][0])) for name in names]
    known = [runs for runs in each if runs]
    if not known:
        return []
    opens = min(known, key=lambda runs: runs[0][0][0])
    places = list(dict.fromkeys(run[0] for run, _ in opens))
    if each[0]:
        return places
    # What comes first the dance does not call so: it opens the section, or the one before.
    sections = [end for end in (0, *ruler.ends) if end < places[0]]
    return sections[::-1][:1]


def runs_named(ruler: Ruler, name: Sequence[str]) -> list[tuple[int, int]]:
    """Return where steps of a name may be danced: counts before and after, each once."""
    return sorted({run for run, _ in _runs(ruler, name)})


def _section_of(ruler: Ruler, at: int) -> int:
    return sum(end <= at for end in ruler.ends)


def _runs(ruler: Ruler, name: Sequence[str]) -> list[tuple[_Run, float]]:
    """Return where steps of a name may be danced, each with how doubtful it is."""
    found: list[tuple[_Run, float]] = []
    starts = [0, *ruler.ends]
    for place in ruler.headed(name):
        part = ruler.part_headed(place, name)
        if part is not None:
            found.append((part, 0.0))
        found.append(((starts[place], starts[place + 1]), 0.5 if ruler.told_more(place, name) else 0.0))
    danced = ruler.danced(name)
    found += [(run, 1.0) for run in danced]
    wanted = stems(name)
    within = {_section_of(ruler, first) for first, _ in danced}
    if name[-1].endswith("s") and len(within) == 1 and len(danced) > 1:
        # "The walks" are all of the one section in which one walks.
        place = within.pop()
        found.append(((starts[place], starts[place + 1]), 0.9))
    return found + [((first, last), 1.5) for first, last, said in ruler.steps if wanted and wanted <= said]
