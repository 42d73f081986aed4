"""Sentences that leave open what is danced of their walls, and sentences that tell it for walls named before."""

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence


def only_names_walls(sentence: Sentence) -> bool:
    """Whether a sentence names walls of which more is told after it: "It falls in wall 3, which starts south"."""
    kinds = {atom.kind for atom in sentence.atoms if not atom.declares}
    named = any(atom.kind == "walls" and atom.walls and atom.at != "end" for atom in sentence.atoms)
    return named and not kinds & {"act", "place", "title", "change"}


def tells_how_far(sentence: Sentence) -> bool:
    """Whether a sentence tells how far a wall is danced that it does not name."""
    kinds = [atom.kind for atom in sentence.atoms]
    # "..., when you will be facing the front" names no other wall.
    walls = [atom for atom in sentence.atoms if atom.kind == "walls" and sentence.letters[atom.first] != "z"]
    if walls or "place" not in kinds or "walls" in kinds[: kinds.index("place")]:
        return False
    # "Break off after count 24, and start anew" under "Wall four is short."
    leaves = sentence.atoms[0].kind == "act" and sentence.atoms[0].act in "QR"
    return leaves or (kinds[:1] == ["place"] and sentence.letters.lstrip(">?I,")[:1] in ("D", "A", "E", "U", "Q", "R"))


def names_a_section(sentence: Sentence, atom: Atom) -> bool:
    """Whether words open a line as the name of its steps: "Last one. Right foot across, ... And off you go again"."""
    if atom.first or atom.act != "X":
        return False
    last = sentence.lexemes[atom.last - 1].last
    named = [token.low for token in sentence.tokens[:last] if token.low != "the"] in (["last", "one"], ["last", "bit"])
    return named and sentence.tokens[last : last + 1] != () and sentence.tokens[last].text in (".", ":", ",")
