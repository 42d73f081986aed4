"""Sentences that stand over the steps of an extra: which of them speak of it, and which only of the walls before."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.words import Token


def named_from(parts: Sequence[Sequence[Token]], names: Names) -> int:
    """Return the index of the first sentence that names an extra and its wall; 0 where none tells both.

    "Walls 5 and 6 are full walls again. At the end of wall 6 a tag of four:" has the tag in wall 6 only.
    """
    for place, part in enumerate(parts):
        atoms = sentence_of(part, names).atoms
        if any(atom.act in ("T", "G", "X") for atom in atoms):
            return place if any(atom.kind == "walls" for atom in atoms) else 0
    return 0
