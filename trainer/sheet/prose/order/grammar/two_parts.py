"""The middle of a dance told as the place between its parts: "between the eights", "between the two halves"."""

import re
from fractions import Fraction

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.places import Spec

_PARTS = {"eights", "halves", "sections", "sixes", "sets", "blocks", "8s", "sixteens"}


def between_two(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The place in the middle, of a dance of two such parts."""
    said = s.words(match.start(), match.end()).lower().split()
    number = next((s.number(at) for at in range(*match.span()) if s.letters[at] == "n"), 2)
    if said[-1] not in _PARTS or number != 2:
        return []
    spec = Spec(s.span(match.start(), match.end()), " ".join(said), share=Fraction(1, 2))
    return [Atom("place", match.start(), match.end(), spec=spec)]
