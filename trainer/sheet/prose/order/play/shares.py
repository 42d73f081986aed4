"""How much of a part an order of play dances, told beside its name: "only the first eight of A", "A up to 16"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Ruler
from trainer.sheet.prose.order.grammar.telling import Known

_MEASURES = re.compile(r"[>D&I?]*(?:u.*|.*u|o(?:n.*|h)|U+c?n.*|U+c?o.*|[NK].*|.*h.*|n-?c)")
"""What is only a beginning: the first so many, up to a count, without the last ones, half."""
_GAP = re.compile(r"[,?>&\-]{0,3}$")
_ENDED = re.compile(r"$|[,.;\-&>|)(:]")
_KINDS = ("place", "loose", "change")


def before_part(sentence: Sentence, at: int) -> tuple[Atom, int] | None:
    """Return the share told from a lexeme on, and the index of the part that it is of: "the first eight of A"."""
    for atom in sentence.atoms:
        if atom.first == at and _measures(sentence, atom):
            follows = re.match("Ip", sentence.letters[atom.last :])
            return (atom, atom.last + 1) if follows else None
    return None


def after_part(sentence: Sentence, at: int) -> tuple[Atom, int] | None:
    """Return the share told of the part just named, and the index after it: "A, but only its first 16 counts"."""
    for atom in sentence.atoms:
        if atom.first < at or atom.kind not in _KINDS or atom.spec is None:
            continue
        letters = sentence.letters[atom.first : atom.last]
        if atom.kind == "loose" or not _measures(sentence, atom) or re.search("[AEBZ]", letters):
            return None
        near = _GAP.match(sentence.letters[at : atom.first]) and _ENDED.match(sentence.letters[atom.last :])
        return (atom, atom.last) if near else None
    return None


def counts_of(atom: Atom, known: Known, part: str) -> int | Fault | None:
    """Return how many counts of a part its share comes to."""
    assert atom.spec is not None
    ruler = Ruler(known, part)
    found = ruler.find(atom.spec)
    if atom.spec.block > 1 and isinstance(found, Fault):
        message = f"Part {part} has no {atom.spec.block} phrases of {atom.spec.count}: it has {ruler.length} counts"
        return Fault(message, atom.spec.span)
    if atom.spec.block > 1:
        return Fault(f"A part can only be cut at its end, and this leaves out the start of part {part}", atom.spec.span)
    return found.after if isinstance(found, Found) else found


_JOINED = re.compile(r"q(?:[&\-U/]q)*")


def opening_sections(sentence: Sentence, at: int, known: Known) -> tuple[str, int, int] | None:
    """Return the part of which a play names only the first sections, their counts, and the index after: "A1", "A1-A2".

    None where they are not the first ones, or all of their part.
    """
    match = _JOINED.match(sentence.letters, at)
    if match is None:
        return None
    named = [sentence.lexemes[one].text.upper() for one in range(at, match.end()) if sentence.letters[one] == "q"]
    for part, counts in known.parts:
        own = [
            (name.upper(), length) for name, length, _ in known.sections if name[: len(part)].upper() == part.upper()
        ]
        places = [place for place, (name, _) in enumerate(own) if name in named]
        told = named[0] == f"{part.upper()}1" and places and places[0] == 0
        length = sum(length for _, length in own[: places[-1] + 1]) if told else 0
        if told and all(name in [one for one, _ in own] for name in named) and length < counts:
            return part, length, match.end()
    return None


def _measures(sentence: Sentence, atom: Atom) -> bool:
    letters = sentence.letters[atom.first : atom.last]
    return atom.kind in _KINDS and atom.spec is not None and _MEASURES.fullmatch(letters) is not None
