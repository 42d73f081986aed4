"""A wall that a line names as no whole one, and of which nothing was understood: how far it goes by what fits alone.

All numbers, sections and halves that its sentences tell are candidates; it is left at the one inside the wall after
which count 1 finds its foot free, if there is but one, or at the one where one faces as is said.
"""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.sheet.prose.order.claims.claims import Claim, Key
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.fitting import Fit
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec

_OF_ELSE = set("TGXHMVbJpi")
"""Letters of what is put in, changed, or goes on: such sentences tell no mere cut."""
_EVIDENCE = set("RuSK")
"""Letters that say that a wall is no whole one."""
_HAS = {"has", "have", "had", "gets", "takes", "lasts", "is", "=", "goes", "runs"}
_WITHOUT = "[NK][?]?(?:o|L)h"
_PLACES = re.compile(
    rf"(?P<count>(?<!L)n-?c|cn(?!-))|(?P<without>{_WITHOUT})|"
    r"(?P<half>(?<![oL])h)|(?P<block>on(?![ct-]))|"
    r"(?P<section>s[nx](?![,&-]))|(?P<place>o-?s)|(?P<many>n-?s|n[?])|(?P<bare>(?<!L)n(?![\-&,]*n))"
)


def leave_in_doubt(ledger: Ledger, context: Context) -> None:
    """Leave walls that are named as no whole ones, and of which nothing was understood, where it fits."""
    walls = context.walls
    if context.claims or not context.bare or walls is None or context.owner is not None or ledger.known.parts:
        return
    if walls.span is None or walls.at == "end" or walls.nth is not None:
        return
    for key in ledger.passes(walls)[0]:
        wall = ledger.wall(key, walls.span, context.unit)
        after = _how_far(ledger, context.sentences, key, context.faces) if not wall.claims else None
        if after is not None:
            wall.claims.append(Claim(wall.span, context.unit, after, leave="restart"))


def _how_far(
    ledger: Ledger, sentences: Sequence[Sentence], key: Key, faced: Sequence[tuple[Fraction, bool]]
) -> int | None:
    """Return after how many counts a wall is left of which some sentences speak; None where it cannot be told."""
    letters = "".join(map(_said, sentences))
    if set(letters) & _OF_ELSE or not any(_limits(sentence) for sentence in sentences):
        return None
    length = ledger.ruler(key[0]).length
    found = {place for sentence in sentences for place in _places(ledger, sentence, key[0])}
    fit = Fit(ledger, key, (), [facing for facing, begins in faced if not begins])
    fitting = sorted(place for place in found if 0 < place < length and fit.begins_anew(place))
    if len(fitting) > 1:
        fitting = [place for place in fitting if fit.is_faced(place)]
    return fitting[0] if len(fitting) == 1 else None


def _said(sentence: Sentence) -> str:
    """Return the letters of a sentence without what is denied: "two eights instead of four"."""
    denied = [(atom.first, atom.last) for atom in sentence.atoms if atom.kind == "not"]
    return "".join(letter for at, letter in enumerate(sentence.letters) if not any(a <= at < b for a, b in denied))


def _limits(sentence: Sentence) -> bool:
    """Whether a sentence says that a wall is no whole one: that it is short, left, or has so many counts."""
    if set(sentence.letters) & _EVIDENCE or re.search(_WITHOUT, sentence.letters):
        return True
    walls = [atom for atom in sentence.atoms if atom.kind == "walls"]
    after = sentence.tokens[sentence.lexemes[walls[-1].last - 1].last :][:2] if walls else ()
    return any(token.low in _HAS for token in after)


def _places(ledger: Ledger, sentence: Sentence, part: str) -> Iterator[int]:
    """Yield what numbers and words of a sentence come to in counts, but for those of walls and facings."""
    ruler, phrase = ledger.ruler(part), ledger.known.phrase
    for match in _PLACES.finditer(sentence.letters):
        if any(_names_else(atom) and atom.first <= match.start() < atom.last for atom in sentence.atoms):
            continue
        numbers = [sentence.number(at) for at in range(*match.span()) if sentence.letters[at] in "nox"]
        number = numbers[0] if numbers else 0
        kind = match.lastgroup
        if kind in ("half", "without"):
            yield ruler.length // 2
        elif kind in ("section", "place", "block") and 0 < number <= len(ruler.ends):
            found = ledger.find(Spec(sentence.tokens[0].span, section=number), part)
            yield found.after if isinstance(found, Found) else 0
        elif kind == "many" and 0 < number <= len(ruler.ends):
            yield ruler.ends[number - 1]
        elif kind == "count" or (kind == "bare" and number >= phrase):
            yield number


def _names_else(atom: Atom) -> bool:
    return atom.kind in ("walls", "face", "total")
