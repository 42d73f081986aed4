"""Sentences that have a section danced once more when a wall is over, in whatever order they tell it.

"End of wall 4, when we are home, do the whole box (8 counts of section 1) one extra time, then wall 5" says of wall 4
that section 1 is danced again at its end: it is told so in plain words, with what comes after.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_AGAIN = re.compile(
    r"(?:(?:a|an|one|1|another) second|\b(?:extra|more|additional|further)) time\b|\bonce (?:more|again)\b|"
    r"\bagain\b(?! (?:in|on|after|at the end of) (?:the )?(?:wall|w|second|third|fourth|fifth|sixth|seventh|eighth)\b)|"
    r"\brepeat(?:s|ed|ing)?\b|\b(?:on its own|by itself)\b"
)
_PART_OF_IT = re.compile(
    r"\b\d+ (?:-|to|through) \d+\b|\b(?:first|last) (?:two|three|four|2|3|4) (?:counts|beats)\b|\bhalf of\b"
)
"""So much of a section is danced again, and not the whole of it."""
_STARTS = {"start", "starts", "begin", "begins", "over", "go", "off", "full", "starting", "complete", "normal", "all"}
"""After these the dance begins again, or a wall is whole again."""
_ADDED = {"end", "plus", "+", "extra", "more", "additional", "before"}
"""With these a section is danced when its wall is over, and not in it."""
_OTHERWISE = set("VbMKQXGHNZ")
"""Letters of what is danced for something else or between sections, ends the dance, or has steps of its own."""
_LEADS = {",", "then", "and", "before"}
"""What comes after it begins with one of these."""
_COUNTS = {"counts", "count", "cts", "ct", "beats"}


def told_once_more(tokens: Sequence[Token], names: Names) -> tuple[Token, ...]:
    """Return a sentence that has a section danced once more in plain words; nothing where it has none."""
    lows = [token.low for token in tokens]
    said = _AGAIN.search(" ".join(lows))
    if said is None or _PART_OF_IT.search(" ".join(lows)) or {*" ".join(lows)[: said.start()].split()[-1:]} & _STARTS:
        return ()
    sentence = sentence_of(tokens, names)
    named = [atom for atom in sentence.atoms if atom.kind == "walls"]
    walls = [atom for atom in named if atom.at == "end" or not _begins(atom, sentence)]
    if _OTHERWISE & set(sentence.letters) or not walls or len(walls[0].walls) != 1 or walls[0].part:
        return ()
    section = _section(sentence)
    if not section or not (walls[0].at == "end" or _ADDED & set(lows)):
        return ()
    first = len(" ".join(lows)[: said.end()].split())
    after = next((at for at in range(first, len(tokens)) if lows[at] in _LEADS), len(tokens))
    rest = tokens[after:] if sentence.lexemes[walls[0].first].first < first else ()
    name = "Tag " if "T" in sentence.letters else ""
    plain = tokens_of(f"{name}after wall {walls[0].walls[0]}: repeat section {section}", tokens[0].line, 1)
    told = tuple(replace(token, column=tokens[0].column) for token in plain)
    return (*told, *rest)


def _begins(walls: Atom, sentence: Sentence) -> bool:
    """Whether a wall is named only as the one that comes next: "then wall 5", "before wall 5 starts"."""
    return bool(set(">B") & set(sentence.letters[max(walls.first - 1, 0) : walls.first + 1]))


def _section(sentence: Sentence) -> int:
    """Return the number of the section that a sentence names, or 0."""
    lows = [token.low for token in sentence.tokens]
    for at, low in enumerate(lows[:-2]):
        if low in _COUNTS and lows[at + 1] == "of" and lows[at + 2].isdecimal():
            return int(lows[at + 2])
    specs = [atom.spec for atom in sentence.atoms if atom.kind == "place" and atom.spec is not None]
    told = [spec for spec in specs if spec.section is not None and not spec.block]
    return told[0].section or 0 if len({spec.section for spec in told}) == 1 else 0
