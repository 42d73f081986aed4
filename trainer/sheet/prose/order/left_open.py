"""Sentences that leave open what is danced of their walls, and sentences that tell it for walls named before."""

from trainer.sheet.prose.order.atoms import Sentence


def only_names_walls(sentence: Sentence) -> bool:
    """Whether a sentence names walls of which more is told after it: "It falls in wall 3, which starts south"."""
    kinds = {atom.kind for atom in sentence.atoms if not atom.declares}
    named = any(atom.kind == "walls" and atom.walls and atom.at != "end" for atom in sentence.atoms)
    return named and not kinds & {"act", "place", "title", "change"}


def tells_how_far(sentence: Sentence) -> bool:
    """Whether a sentence tells how far a wall is danced that it does not name."""
    kinds = [atom.kind for atom in sentence.atoms]
    return kinds[:1] == ["place"] and "walls" not in kinds and sentence.letters.lstrip(">?I,")[:1] == "D"
