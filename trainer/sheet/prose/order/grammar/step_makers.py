"""Atoms of steps and bars that are done: "do 4 hip sways" is no place, "do 16" and "when bar 6 is danced" are."""

import re

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.makers import number_spec

_FEW = 5
_NOT_MANY = {"across", "towards", "forwards", "backwards", "sideways", "upwards", "downwards", "always"}
"""Words of steps that end as plurals do."""


def counted_steps(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps told with how many there are, no place: "then do your two claps"; "do 16 touch" is one."""
    at = match.start() + match.group().index("n")
    if s.tokens[s.lexemes[at].first].kind == "word" and s.number(at) < _FEW:
        return []
    return [Atom("place", match.start(), at + 1, spec=number_spec(s, at))]


def many_steps(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """So many steps of a kind: "do 4 hip sways right, left, right, left"; None of "do 16, step right"."""
    at = match.start("len0")
    steps = s.words(at + 1, match.end("steps")).lower().split()
    many = [word for word in steps if word.endswith("s") and not word.endswith("ss") and word not in _NOT_MANY]
    return [Atom("loose", at, at + 1, spec=number_spec(s, at))] if many else None


def bar_done(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The place after a bar: "when bar 6 has been danced"; None of a mere number."""
    at = match.start("cnt")
    if not s.words(at, at + 1).lower().startswith(("bar", "measure")):
        return None
    return [Atom("place", match.start(), match.end(), spec=number_spec(s, at))]
