"""Places and parts told by what is beside them: "between the eights", "after it comes figure 3", "end with B"."""

import re
from fractions import Fraction

from trainer.sheet.prose.order.grammar import makers
from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.places import Spec

_PARTS = {"eights", "halves", "sections", "sixes", "sets", "blocks", "8s", "sixteens"}


def between_two(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The place in the middle, of a dance of two such parts."""
    said = s.words(match.start(), match.end()).lower().split()
    number = next((s.number(at) for at in range(*match.span()) if s.letters[at] == "n"), 2)
    if said[-1] not in _PARTS or number != 2:
        return None
    spec = Spec(s.span(match.start(), match.end()), " ".join(said), share=Fraction(1, 2))
    return [Atom("place", match.start(), match.end(), spec=spec)]


_COMES = {"comes", "come", "follows", "follow", "goes", "dance", "continue"}
_IT = {"it", "this", "that", "them", "which"}


def comes_after_it(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Where the dance goes on after what was put in: "after it comes figure 3 as normal", "then comes section 3"."""
    first = s.lexemes[match.start()].first
    lows = [token.low for token in s.tokens[first : first + 6]]
    if not set(lows) & _COMES:
        return None
    if s.letters[match.start()] == ">":
        return [Atom("onward", match.start(), match.end())]
    return makers.onward(s, match) if lows[1] in _IT else None


def closes_with_part(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A part that is danced last is no ending: "and we finish with B"."""
    return []


def after_that(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """Words that only lead on from what was put in: "after that we continue", "after this go on"."""
    first, last = s.lexemes[match.start()].first, s.lexemes[match.end()].first
    between = {token.low for token in s.tokens[first + 1 : last]}
    return [] if between & _IT else None
