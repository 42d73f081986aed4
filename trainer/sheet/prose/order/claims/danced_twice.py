"""A section danced twice within a wall: "the fourth time dance bit 1 twice", "on wall 6 repeat the second eight".

It is told in plain words as a bridge that is made of that section's own counts: "wall 4: after section 1, bridge:
repeat section 1". Sentences about the end of a wall, tags, and the parts of a phrased dance say something else.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_TWICE = re.compile(
    r"\b(?:twice(?: over)?|two times|2 times|2 x|x 2|doubled|double|(?:for )?(?:a|the) second time|"
    r"once (?:more|again)|one more time|again|another time|over again)\b"
)
_REPEATED = re.compile(r"\b(?:repeat(?:s|ed|ing)?|redo(?:ne)?|double)\b")
_BEGINS_AGAIN = re.compile(
    r"\b(?:start(?:s|ing)?|begin(?:s|ning)?|restart(?:s|ing)?|the dance|from the (?:top|beginning|start))\b"
    r"[^,;:]{0,12}\bagain\b|\bstart over\b|\bfrom the (?:top|beginning|start)\b"
)
"""A wall that is left, and no section that is danced again."""
_LEADS_TO_IT = re.compile(r"\b(?:repeat|repeats|repeating|redo|double)(?: the| all of)?$")
_VERBS = re.compile(r"^(?:[,()] ?|(?:is|are|gets?|comes?|danced|done|goes|happens|played) )+")
"""What stands between a section and the word that says it is danced twice."""
_IT_AGAIN = re.compile(r"^(?:,? ?(?:and )?(?:then )?)?(?:dance|do) (?:it|that|this)(?: \w+){0,2} again\b")
_PART_OF_IT = re.compile(r"\bhalf\b|\bcounts? \d+ ?(?:-|to|and|&|through)|\b(?:first|last) (?:two|three|four|2|3|4)\b")
_LENGTH = re.compile(
    r"(?: ?[,;(])?(?: so| and| which means| that is)* (?:that|this|the) wall (?:then |now )?"
    r"(?:has|is|lasts|takes|runs) \d+ counts?(?: long| in all| altogether)?(?: \))?|"
    r"(?<=twice) [,(-] ?(?:both times|each time|the (?:second|2 nd) time|once (?:to|facing))\b.*"
)
"""What the wall comes to, and where the section is danced the second time."""
_OTHERWISE = set("TGXQVbHM")
"""Letters of extras, endings, holds and of what is danced for something else."""


def told_twice(tokens: Sequence[Token], names: Names, sections: Sequence[int], *, of_a_wall: bool) -> tuple[Token, ...]:
    """Return a sentence that has a section danced twice within a wall in plain words; nothing where it has none.

    `sections` are the lengths of the dance's; `of_a_wall` says that the sentences before tell of some wall.
    """
    tokens = _without_length(tokens)
    text = " ".join(token.low for token in tokens)
    repeated = _REPEATED.search(text)
    again = repeated or (_TWICE.search(text) and not _BEGINS_AGAIN.search(text))
    if not again or _PART_OF_IT.search(text):
        return ()
    sentence = sentence_of(tokens, names)
    walls = [atom for atom in sentence.atoms if atom.kind == "walls"]
    if _OTHERWISE & set(sentence.letters) or len(walls) > 1 or not (walls or of_a_wall):
        return ()
    if walls and (walls[0].at == "end" or walls[0].part or walls[0].every or not walls[0].walls):
        return ()
    if any(one.kind == "place" and one.spec is not None and _is_a_count(one.spec) for one in sentence.atoms):
        # "Wall 3 after 16 counts: repeat section 2" tells its place.
        return ()
    section = _doubled(sentence, sections)
    if not section:
        return ()
    told = f"wall{'s' if len(walls[0].walls) > 1 else ''} {' and '.join(map(str, walls[0].walls))}: " if walls else ""
    plain = f"{told}after section {section}, bridge: repeat section {section}, then continue"
    return tuple(replace(token, column=tokens[0].column) for token in tokens_of(plain, tokens[0].line, 1))


def _without_length(tokens: Sequence[Token]) -> Sequence[Token]:
    text = " ".join(token.low for token in tokens)
    if (said := _LENGTH.search(text)) is None:
        return tokens
    first, last = (len(text[:end].split()) for end in said.span())
    return (*tokens[:first], *tokens[last:])


def _doubled(sentence: Sentence, sections: Sequence[int]) -> int:
    """Return the number of the section that is danced twice, or 0: the one beside the word that says so.

    One that the dance does not have is returned too: it is found to be missing where it is put in.
    """
    text = [token.low for token in sentence.tokens]
    for atom in sentence.atoms:
        number = _number(sentence, atom, sections) if atom.kind in ("place", "loose") else 0
        before, after = _words(sentence, text, atom) if number else ("", "")
        told = _TWICE.match(after) or _REPEATED.match(after) or _LEADS_TO_IT.search(before) or _IT_AGAIN.search(after)
        if number and told:
            return number
    return 0


def _words(sentence: Sentence, text: Sequence[str], atom: Atom) -> tuple[str, str]:
    first, last = sentence.lexemes[atom.first].first, sentence.lexemes[atom.last - 1].last
    return " ".join(text[:first]), _VERBS.sub("", " ".join(text[last:]))


def _is_a_count(spec: Spec) -> bool:
    """Whether a place is told by its count alone."""
    return spec.count is not None and not (spec.block or spec.section or spec.from_end or spec.named)


def _number(sentence: Sentence, atom: Atom, sections: Sequence[int]) -> int:
    """Return which section a place is, or 0."""
    spec = atom.spec
    if spec is None:
        return 0
    if spec.from_end or sentence.letters[max(atom.first - 1, 0)] == "L":
        return len(sections) if spec.count in (None, sections[-1]) else 0
    if spec.count is None:
        return spec.section or 0
    # "The first eight" is so many counts.
    first = spec.count == sections[0] and not (spec.section or spec.first or spec.before)
    return spec.block or int(first)
